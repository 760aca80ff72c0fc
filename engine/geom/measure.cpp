#include "engine/geom/measure.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

namespace rootstead {
namespace {

double cross(const Point& origin, const Point& a, const Point& b) {
  return (a.x - origin.x) * (b.y - origin.y) - (a.y - origin.y) * (b.x - origin.x);
}

// Area and first moments of a ring about its first point, all as if counter-clockwise.
struct Moments {
  double area = 0, x = 0, y = 0;
};

Moments moments_about(const Point& origin, const Ring& ring) {
  Moments sum;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point& a = ring[i];
    const Point& b = ring[i + 1 < ring.size() ? i + 1 : 0];
    const double twice = cross(origin, a, b);
    sum.area += twice / 2;
    sum.x += twice * (a.x - origin.x + b.x - origin.x) / 6;
    sum.y += twice * (a.y - origin.y + b.y - origin.y) / 6;
  }
  if (sum.area < 0) return {-sum.area, -sum.x, -sum.y};
  return sum;
}

Point mean_of(const Ring& ring) {
  const Point& origin = ring.front();
  Point sum;
  for (const Point& p : ring) {
    sum.x += p.x - origin.x;
    sum.y += p.y - origin.y;
  }
  const auto n = static_cast<double>(ring.size());
  return {origin.x + sum.x / n, origin.y + sum.y / n};
}

enum class Side { outside, boundary, inside };

bool between(double value, double a, double b) {
  return std::min(a, b) <= value && value <= std::max(a, b);
}

// Counts crossings of the ray that runs east from the point; an edge owns its lower end only, so
// a ray through a vertex counts once.
Side side_of(const Ring& ring, const Point& p) {
  bool inside = false;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point& a = ring[i];
    const Point& b = ring[i + 1 < ring.size() ? i + 1 : 0];
    if (!between(p.y, a.y, b.y)) continue;
    const double turn = cross(p, a, b);
    if (turn == 0 && between(p.x, a.x, b.x)) return Side::boundary;
    if ((a.y <= p.y) != (b.y <= p.y) && (turn > 0) == (b.y > a.y)) inside = !inside;
  }
  return inside ? Side::inside : Side::outside;
}

void stretch(Box& box, const Point& p) {
  if (!is_finite(p)) return;
  if (box.empty()) {
    box = {p.x, p.y, p.x, p.y};
    return;
  }
  box = {std::min(box.min_x, p.x), std::min(box.min_y, p.y), std::max(box.max_x, p.x),
         std::max(box.max_y, p.y)};
}

}  // namespace

double signed_area(const Ring& ring) {
  double twice = 0;
  for (std::size_t i = 2; i < ring.size(); ++i) twice += cross(ring[0], ring[i - 1], ring[i]);
  return twice / 2;
}

Area area_of(const Polygon& polygon) {
  double area = std::abs(signed_area(polygon.outer));
  for (const Ring& hole : polygon.holes) area -= std::abs(signed_area(hole));
  return Area::square_metres(std::max(area, 0.0));
}

Area area_of(const MultiPolygon& area) {
  Area sum;
  for (const Polygon& polygon : area) sum += area_of(polygon);
  return sum;
}

Length length_of(const Line& line) {
  Length sum;
  for (std::size_t i = 1; i < line.size(); ++i) sum += distance(line[i - 1], line[i]);
  return sum;
}

Box box_of(const Line& points) {
  Box box;
  for (const Point& p : points) stretch(box, p);
  return box;
}

Box box_of(const MultiPolygon& area) {
  Box box;
  for (const Polygon& polygon : area) {
    for (const Point& p : polygon.outer) stretch(box, p);
  }
  return box;
}

Box joined(const Box& a, const Box& b) {
  if (a.empty()) return b;
  if (b.empty()) return a;
  return {std::min(a.min_x, b.min_x), std::min(a.min_y, b.min_y), std::max(a.max_x, b.max_x),
          std::max(a.max_y, b.max_y)};
}

Point centroid_of(const Polygon& polygon) {
  assert(!polygon.outer.empty());
  const Point origin = polygon.outer.front();
  Moments sum = moments_about(origin, polygon.outer);
  for (const Ring& ring : polygon.holes) {
    const Moments hole = moments_about(origin, ring);
    sum = {sum.area - hole.area, sum.x - hole.x, sum.y - hole.y};
  }
  if (!(sum.area > 0)) return mean_of(polygon.outer);
  return {origin.x + sum.x / sum.area, origin.y + sum.y / sum.area};
}

bool contains(const Polygon& polygon, const Point& point) {
  const Side outer = side_of(polygon.outer, point);
  if (outer != Side::inside) return outer == Side::boundary;
  return std::none_of(polygon.holes.begin(), polygon.holes.end(),
                      [&](const Ring& hole) { return side_of(hole, point) == Side::inside; });
}

bool contains(const MultiPolygon& area, const Point& point) {
  return std::any_of(area.begin(), area.end(),
                     [&](const Polygon& polygon) { return contains(polygon, point); });
}

bool is_finite(const Point& point) {
  return std::isfinite(point.x) && std::isfinite(point.y);
}

Angle azimuth(const Point& from, const Point& to) {
  constexpr double kTurn = 2 * std::numbers::pi;
  const double angle = std::atan2(to.x - from.x, to.y - from.y);
  const double positive = angle < 0 ? angle + kTurn : angle;
  return Angle::radians(positive < kTurn ? positive : 0.0);
}

Point offset(const Point& from, Angle azimuth, Length distance) {
  return {from.x + distance.metres() * std::sin(azimuth.radians()),
          from.y + distance.metres() * std::cos(azimuth.radians())};
}

Length distance(const Point& a, const Point& b) {
  return Length::metres(std::hypot(b.x - a.x, b.y - a.y));
}

Length distance(const Point& point, const Box& box) {
  const double dx = std::max({box.min_x - point.x, 0.0, point.x - box.max_x});
  const double dy = std::max({box.min_y - point.y, 0.0, point.y - box.max_y});
  return Length::metres(std::hypot(dx, dy));
}

}  // namespace rootstead
