// Redraw: a circular zone that something in the ground cuts off, drawn again with the same area on
// the tree's side. A circle enlarged on the free side is one lawful polygon of equal area; the
// standards do not fix the shape. The cap of a rule applies to the area, not to the new radius.
#pragma once

#include <vector>

#include "engine/geom/shapes.hpp"
#include "engine/site/work.hpp"

namespace rootstead {

// Radius R of the circle that, cut by a straight line at `distance` from its centre, keeps on the
// centre's side the area of the full circle of radius r: pi R^2 - segment(R, distance) = pi r^2.
// Accuracy: 1e-12 relative. Requires 0 <= distance.
Length equal_area_radius(Length r, Length distance);

// No circle is enlarged beyond this multiple of its radius: roots shut in on several sides do not
// run on without end. Two walls that meet at the stem at a right angle need exactly 2. Our
// assumption.
inline constexpr double kLargestStretch = 2.0;

// A barrier counts from this depth on, since most roots lie above it. Our assumption, after NJUG
// Volume 4 (2007): "most roots in the top 600 mm". Buildings and water always count.
inline constexpr Length kStoppingDepth = Length::millimetres(600);

bool stops_roots(const Barrier& barrier);

struct Redrawn {
  Length radius;                      // R, of the enlarged circle
  MultiPolygon outline;               // what of it is seen from the stem
  Area area;                          // pi r^2, or less where kLargestStretch was reached
  std::vector<std::string> barriers;  // ids of those that cut the zone
  std::vector<std::string> ignored;   // ids of those the stem stands in or against
};

// The circle without what hides behind the barriers as seen from its centre, enlarged until its
// area is again that of the full circle. Accuracy of the area: 1e-9 relative. `barriers` empty in
// the result: nothing cuts the circle, the rest is not filled.
Redrawn redrawn_at(const Circle& circle, const std::vector<Barrier>& barriers);

}  // namespace rootstead
