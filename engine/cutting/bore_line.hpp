// A line measured along itself: chainages in metres from its first point. Internal to this room.
#pragma once

#include <vector>

#include "engine/geom/shapes.hpp"

namespace rootstead {

struct ChainSpan {
  double from = 0, to = 0;
};

// Where the line runs within `radius` of `centre`: sorted, apart, exact but for rounding.
std::vector<ChainSpan> spans_within(const Line& line, const Point& centre, double radius);
// Requires: a line of two points or more; chainages beyond its ends are at its ends.
Point point_at(const Line& line, double chainage);
Angle direction_at(const Line& line, double chainage);
// The piece from one chainage to another; empty where it has no length.
Line piece_of(const Line& line, double from, double to);

}  // namespace rootstead
