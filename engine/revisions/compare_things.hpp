// Works, trees and all else in two states of a site. The room's own.
#pragma once

#include <vector>

#include "engine/revisions/compare.hpp"

namespace rootstead {

std::vector<ThingChange> changed_things(const Site& before, const Site& after, UnitSystem units);

}  // namespace rootstead
