// The area common to a circle and a ring, as common_area() gives it, for rings that are asked
// millions of times: most of them lie outside the circle, and one angle is worked out for each way
// that the ring goes round outside, not for each edge. Private to the room.
// Accuracy: within 1e-12 of the circle's area of common_area(), by test.
#pragma once

#include <span>

#include "engine/geom/shapes.hpp"

namespace rootstead {

// Square metres, whatever the orientation. Requires: at least three corners, radius > 0.
double area_in_circle(const Point& centre, double radius, std::span<const Point> ring);

}  // namespace rootstead
