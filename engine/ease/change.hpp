// Changes of a work by one number. Private to this room.
#pragma once

#include <optional>
#include <vector>

#include "engine/ease/ease.hpp"

namespace rootstead {

// Off each side: first of the working room, then of the trench or the area. Nothing where too
// little is left.
std::optional<Work> narrowed(const Work& work, double by, double least_width);
double narrowing_range(const Work& work, double least_width, double range);
// An area without discs round these stems, and without working room. Nothing where all is gone.
std::optional<Work> held_back(const Work& work, const std::vector<Point>& stems, double radius);
Work shallower(const Work& work, double depth);

}  // namespace rootstead
