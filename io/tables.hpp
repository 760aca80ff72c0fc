// Reading data/: rules (TOML); species and their traits, parameters and sources (CSV). The shipped
// tables are embedded in the program; a user may lay rules and tables of their own over them.
#pragma once

#include <filesystem>
#include <string_view>
#include <vector>

#include "engine/tables/tables.hpp"

namespace rootstead::io {

// The shipped tables, and over them what the folder holds, if given: *.toml rules (same id: theirs
// wins, with a note in the rule), sources.csv, species.csv, wood_density.csv, crown_widths.csv,
// leaves.csv, wet_soil.csv and parameters/*.csv (same name: theirs wins, and its source says so),
// replacement/*.toml and submittal.csv (likewise;
// docs/formats/tables.md). Fails with table_incoherent, file_not_found or file_unreadable.
Result<Tables> load_tables(const std::filesystem::path& own_folder = {});

// One rule from TOML text. All mistakes at once, each naming line and key, for `rule check`.
struct RuleReading {
  ZoneRule rule;
  std::vector<Error> mistakes;
};
RuleReading read_rule(std::string_view toml, std::string_view file_name);

}  // namespace rootstead::io
