#include "engine/rules/crown_zone.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace rootstead {
namespace {

constexpr double kQuarterTurn = std::numbers::pi / 2;

// A quarter of the perimeter of an ellipse, by the arithmetic-geometric mean (Gauss; Abramowitz and
// Stegun 17.6): full accuracy in a handful of steps.
double quarter_perimeter(double a, double b) {
  if (a < b) std::swap(a, b);
  if (b == 0) return a;
  double x = a, y = b, weight = 1, sum = a * a - (a * a - b * b) / 2;
  // The difference is squared in each step: once it is this small, the next one counts for nothing.
  constexpr double kSettled = 1e-9;
  for (double c = a; c > kSettled * a; weight *= 2) {
    c = (x - y) / 2;
    const double mean = std::sqrt(x * y);
    x = (x + y) / 2;
    y = mean;
    sum -= weight * c * c;
  }
  return kQuarterTurn * sum / x;
}

// The point of the ellipse with half axes a (along x) and b whose outward normal has this angle.
Point with_normal(double a, double b, double cosine, double sine) {
  const double size = std::hypot(a * cosine, b * sine);
  if (size == 0) return {0, 0};
  return {a * a * cosine / size, b * b * sine / size};
}

}  // namespace

bool GrownCrown::is_circle() const {
  return std::all_of(radii.begin(), radii.end(), [&](double r) { return r == radii.front(); });
}

Area GrownCrown::area() const {
  double crown = 0, perimeter = 0;
  for (std::size_t side = 0; side < radii.size(); ++side) {
    const double a = radii[side], b = radii[(side + 1) % radii.size()];
    crown += std::numbers::pi / 4 * a * b;
    perimeter += quarter_perimeter(a, b);
  }
  return Area::square_metres(crown + perimeter * growth + std::numbers::pi * growth * growth);
}

Length GrownCrown::reach() const {
  return Length::metres(*std::max_element(radii.begin(), radii.end()) + growth);
}

Length GrownCrown::nearest() const {
  return Length::metres(*std::min_element(radii.begin(), radii.end()) + growth);
}

// The corners are spread as on an ellipse with the grown radii as half axes: evenly for a circle,
// closer where the outline bends. A crown that is not grown keeps the circle's relative error.
Polygon GrownCrown::outline(const Point& centre, int segments) const {
  const auto [north, east, south, west] = radii;
  Polygon polygon;
  for (int i = 0; i < 4 * segments; ++i) {
    const double turn = kQuarterTurn * i / segments;  // from east, counter-clockwise
    const double a = std::cos(turn) >= 0 ? east : west, b = std::sin(turn) >= 0 ? north : south;
    const double x = std::cos(turn) * (b + growth), y = std::sin(turn) * (a + growth);
    const double size = std::hypot(x, y);
    const double cosine = size > 0 ? x / size : 0, sine = size > 0 ? y / size : 0;
    const Point on_crown = growth > 0 ? with_normal(a, b, cosine, sine)
                                      : Point{a * std::cos(turn), b * std::sin(turn)};
    polygon.outer.push_back(
        {centre.x + on_crown.x + growth * cosine, centre.y + on_crown.y + growth * sine});
  }
  return polygon;
}

}  // namespace rootstead
