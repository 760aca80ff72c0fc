// The best next pit: of many places round a stem, the one whose find is expected to narrow a figure
// most. Every draw foretells how many roots the pit would show; the spread left after each number
// is weighed with the chance of that number (preposterior analysis, Raiffa & Schlaifer 1961).
#pragma once

#include <optional>
#include <vector>

#include "engine/roots/root_model.hpp"
#include "engine/roots/thick_roots.hpp"

namespace rootstead {

// `values`: the figure, one a law; `weights` as in range_of. Nothing where the figure has no spread
// or no pit would narrow it by a fiftieth.
std::optional<NextPit> best_next_pit(const Point& stem, const std::vector<ThickRootLaw>& laws,
                                     const std::vector<double>& values,
                                     const std::vector<double>& weights);

}  // namespace rootstead
