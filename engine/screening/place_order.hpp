// Places along a curve through the plan, so that what is near in the plan is near in memory.
// Private to the room.
#pragma once

#include <cstdint>

#include "engine/geom/shapes.hpp"

namespace rootstead {

inline constexpr double kCellSize = 64;  // m: a zone meets two or three cells

// The number of the place's cell along a Z-shaped curve.
std::uint64_t place_on_curve(const Point& place);

}  // namespace rootstead
