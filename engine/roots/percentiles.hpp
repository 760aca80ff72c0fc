// P10, P50 and P90 of the draws of a simulation.
#pragma once

#include <vector>

#include "engine/base/range.hpp"

namespace rootstead {

// Linear between order statistics, so a figure that rises in every draw rises in the range too.
// Requires: values not empty.
Range range_of(std::vector<double> values);

}  // namespace rootstead
