// Published figures by hand: `rootstead figure bs5837-2012.root-protection-area.radius stem=500mm`.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "engine/base/figure.hpp"
#include "engine/base/result.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

struct FigureKind {
  std::string name;
  std::string unit;
  std::string meaning;
  std::vector<FigureInput>
      inputs;  // symbol = key, value = example: {"stem", "stem diameter", "500mm"}
};

using FigureArguments = std::vector<std::pair<std::string, std::string>>;  // key, text

// Every figure this program can compute by hand, sorted by name.
std::vector<FigureKind> figure_kinds(const Tables& tables);

// Fails with unknown_name (naming the nearest known), wrong_use (missing or unknown key), or
// unit_missing. A rule's name alone, "bs5837-2012.zone", gives all its zones.
Result<std::vector<Figure>> figure(const Tables& tables, std::string_view name,
                                   const FigureArguments& arguments);

}  // namespace rootstead
