// What must be done about fill at trunks and lowered ground over roots. Inside this room only.
#pragma once

#include "engine/levels/level_works.hpp"

namespace rootstead {

void add_prescriptions(LevelChanges& changes, const Site& site, const Tables& tables);

}  // namespace rootstead
