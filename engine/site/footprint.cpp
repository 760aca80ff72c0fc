#include <algorithm>
#include <cmath>

#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/site/work.hpp"

namespace rootstead {
namespace {

constexpr Length kLeastSpacing = Length::millimetres(100);

bool is_areal(WorkKind kind) {
  switch (kind) {
    case WorkKind::pit:
    case WorkKind::cut:
    case WorkKind::fill:
    case WorkKind::paving:
    case WorkKind::traffic:
    case WorkKind::building:
      return true;
    default:
      return false;
  }
}

bool closes(const Line& line) {
  return line.size() > 3 && line.front() == line.back();
}

// A square about `centre` whose sides run along and across the azimuth.
Polygon square_at(const Point& centre, Length side, Angle along) {
  const double half = side.metres() / 2;
  const double s = std::sin(along.radians()) * half, c = std::cos(along.radians()) * half;
  return {{{centre.x + s - c, centre.y + c + s},
           {centre.x - s - c, centre.y - c + s},
           {centre.x - s + c, centre.y - c - s},
           {centre.x + s + c, centre.y + c - s}},
          {}};
}

// Post holes at both ends of the line and evenly between.
void add_posts(const Line& line, Length spacing, Length side, std::vector<MultiPolygon>& parts) {
  const double length = length_of(line).metres();
  if (!(length > 0)) return;
  const double bays = std::ceil(length / spacing.metres() * (1 - 1e-12));
  double next = 0, passed = 0, placed = 0;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const double stretch = distance(line[i - 1], line[i]).metres();
    if (!(stretch > 0)) continue;
    const Angle along = azimuth(line[i - 1], line[i]);
    const double slack = 1e-9 * length;  // so that rounding does not lose the last post
    while (placed <= bays && next <= passed + stretch + slack) {
      const Length way = Length::metres(std::min(next - passed, stretch));
      parts.push_back({square_at(offset(line[i - 1], along, way), side, along)});
      next = length * (++placed / bays);
    }
    passed += stretch;
  }
}

void add_line(const Work& work, const Line& line, std::vector<MultiPolygon>& parts) {
  const Length width = width_of(work);
  if (is_areal(work.kind) && closes(line)) {
    parts.push_back({Polygon{line, {}}});
    return;
  }
  if (work.kind == WorkKind::bore && depth_of(work) >= kShallowBore) return;
  const Length spacing = work.spacing.value_or(kDefaultPostSpacing).length();
  if (work.kind == WorkKind::fence_posts && spacing > std::max(width, kLeastSpacing)) {
    add_posts(line, spacing, width, parts);
  } else {
    parts.push_back(corridor(line, width / 2));
  }
}

}  // namespace

MultiPolygon footprint(const Work& work, bool with_working_room) {
  std::vector<MultiPolygon> parts = {work.shape.areas};
  if (work.kind == WorkKind::bore) parts.push_back(work.bore_pits);
  for (const Line& line : work.shape.lines) add_line(work, line, parts);
  for (const Point& point : work.shape.points) {
    if (is_finite(point)) parts.push_back({square_at(point, width_of(work), Angle())});
  }
  const MultiPolygon ground = union_of(parts);
  if (!with_working_room || !work.working_room) return ground;
  return grown(ground, std::max(work.working_room->length(), Length()));
}

}  // namespace rootstead
