// Crown outlines as zones: the closed curve through the four crown radii (quarter ellipses), grown
// outward by the same distance everywhere. The curve is convex, so Steiner's formula gives its area
// exactly: A + P d + pi d^2, with A and P the area and perimeter of the crown itself.
#pragma once

#include <array>

#include "engine/geom/shapes.hpp"

namespace rootstead {

struct GrownCrown {
  std::array<double, 4> radii{};  // metres, north, east, south, west
  double growth = 0;              // metres, >= 0

  bool is_circle() const;
  Area area() const;       // 1e-14 relative
  Length reach() const;    // the largest distance of the curve from the stem
  Length nearest() const;  // the smallest
  // Points on the true curve, `segments` chords a quarter, about the stem centre.
  Polygon outline(const Point& centre, int segments = 64) const;
};

}  // namespace rootstead
