// Reading data/: rules (TOML), species, parameters and sources (CSV). The shipped tables are
// embedded in the program; a project or user may add rules of their own from a folder.
#pragma once

#include <filesystem>
#include <string_view>
#include <vector>

#include "engine/tables/tables.hpp"

namespace rootstead::io {

// The shipped tables, and the *.toml rules of `extra_rules` if given (same id: theirs wins, with
// a note in the rule). Fails with table_incoherent.
Result<Tables> load_tables(const std::filesystem::path& extra_rules = {});

// One rule from TOML text. All mistakes at once, each naming line and key, for `rule check`.
struct RuleReading {
  ZoneRule rule;
  std::vector<Error> mistakes;
};
RuleReading read_rule(std::string_view toml, std::string_view file_name);

}  // namespace rootstead::io
