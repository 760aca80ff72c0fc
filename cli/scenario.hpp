// The demonstration scenario, carried inside the program: the files of examples/salt-walk.
#pragma once

#include <filesystem>

#include "engine/base/result.hpp"

namespace rootstead::cli {

// Writes them all into `folder`, making it where needed. Fails with file_unwritable.
Outcome write_scenario(const std::filesystem::path& folder);

}  // namespace rootstead::cli
