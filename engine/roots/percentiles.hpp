// P10, P50 and P90 of the draws of a simulation.
#pragma once

#include <vector>

#include "engine/base/range.hpp"

namespace rootstead {

// Linear between order statistics, so a figure that rises in every draw rises in the range too.
// `weights` are empty (all alike) or one a value, not all nil.
// Requires: values not empty.
Range range_of(const std::vector<double>& values, const std::vector<double>& weights = {});

}  // namespace rootstead
