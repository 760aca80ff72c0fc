// What looks wrong by the whole in what was read from a source: columns exchanged, a unit or a
// girth that fits better, things far from the site. Each is one sentence; none stops the import.
#pragma once

#include <string>
#include <vector>

#include "serve/import_preview.hpp"

namespace rootstead::serve {

inline constexpr double kFarFromSite = 5000;  // m; our assumption

// `used` is the map the import was read by.
std::vector<std::string> doubts_of(const ImportAsked& asked, const io::Import& import,
                                   const io::ColumnMap& used, const Site& site);

}  // namespace rootstead::serve
