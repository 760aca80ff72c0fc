// Open data that some tests read where it is present; it is never part of the project.
#pragma once

#include <filesystem>
#include <optional>
#include <string_view>

namespace rootstead::test {

// The file `name` (relative, e.g. "site_ubc/trees.csv") of the open data folder named by the
// environment variable ROOTSTEAD_SHARED_DATA, or nothing where it is absent.
std::optional<std::filesystem::path> shared_data(std::string_view name);

// The root of the source tree, for examples/ and data/.
std::filesystem::path source_dir();

}  // namespace rootstead::test

// Skips the running test, with its reason, where the open data file is absent.
#define ROOTSTEAD_NEEDS_DATA(variable, name)                                          \
  const auto variable##_found = ::rootstead::test::shared_data(name);                 \
  if (!variable##_found) GTEST_SKIP() << "open data file " << (name) << " is absent"; \
  const std::filesystem::path& variable = *variable##_found
