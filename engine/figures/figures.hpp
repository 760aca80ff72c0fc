// Every published figure that can be computed by hand, from all rooms:
// `rootstead figure soil.boussinesq load=10kN depth=0.5m`.
#pragma once

#include <string_view>
#include <vector>

#include "engine/base/hand_figure.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

// Sorted by name.
std::vector<FigureKind> figure_kinds(const Tables& tables);

// Fails with unknown_name (naming the nearest known), wrong_use (missing or unknown key), or
// unit_missing. A rule's name alone, "bs5837-2012.zone", gives all its zones.
Result<std::vector<Figure>> figure(const Tables& tables, std::string_view name,
                                   const FigureArguments& arguments);

}  // namespace rootstead
