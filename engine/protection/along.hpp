// Inside engine/protection only: stretches along a line that have to do with trees.
#pragma once

#include <vector>

#include "engine/geom/along.hpp"

namespace rootstead {

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
