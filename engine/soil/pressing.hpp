// What works that do not dig do to the roots beneath them: fill, paving, wheels and storage.
#pragma once

#include "engine/base/range.hpp"
#include "engine/base/source.hpp"
#include "engine/site/site.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

// Share of the absorbing roots beneath `work` to be counted as lost, by kind, by depth and (where
// it is known) texture of fill, and by the cover under a known vehicle. {0, 0, 0} for works that
// dig. Our assumption throughout; editable in data/parameters.
struct PressingEffect {
  Range share;
  Citation from;
};
PressingEffect pressing_effect(const Work& work, const Soil& soil, const Tables& tables);

// The same for the working room beside a dig: wheels and storage.
PressingEffect working_room_effect(const Soil& soil, const Tables& tables);

}  // namespace rootstead
