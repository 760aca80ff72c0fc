// Sureness: in how many of many seeded draws of what was measured would a tree's verdict be another
// one, by which cause, and which single measurement would help most. Formulas, what is assumed and
// what this cannot know: docs/methods/sureness.md.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "engine/assess/assess.hpp"
#include "engine/sureness/input_errors.hpp"

namespace rootstead {

struct SurenessOptions {
  RootSimulation as_entered;  // of the project: what the verdicts are told by
  int root_draws = 32;        // of the root model in each draw
  std::uint64_t seed = 1;
  int draws = 100;
  int threads = 0;  // 0: as many as the machine has; changes no answer
  std::function<void(std::size_t done, std::size_t all)> progress;  // trees, as AssessOptions
};

// What is told of a tree; health and stability are two answers.
struct Answers {
  Action action = Action::undecided;
  Concern health = Concern::unknown;
  Concern stability = Concern::unknown;
  friend bool operator==(const Answers&, const Answers&) = default;
};
Answers answers_of(const Verdict& verdict);

// Number of draws in which an answer is another than as entered.
struct Changed {
  int any = 0, action = 0, health = 0, stability = 0;
  friend bool operator==(const Changed&, const Changed&) = default;
};

// The share that `changed` of `draws` tells, with the bounds within which the true one lies in 95
// of 100 cases: the score interval of a binomial share (Wilson 1927). Requires: draws > 0.
Range share_of(int changed, int draws);

struct TreeSureness {
  std::string tree;  // id
  Answers entered;   // by the project's own draws
  // False: data are missing, and nothing was drawn. What is not known cannot be off.
  bool decided = false;
  bool few_draws_differ = false;  // as entered, but by root_draws: other answers
  TreeErrors errors;
  Changed positions, sizes, roots, all;  // by position alone, stem or height alone ...
  // The answers with the root model's estimates slid to the end of their ranges where most is lost,
  // and where least is.
  Answers most_lost, least_lost;
};

struct Worth {
  std::string tree;
  enum class Measurement { position, size, pit } measurement = Measurement::position;
  double fewer = 0;           // trees expected to change, less after it
  double standard_error = 0;  // of that, by the draws
  std::string what;           // a sentence that a person can act on
};

struct Sureness {
  std::vector<TreeSureness> trees;  // order of site.trees
  // Those whose worth is over twice its standard error, the largest first.
  std::vector<Worth> worth;
  double expected = 0;  // trees of the site whose verdict would be another, all causes together
  double fewer_by_positions = 0, fewer_by_sizes = 0, fewer_by_pits = 0;  // if all were measured
  int draws = 0, root_draws = 0;
  std::uint64_t seed = 1;
  std::vector<Note> notes;
  std::vector<std::string> cautions;
};

// Same input, same bits, for any number of threads. Fails as assess() does, and with wrong_use
// where draws or root_draws are not above nought.
Result<Sureness> sureness_of(const Site& site, const Tables& tables,
                             const SurenessOptions& options = {});

// How an estimate slides: the value at `quantile` of its range (P10, P50, P90; straight between
// them, never beyond), drawn in towards the best by `spread_left`; the range moves along as it is,
// within [0, 1].
double value_at(const Range& range, double quantile);
Range slid(const Range& range, double quantile, double spread_left = 1);

std::string_view to_text(Worth::Measurement measurement);  // "position", "size", "pit"

}  // namespace rootstead
