// The ground that lies behind works as seen from the stem: roots on their way there are cut.
#pragma once

#include <vector>

#include "engine/geom/shapes.hpp"

namespace rootstead {

// Polygons, overlapping each other, whose union with `ground` is the ground and every point whose
// straight line to the centre of `within` crosses it. They reach beyond the circle. Exact: straight
// edges project to straight edges. Requires: outer rings counter-clockwise, holes clockwise, as
// footprint() gives them.
std::vector<MultiPolygon> shadows_of(const MultiPolygon& ground, const Circle& within);

}  // namespace rootstead
