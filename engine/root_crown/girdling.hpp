// The risk that roots grow round a stem whose main roots lie too deep.
// Source: Hauer & Johnson 2021, 398 maples, hackberries, ashes and lindens 10 to 20 years after
// planting: per centimetre of soil above the main roots 3.3 % of the circumference encircled by
// roots and 1 % girdled. A mean of many trees: says little of one.
#pragma once

#include "engine/base/figure.hpp"
#include "engine/base/range.hpp"
#include "engine/site/tree.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

struct GirdlingRisk {
  Range encircled;              // share of the circumference that roots lie round
  Range girdled;                // share that they press on
  bool beyond_trees = false;    // of another genus than the trees of the study, or not known
  bool beyond_depth = false;    // deeper than where the line reaches the whole circumference
  std::vector<Figure> figures;  // root-crown.girdling.encircled, .girdled
};

// `depth` in m from the ground to the upper side of the first main roots; shares stop at 1.
// Requires: depth not negative.
GirdlingRisk girdling_risk(const Range& depth, std::string_view botanical_name,
                           const Tables& tables);

// Of a genus of that study; taken for those prone to girdling roots, by us.
bool prone_to_girdling(std::string_view botanical_name);

}  // namespace rootstead
