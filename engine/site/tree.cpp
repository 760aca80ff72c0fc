#include "engine/site/tree.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

namespace rootstead {
namespace {

constexpr double kPi = std::numbers::pi;

// The semi-axes of the quarter ellipse that begins at one of north, west, south, east and runs
// counter-clockwise, and the signs of its quadrant.
struct Quarter {
  double east = 0, north = 0;  // semi-axes
  double sign_x = 1, sign_y = 1;
};

std::array<Quarter, 4> quarters_of(const Crown& crown) {
  const auto radius = [&](Crown::Side side) {
    return std::max(crown.radius[side].length().metres(), 0.0);
  };
  const double n = radius(Crown::north), e = radius(Crown::east);
  const double s = radius(Crown::south), w = radius(Crown::west);
  return {{{e, n, 1, 1}, {w, n, -1, 1}, {w, s, -1, -1}, {e, s, 1, -1}}};
}

// The point of the curve parallel to the quarter ellipse where its normal points at `angle`
// (0 east, 90 degrees north, before the signs): smooth where quarters meet, right where a radius
// is nil.
Point on_parallel_curve(const Quarter& quarter, double angle, double grown) {
  const double c = std::cos(angle), s = std::sin(angle);
  const double support = std::hypot(quarter.east * c, quarter.north * s);
  const double scale = support > 0 ? 1 / support : 0;
  return {quarter.sign_x * (quarter.east * quarter.east * c * scale + grown * c),
          quarter.sign_y * (quarter.north * quarter.north * s * scale + grown * s)};
}

double quarter_length(const Quarter& quarter) {
  const double longer = std::max(quarter.east, quarter.north);
  const double shorter = std::min(quarter.east, quarter.north);
  if (!(longer > 0)) return 0;
  const double ratio = shorter / longer;
  return longer * std::comp_ellint_2(std::sqrt(1 - ratio * ratio));
}

}  // namespace

Length Stem::diameter() const {
  return read == Read::girth ? size.length() / kPi : size.length();
}

Length Stem::girth() const {
  return read == Read::girth ? size.length() : size.length() * kPi;
}

Length Crown::largest_radius() const {
  Length largest;
  for (const EnteredLength& r : radius) largest = std::max(largest, r.length());
  return largest;
}

Length Crown::mean_radius() const {
  return Length::metres(std::sqrt(crown_area(*this).square_metres() / kPi));
}

Area crown_area(const Crown& crown, Length grown_by) {
  const double grown = grown_by.metres();
  double area = 0;
  for (const Quarter& q : quarters_of(crown)) {
    area += kPi / 4 * (q.east * q.north + grown * grown) + grown * quarter_length(q);
  }
  return Area::square_metres(area);
}

Polygon crown_outline(const Tree& tree, Length grown_by, int segments) {
  assert(tree.position && tree.crown && segments >= 1 && grown_by >= Length());
  const Point& stem = tree.position->at;
  const std::array<Quarter, 4> quarters = quarters_of(*tree.crown);
  Polygon outline;
  for (std::size_t k = 0; k < quarters.size(); ++k) {
    for (int i = 0; i < segments; ++i) {
      // Every other quadrant is a mirror image: there the normal turns the other way.
      const int step = k % 2 == 0 ? i : segments - i;
      const Point p = on_parallel_curve(quarters[k], kPi / 2 * step / segments, grown_by.metres());
      outline.outer.push_back({stem.x + p.x, stem.y + p.y});
    }
  }
  return outline;
}

}  // namespace rootstead
