// Palms are moved by their own rules: how far from the trunk and how deep is told by the species,
// never by how thick the trunk is. Sources that disagree stand side by side.
// Sources: docs/methods/palms_moved.md; rows: data/parameters/transplant_palms.csv.
#pragma once

#include <string>
#include <vector>

#include "engine/base/figure.hpp"
#include "engine/base/range.hpp"
#include "engine/site/tree.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

struct PalmBall {
  Range beyond_trunk_m;           // from the face of the trunk, over the sources
  Range depth_m;                  // the same
  std::vector<Figure> by_source;  // each source's own figure
  bool sources_disagree = false;
};
// `species` may be null: the careful side of what is said of palms in general.
PalmBall palm_ball(const Species* species, const Tables& tables);

enum class PalmLeaves {
  all_off,       // before lifting (Sabal)
  keep_and_tie,  // only dead leaves off
};
struct PalmLeafRule {
  PalmLeaves what = PalmLeaves::keep_and_tie;
  std::string text;  // the other opinion, where there is one; else empty
  Citation from;
};
PalmLeafRule palm_leaf_rule(const Species* species, const Tables& tables);

// Palms that do not bear moving before a trunk is seen above ground.
const Parameter* needs_trunk_first(const Species* species, const Tables& tables);

}  // namespace rootstead
