// Inside engine/protection only: outlines that can be built. Both functions only take ground away,
// so that a fence never comes into what was kept clear.
#pragma once

#include "engine/protection/plan_ground.hpp"

namespace rootstead {

// The area without what is narrower than `width`, and without parts smaller than `least`.
MultiPolygon without_narrow_ground(const MultiPolygon& area, Length width, Area least);

// The outline with fewer corners: corners cut off and short bends squared up, each at most
// `tolerance` away from the outline given. Rings begin at their first corner in `frame`.
MultiPolygon in_straight_runs(const MultiPolygon& area, Length tolerance, const SiteFrame& frame);

}  // namespace rootstead
