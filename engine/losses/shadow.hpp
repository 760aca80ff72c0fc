// The ground that lies behind works as seen from the stem: roots on their way there are cut.
#pragma once

#include "engine/geom/shapes.hpp"

namespace rootstead {

// Every point of `within` whose straight line to the centre of `within` crosses the boundary of
// `ground`: the ground itself, but for what is hidden, and all behind it. Returned as a polygon
// that reaches beyond the circle. Exact: straight edges project to straight edges.
MultiPolygon shadow_of(const MultiPolygon& ground, const Circle& within);

}  // namespace rootstead
