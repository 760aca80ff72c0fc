#include <algorithm>
#include <cmath>
#include <numbers>

#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"

namespace rootstead {
namespace {

constexpr double kMitreLimit = 5;  // longest mitre in half-widths

// The half-width turned a quarter to the left of the way from a to b.
Point left_of(const Point& a, const Point& b, double half_width) {
  const double scale = half_width / std::hypot(b.x - a.x, b.y - a.y);
  return {-(b.y - a.y) * scale, (b.x - a.x) * scale};
}

Point plus(const Point& p, const Point& d, double k = 1) {
  return {p.x + k * d.x, p.y + k * d.y};
}

// The rectangle of one stretch; the line's own ends are corners of it too, so that it meets the
// next one along whole edges.
Polygon stretch_of(const Point& a, const Point& b, double half_width) {
  const Point left = left_of(a, b, half_width);
  return {{plus(a, left), a, plus(a, left, -1), plus(b, left, -1), b, plus(b, left)}, {}};
}

// What closes the gap between two stretches on the outside of the bend at b.
Polygon wedge_at(const Point& a, const Point& b, const Point& c, double half_width) {
  const Point before = left_of(a, b, half_width);
  const Point after = left_of(b, c, half_width);
  const double turn = before.x * after.y - before.y * after.x;
  const double outside = turn > 0 ? -1 : 1;  // a left bend opens on the right
  Polygon wedge{{b, plus(b, before, outside), plus(b, after, outside)}, {}};
  // The mitre lies along before + after; with t the turn, its length is half_width / cos(t/2).
  const Point sum = plus(before, after);
  const double cos_half = std::hypot(sum.x, sum.y) / (2 * half_width);
  if (cos_half * kMitreLimit >= 1) {
    const Point tip = plus(b, sum, outside / (2 * cos_half * cos_half));
    wedge.outer.insert(wedge.outer.begin() + 2, tip);
  }
  return wedge;
}

Line distinct_finite(const Line& line) {
  Line kept;
  for (const Point& p : line) {
    if (is_finite(p) && (kept.empty() || p != kept.back())) kept.push_back(p);
  }
  return kept;
}

}  // namespace

MultiPolygon corridor(const Line& line, Length half_width) {
  const double w = half_width.metres();
  const Line points = distinct_finite(line);
  if (points.size() < 2 || !(w > 0)) return {};
  std::vector<MultiPolygon> parts;
  for (std::size_t i = 0; i + 1 < points.size(); ++i)
    parts.push_back({stretch_of(points[i], points[i + 1], w)});
  for (std::size_t i = 1; i + 1 < points.size(); ++i)
    parts.push_back({wedge_at(points[i - 1], points[i], points[i + 1], w)});
  if (points.size() > 3 && points.front() == points.back())
    parts.push_back({wedge_at(points[points.size() - 2], points[0], points[1], w)});
  if (parts.size() == 1) return {parts.front().front()};
  return union_of(parts);
}

Polygon polygon_of(const Circle& circle, int corners) {
  Polygon polygon;
  for (int i = 0; i < corners; ++i) {
    const double angle = 2 * std::numbers::pi * i / corners;
    polygon.outer.push_back({circle.centre.x + circle.radius.metres() * std::cos(angle),
                             circle.centre.y + circle.radius.metres() * std::sin(angle)});
  }
  return polygon;
}

}  // namespace rootstead
