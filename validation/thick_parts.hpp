// Parts of thick_root_findings() that have a file of their own.
#pragma once

#include <vector>

#include "validation/target.hpp"

namespace rootstead::validation {

std::vector<Target> palm_targets();    // T28 to T30
std::vector<Target> silsoe_targets();  // S1 to S4, tree by tree

}  // namespace rootstead::validation
