// The steps of assess() that a live assessment takes one by one. Private to this room.
#pragma once

#include <vector>

#include "engine/assess/tree_assessor.hpp"

namespace rootstead {

// Problems and settings, no trees yet. Fails where the site has none.
Result<Assessment> empty_assessment(const Site& site, const Tables& tables,
                                    const AssessOptions& options);

// The rules of the settings; where there are none, the usual one, with a problem that says so.
Result<std::vector<const ZoneRule*>> rules_to_apply(const Site& site, const Tables& tables,
                                                    std::vector<Problem>& problems);

// Assesses the trees of these indices into their places, each by `assess_one`, which many threads
// call at once, each for another tree.
using AssessOne = std::function<TreeAssessment(std::size_t tree, StageTimes& times)>;
void assess_trees(const std::vector<std::size_t>& which, const AssessOne& assess_one,
                  const AssessOptions& options, Assessment& assessment);

}  // namespace rootstead
