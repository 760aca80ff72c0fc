// Figures of the rules by hand: `rootstead figure bs5837-2012.root-protection-area.radius
// stem=500mm`. All rooms together: engine/figures.
#pragma once

#include <string>
#include <vector>

#include "engine/base/hand_figure.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

// Sorted by name.
std::vector<FigureKind> rule_figure_kinds(const Tables& tables);

// Fails with unknown_name, wrong_use (missing or unknown key) or unit_missing. A rule's name alone,
// "bs5837-2012.zone", gives all its zones.
Result<std::vector<Figure>> rule_figure(const Tables& tables, std::string_view name,
                                        const FigureArguments& arguments);

}  // namespace rootstead
