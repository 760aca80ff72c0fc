// A zone rule as a person reads it.
#pragma once

#include <string>

#include "engine/tables/tables.hpp"

namespace rootstead::cli {

Status weakest_status(const ZoneRule& rule);

std::string rule_text(const ZoneRule& rule, const Tables& tables);

}  // namespace rootstead::cli
