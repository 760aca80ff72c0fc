// Inside engine/protection only: where roots are cut, and where is dug by hand or with air.
#pragma once

#include "engine/protection/plan_ground.hpp"

namespace rootstead {

// Edges of severing works that face kept trees, inside their ground; one line for each set of
// trees, in the order of the works. None of paving, which is built on top there (no_dig_areas).
std::vector<RootCutLine> root_cut_lines(const PlanGround& ground);

// Trenches, root cuts and fence posts inside the ground of kept trees. By air inside root plates,
// where thick roots are to stay whole; by hand elsewhere, or as the work says.
std::vector<DigStretch> dig_stretches(const PlanGround& ground);

std::vector<BorePassage> bore_passages(const PlanGround& ground);

}  // namespace rootstead
