// TreeTally: the draws of one tree, counted. Private to this room.
#pragma once

#include "engine/assess/tree_trial.hpp"
#include "engine/sureness/sureness.hpp"

namespace rootstead {

// How many draws fewer a tree changes in, once something is known: a sum of differences, each 1, 0
// or -1, and of their squares.
struct Difference {
  int sum = 0, squares = 0;
  void add(bool before, bool after) {
    const int difference = static_cast<int>(before) - static_cast<int>(after);
    sum += difference;
    squares += difference * difference;
  }
  double fewer(int draws) const;
  double standard_error(int draws) const;  // of it; 0 for one draw
};

struct TreeTally {
  TreeSureness sureness;
  Difference position_known, size_known, pit_dug;
};

// `entered` is what the project's own draws say of the tree, with the next pit.
TreeTally tally(const Tree& tree, const TreeTrial& trial, const TreeAssessment& entered,
                const Tables& tables, const SurenessOptions& options);

}  // namespace rootstead
