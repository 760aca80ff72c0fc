// Figures as a person reads them.
#pragma once

#include <string>

#include "engine/base/figure.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead::cli {

// "6.00 m", "113.10 m2", "12.3 %" for a share; with its range in brackets where there is one.
std::string value_text(const Figure& figure);

// The whole trail: name and value, formula, one input a line, source and status. `about`: what the
// figure speaks of where the name does not say it, "W1 storm drain"; may be empty.
std::string trail_text(const Figure& figure, const Tables& tables, const std::string& about = {});

}  // namespace rootstead::cli
