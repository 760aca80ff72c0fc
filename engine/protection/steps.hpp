// Inside engine/protection only: the order of the works, who attends, and the visits.
#pragma once

#include "engine/protection/plan_parts.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

// Only steps that the plan gives cause for, numbered from 1.
std::vector<Step> steps_of(const ProtectionPlan& plan);
// Events first, then the interval. Without `months` one month of visits is counted.
std::vector<Inspection> inspections_of(const ProtectionPlan& plan, const Tables& tables,
                                       std::optional<double> months);

}  // namespace rootstead
