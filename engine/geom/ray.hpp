// What a straight ray meets: the way a root runs from the stem, or a winching line.
#pragma once

#include <utility>
#include <vector>

#include "engine/geom/shapes.hpp"

namespace rootstead {

// Distances in metres at which the ray from `origin` in direction `azimuth` enters and leaves
// `area`, up to `reach` metres: sorted, apart from each other, each enter < leave, all within
// [0, reach]. A ray that starts inside begins with enter = 0. Where the ray only touches a corner
// there may be none; along an edge it takes the edge for inside or outside as rounding has it.
// Polygons may overlap: their intervals are merged. Rings that cross themselves count even-odd.
// Accuracy: rounding of the coordinates.
std::vector<std::pair<double, double>> ray_crossings(const Point& origin, Angle azimuth,
                                                     double reach, const MultiPolygon& area);

}  // namespace rootstead
