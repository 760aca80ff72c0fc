#include "engine/revisions/changed_place.hpp"

#include <algorithm>
#include <limits>

#include "engine/geom/along.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/revisions/compare.hpp"

namespace rootstead {
namespace {

// The outline as pieces from corner to corner; a single point is a piece without length.
std::vector<std::pair<Point, Point>> pieces_of(const Shape& shape) {
  std::vector<std::pair<Point, Point>> pieces;
  const auto along = [&](const Line& line, bool closed) {
    if (line.empty()) return;
    for (std::size_t i = 1; i < line.size(); ++i) pieces.emplace_back(line[i - 1], line[i]);
    if (closed || line.size() == 1) pieces.emplace_back(line.back(), line.front());
  };
  for (const Line& line : shape.lines) along(line, false);
  for (const Polygon& area : shape.areas) {
    along(area.outer, true);
    for (const Ring& hole : area.holes) along(hole, true);
  }
  for (const Point& point : shape.points) pieces.emplace_back(point, point);
  return pieces;
}

double furthest(const std::vector<std::pair<Point, Point>>& corners,
                const std::vector<std::pair<Point, Point>>& outline) {
  double most = 0;
  const auto consider = [&](const Point& corner) {
    double nearest = std::numeric_limits<double>::infinity();
    for (const auto& [a, b] : outline)
      nearest = std::min(nearest, distance_to_segment(corner, a, b));
    most = std::max(most, nearest);
  };
  for (const auto& [a, b] : corners) consider(a), consider(b);
  return most;
}

}  // namespace

std::optional<Length> moved_by(const Shape& before, const Shape& after) {
  const auto was = pieces_of(before), is = pieces_of(after);
  if (was.empty() || is.empty()) return std::nullopt;
  const Length moved = Length::metres(std::max(furthest(was, is), furthest(is, was)));
  return moved < kSamePlace ? std::nullopt : std::optional(moved);
}

MultiPolygon ground_of_shape(const Shape& shape, Length width) {
  std::vector<MultiPolygon> parts{shape.areas};
  for (const Line& line : shape.lines) parts.push_back(corridor(line, width / 2));
  for (const Point& point : shape.points) parts.push_back({polygon_of({point, width / 2}, 16)});
  return union_of(parts);
}

MultiPolygon either_not_both(const MultiPolygon& a, const MultiPolygon& b) {
  return union_of({difference_of(a, b), difference_of(b, a)});
}

}  // namespace rootstead
