// Triangles over scattered points (Delaunay, by GEOS behind overlay.cpp's wall).
#pragma once

#include "engine/base/result.hpp"
#include "engine/geom/level_surface.hpp"

namespace rootstead {

// Every point takes part; points at the same place keep the first height. No breakline is honoured:
// a triangle may bridge a kerb, a wall or the foot of a bank. The hull is convex. Fails with
// empty_geometry below three points that are not on one line, with invalid_geometry where a
// coordinate is not finite.
Result<TriangleMesh> triangulated(const std::vector<LevelPoint>& points);

}  // namespace rootstead
