// GroundMap: what the ground round one stem lets roots do: how easily they pass, and how densely
// they grow, cell by cell and layer by layer. Layers are cut at the undersides of the barriers, so
// that a root may pass below a kerb and not through it.
// Values: data/parameters/barriers.csv; reasons: docs/methods/barriers.md. All our assumption.
#pragma once

#include <string>
#include <vector>

#include "engine/geom/eikonal.hpp"
#include "engine/site/site.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

struct GroundLayer {
  double top = 0, bottom = 0;   // m below ground; the last bottom is infinite
  std::vector<double> speed;    // 0: nothing passes; 1: open ground
  std::vector<double> rooting;  // 0 to 1: density of roots beside that in open ground
  double climb = 0;             // metres of open ground spent in coming up from the layer below
};

struct GroundMap {
  PlanGrid grid;
  std::vector<GroundLayer> layers;    // from the top down, at least one
  std::vector<std::string> barriers;  // ids and names of what was met, for the trail
  bool stem_covered = false;  // drawn in paving or a building: an opening round it is assumed
  bool open() const { return barriers.empty(); }  // one layer, all open: nothing to solve
};

// Barriers, surfaces and existing paving, buildings and trenches of the site round the stem.
// `leak` in -1 ... 1 says where in their ranges the speeds of half-open ground lie (-1: tight).
// Requires: tree.position.
GroundMap ground_round(const Tree& tree, const Site& site, const Tables& tables, Length reach,
                       Length cell, double leak = 0);

// Metres of open ground a root has come, per layer: through its own layer, or through a deeper
// one and up again at a cost of the depth climbed. Same order as `ground.layers`.
std::vector<TravelMap> root_travel(const GroundMap& ground, const Point& stem);

}  // namespace rootstead
