// Places and stretches along a line, by chainage from its first point, in metres.
#pragma once

#include <utility>
#include <vector>

#include "engine/geom/shapes.hpp"

namespace rootstead {

using Interval = std::pair<double, double>;  // from, to

// Where the line runs inside the area, or the circle: sorted, apart from each other.
std::vector<Interval> inside(const Line& line, const MultiPolygon& area);
std::vector<Interval> inside(const Line& line, const Circle& circle);
double length_of(const std::vector<Interval>& intervals);

// Requires: a line of at least two points.
Point point_along(const Line& line, double chainage);
Line part_of(const Line& line, double from, double to);
// The chainage of the point of the line nearest to `at`.
double nearest_chainage(const Line& line, const Point& at);
double distance_to_segment(const Point& at, const Point& a, const Point& b);

}  // namespace rootstead
