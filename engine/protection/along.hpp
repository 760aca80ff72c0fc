// Inside engine/protection only: places and stretches along a line, by chainage from its first
// point, in metres.
#pragma once

#include <string>
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

// An interval that has to do with one tree; `near_stem` where it crosses the tree's root plate.
struct TreeInterval {
  Interval on;
  std::size_t tree = 0;
  bool near_stem = false;
};
// The line cut where the set of trees changes; only stretches with a tree, in order.
struct TreeStretch {
  Interval on;
  std::vector<std::size_t> trees;  // ascending
  bool near_stem = false;          // of any of them
};
std::vector<TreeStretch> stretches_of(const std::vector<TreeInterval>& intervals);

// The same for a crew: none shorter than `least` (the whole line, where that is shorter). A shorter
// one joins one it touches, if that is dug with as much care; else it is told over `least`, and
// what it touches ends there. No ground is lost. `length` is that of the line.
std::vector<TreeStretch> without_slivers(std::vector<TreeStretch> stretches, double length,
                                         double least);

}  // namespace rootstead
