// Runs one conformance case through the public headers.
#pragma once

#include <string>
#include <vector>

#include "engine/tables/tables.hpp"
#include "tests/conformance/case_file.hpp"

namespace rootstead::conformance {

// What is wrong, a sentence each; empty where the case holds. Requires: case_.excluded empty.
std::vector<std::string> run(const Case& one, const Tables& tables);

}  // namespace rootstead::conformance
