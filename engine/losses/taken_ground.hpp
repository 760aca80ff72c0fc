// Ground that some kinds of new works take near one zone, put together for that zone alone.
#pragma once

#include <vector>

#include "engine/losses/losses.hpp"
#include "engine/losses/zone_plan.hpp"

namespace rootstead {

enum class Hidden { left_out, counted };  // ground behind severing works as seen from the stem

// Does `kinds`, empty for all, name this kind?
bool is_among(const std::vector<WorkKind>& kinds, WorkKind kind);

// Area of the zone taken by new works of these kinds, working room included.
Area taken_area(const ZonePlan& plan, const WorkMap& works, const std::vector<WorkKind>& kinds,
                Hidden hidden);

}  // namespace rootstead
