// Palms are moved by their own rules: how far from the trunk and how deep is told by the species,
// never by how thick the trunk is. Sources that disagree stand side by side.
// Sources: docs/methods/palms_moved.md; rows: data/parameters/transplant_palms.csv.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "engine/base/figure.hpp"
#include "engine/base/range.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

struct PalmBall {
  Range beyond_trunk_m;           // from the face of the trunk, over the sources
  Range depth_m;                  // the same
  std::vector<Figure> by_source;  // each source's own figure
  bool sources_disagree = false;
};
// A name that no row knows, or none, gets what is said of palms in general.
PalmBall palm_ball(std::string_view botanical_name, const Tables& tables);

enum class PalmLeaves {
  all_off,       // before lifting (Sabal)
  keep_and_tie,  // only dead leaves off
};
struct PalmLeafRule {
  PalmLeaves what = PalmLeaves::keep_and_tie;
  std::string text;  // the other opinion, where there is one; else empty
  Citation from;
};
PalmLeafRule palm_leaf_rule(std::string_view botanical_name, const Tables& tables);

// The row of a palm that does not bear moving before a trunk is seen above ground; else null.
const Parameter* needs_trunk_first(std::string_view botanical_name, const Tables& tables);

}  // namespace rootstead
