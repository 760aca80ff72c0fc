// Patches of ground that are lowered or raised. Inside this room only.
#pragma once

#include <vector>

#include "engine/base/quantity.hpp"
#include "engine/geom/shapes.hpp"
#include "engine/levels/prepared_levels.hpp"

namespace rootstead {

struct LevelPatches {
  std::vector<Polygon> lowered, raised;  // largest first
};

struct PatchRule {
  double least = 0.05;      // m, change of level from which ground counts
  double least_area = 1;    // m2; smaller patches are left out, smaller holes filled
  double tolerance = 0.05;  // m; the outline lies between the true edge and twice this outside it
};

// `area` null: all common ground.
LevelPatches level_patches(const PreparedLevels& before, const PreparedLevels& after,
                           const MultiPolygon* area, const PatchRule& rule);

}  // namespace rootstead
