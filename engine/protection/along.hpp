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

}  // namespace rootstead
