#include "engine/geom/circle_area.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace rootstead {
namespace {

// Twice the area of the sector that the ray from the centre sweeps while its foot runs along a
// line at signed distance `h` from `from` to `to`, both measured from the nearest point.
double swept_sector(double radius, double h, double from, double to) {
  return radius * radius * std::atan2(h * (to - from), h * h + from * to);
}

// Twice the signed area common to the disc and the triangle (centre, a, b), coordinates from the
// centre: a sector where the edge runs outside the disc, a triangle where it runs inside.
double swept_by_edge(double radius, const Point& a, const Point& b) {
  const double dx = b.x - a.x;
  const double dy = b.y - a.y;
  const double length = std::sqrt(dx * dx + dy * dy);
  if (!(length > 0)) return 0;
  const double h = (a.x * dy - a.y * dx) / length;
  const double from = (a.x * dx + a.y * dy) / length;
  const double to = from + length;
  const double half_chord_squared = (radius - h) * (radius + h);
  if (half_chord_squared <= 0) return swept_sector(radius, h, from, to);
  const double half_chord = std::sqrt(half_chord_squared);
  if (from >= half_chord || to <= -half_chord) return swept_sector(radius, h, from, to);
  double sum = h * (std::min(to, half_chord) - std::max(from, -half_chord));
  if (from < -half_chord) sum += swept_sector(radius, h, from, -half_chord);
  if (to > half_chord) sum += swept_sector(radius, h, half_chord, to);
  return sum;
}

double common_with_ring(const Circle& circle, const Ring& ring) {
  const double radius = circle.radius.metres();
  const Point& c = circle.centre;
  double twice = 0;
  if (ring.size() < 3) return 0;
  Point a{ring.back().x - c.x, ring.back().y - c.y};
  for (const Point& corner : ring) {
    const Point b{corner.x - c.x, corner.y - c.y};
    twice += swept_by_edge(radius, a, b);
    a = b;
  }
  return std::abs(twice) / 2;
}

// Is the whole ring beyond one of the four tangents along the axes? Most polygons near a tree are.
bool clear_of(const Circle& circle, const Ring& ring) {
  const double r = circle.radius.metres();
  bool west = true, east = true, south = true, north = true;
  for (const Point& p : ring) {
    west = west && p.x - circle.centre.x <= -r;
    east = east && p.x - circle.centre.x >= r;
    south = south && p.y - circle.centre.y <= -r;
    north = north && p.y - circle.centre.y >= r;
  }
  return west || east || south || north;
}

// x - sin x without losing the digits that the two have in common.
double less_its_sine(double x) {
  if (std::abs(x) > 1) return x - std::sin(x);
  double term = x * x * x / 6;
  double sum = term;
  for (int n = 4; std::abs(term) > 1e-18 * std::abs(sum); n += 2) {
    term *= -x * x / (n * (n + 1));
    sum += term;
  }
  return sum;
}

}  // namespace

Area common_area(const Circle& circle, const Polygon& polygon) {
  if (!(circle.radius > Length()) || clear_of(circle, polygon.outer)) return {};
  double area = common_with_ring(circle, polygon.outer);
  for (const Ring& hole : polygon.holes) area -= common_with_ring(circle, hole);
  const Area whole = circle_area(circle.radius);
  return std::clamp(Area::square_metres(area), Area(), whole);
}

Area common_area(const Circle& circle, const MultiPolygon& area) {
  Area sum;
  for (const Polygon& polygon : area) sum += common_area(circle, polygon);
  return std::min(sum, std::max(circle_area(circle.radius), Area()));
}

Area segment_area(Length radius, Length distance) {
  const double r = radius.metres();
  const double d = distance.metres();
  if (!(r > 0) || d >= r) return {};
  if (d <= -r) return circle_area(radius);
  // Half the angle at the centre, from r - d, which keeps its digits where d is close to r.
  const double half = 2 * std::asin(std::sqrt((r - d) / (2 * r)));
  return Area::square_metres(r * r / 2 * less_its_sine(2 * half));
}

}  // namespace rootstead
