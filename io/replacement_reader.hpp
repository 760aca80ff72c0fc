// Reads one replacement rule from TOML; docs/formats/tables.md describes the file. Private to io.
#pragma once

#include <string_view>
#include <vector>

#include "engine/base/result.hpp"
#include "engine/tables/replacement_rule.hpp"

namespace rootstead::io {

// All mistakes at once, each naming the line.
struct ReplacementReading {
  ReplacementRule rule;
  std::vector<Error> mistakes;
};
ReplacementReading read_replacement_rule(std::string_view toml, std::string_view file_name);

}  // namespace rootstead::io
