// Where the absorbing roots of one tree most likely are: as a grid, and by depth and distance.
#pragma once

#include "io/json.hpp"
#include "serve/standing.hpp"

namespace rootstead::serve {

inline constexpr int kMostTintCells = 120;  // a side

// RootTint of api/schema.json: the best guess, over the likely extent.
Result<io::Json> root_tint(const Standing& standing, const std::string& tree);
// RootProfiles: low, best and high over the draws of the assessment.
Result<io::Json> root_profiles(const Standing& standing, const std::string& tree);
// Both fail with unknown_name, and as root_model() does.

}  // namespace rootstead::serve
