// The demonstration scenario, carried inside the program: the files of examples/salt-walk.
#pragma once

#include <filesystem>
#include <string_view>
#include <vector>

#include "engine/base/result.hpp"

namespace rootstead::cli {

struct ScenarioFile {
  std::string_view name;  // "trees.csv"
  std::string_view bytes;
};

std::vector<ScenarioFile> scenario_files();

// Writes them all into `folder`, making it where needed. Fails with file_unwritable.
Outcome write_scenario(const std::filesystem::path& folder);

}  // namespace rootstead::cli
