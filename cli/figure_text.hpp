// Figures as a person reads them.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "engine/base/figure.hpp"
#include "engine/base/result.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead::cli {

// "6.00 m", "113.10 m2", "12.3 %" for a share; with its range in brackets where there is one.
std::string value_text(const Figure& figure);

// The whole trail: name and value, formula, one input a line, source and status.
std::string trail_text(const Figure& figure, const Tables& tables);

// Figures of exactly this name; where there are none, those whose name holds it. Fails with
// unknown_name, naming what there is.
Result<std::vector<Figure>> figures_named(const std::vector<Figure>& figures, std::string_view name,
                                          const std::string& tree);

}  // namespace rootstead::cli
