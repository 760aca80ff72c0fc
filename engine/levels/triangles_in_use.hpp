// Which triangles of a mesh can be worked with.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "engine/geom/level_surface.hpp"

namespace rootstead {

struct MeshFault {
  std::string what, remedy;
};

// The first triangle that names a point that does not exist or has no finite place and height.
std::optional<MeshFault> fault_of(const TriangleMesh& mesh);

struct TrianglesInUse {
  std::vector<std::array<std::uint32_t, 3>> kept;  // counter-clockwise, with an area, no repeats
  std::size_t overlapping = 0;                     // edges with two triangles on the same side
};

// Requires: no fault.
TrianglesInUse triangles_in_use(const TriangleMesh& mesh);

}  // namespace rootstead
