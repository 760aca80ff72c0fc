// Clashes: what in a protection plan cannot stand as it is drawn, whoever drew it.
#pragma once

#include <vector>

#include "engine/assess/assess.hpp"
#include "engine/protection/plan_parts.hpp"
#include "engine/site/site.hpp"

namespace rootstead {

// Every clash of `plan` with `site` and with itself, by kind and then in the order of the plan.
// The plan may be drawn by hand: only its geometry and ids count, not its own list of clashes.
// Touching is no clash: lines may run along each other's edges to within 10 mm.
std::vector<Clash> find_clashes(const ProtectionPlan& plan, const Site& site, const Tables& tables,
                                const Assessment& assessment,
                                const ProtectionOptions& options = {});

}  // namespace rootstead
