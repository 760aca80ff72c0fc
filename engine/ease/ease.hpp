// Smallest change: the least by which a work must be changed so that every tree passes, or why no
// such change exists.
//
// A change is one number in one family: moved that far in one of several directions, narrowed,
// held back from the trees that fail, shallower, or built by another method. Passing is what the
// verdict says, health and stability each by its own limit.
//
// How it is known that nothing smaller passes. Taking less ground never costs a tree more (a law of
// the model: the same draws, less taken). So
// - narrowed, held back, shallower: each change takes less than any smaller one. What passes is
//   found by halving; where the end of the range does not pass, nothing of the family does.
// - moved: the ground common to all places between two distances is less than the work at any of
//   them. Where that common ground does not pass, none of them does, and the stretch is put aside;
//   else it is halved, down to `finest`. So the distance found is the least to within `finest`,
//   and "none" is proved but for stretches shorter than that, of which `unproved` tells.
// What is printed as the bound is the figure of the least work looked at that still fails.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/routes/appraisal.hpp"

namespace rootstead {

// A tree passes where neither answer is larger than these, and no share passes those given.
struct PassLimits {
  Concern vitality = Concern::small, stability = Concern::small;
  std::optional<double> most_loss;   // of fine roots, best estimate
  std::optional<double> least_kept;  // of anchorage, low end
};

enum class Change { moved, narrowed, held_back, shallower, method };
std::string_view to_text(Change change);  // "moved", "narrowed" ...

struct EaseOptions {
  PassLimits limits;
  Length range = Length::metres(10);  // of moves and holding back
  Length finest = Length::metres(0.05);
  int directions = 16;  // of moves, evenly from grid north; across and along a line besides
  Length least_width = Length::metres(0.3), least_depth = Length::metres(0.1);
  RootSimulation how{1, 64};
  bool other_methods = true;
};

// What fails a tree, in figures.
struct Failing {
  std::string tree;
  Concern vitality = Concern::unknown, stability = Concern::unknown;
  Range loss;
  std::optional<Range> kept;
  std::string reason;  // one sentence
  // Of a tree that fails even without the work: the same with it, as drawn.
  std::optional<Range> loss_as_drawn;
};

// One family of changes.
struct EasedWork {
  Change change = Change::moved;
  std::string what;  // "moved 1.35 m towards 270°", "as a bore with two pits"
  bool passes = false;
  double amount = 0;  // m: moved, cut off the near side, taken off the width or the depth
  std::optional<Angle> towards;  // moves
  std::vector<Work> works;       // the changed work where it passes
  // Where it does not: the least work looked at, and the worst tree with it.
  double range = 0;     // m searched
  double unproved = 0;  // m of it in stretches shorter than `finest`
  std::optional<Failing> bound;
  std::string bound_of;  // "what is common to all places within ..."
  int looked_at = 0;     // assessments
};

struct EaseAnswer {
  std::string work;
  bool passes_as_drawn = false;
  std::vector<Failing> failing;  // as drawn
  // Even without the work, so that no change of it helps them; those that it touches all the same.
  std::vector<Failing> fail_without;
  int fail_untouched = 0;           // the others of these
  std::vector<EasedWork> families;  // those that pass first, the smallest change first
  std::vector<Note> notes;
  const EasedWork* smallest() const {
    return families.empty() || !families.front().passes ? nullptr : &families.front();
  }
};

// Trees that fail without the work are told and left out of the search. Fails with unknown_name
// (no such work), outside_rule_domain (it stands already or has no shape), or as assess() does.
Result<EaseAnswer> smallest_change(const Site& site, const std::string& work, const Tables& tables,
                                   const EaseOptions& options);

bool passes(const TreeAssessment& tree, const PassLimits& limits);
// A work moved, all its parts; and what is common to all its places within `by` of where it is.
Work moved(Work work, double dx, double dy);
Work shrunk_for_moves(Work work, double by);

}  // namespace rootstead
