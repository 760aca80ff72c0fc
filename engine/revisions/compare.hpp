// What differs between two states of one project: what was added, removed or changed, which trees
// are better or worse off, which limits are newly passed. Health and stability are compared apart.
//
// Both states are to be assessed with the same tables, so that a difference is one of the project
// and not of the tables. Comparing a state with itself gives nothing; comparing the other way round
// swaps the sides and nothing else.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/assess/assess.hpp"

namespace rootstead {

// A project as it stood, with its answers.
struct ProjectState {
  const Site* site = nullptr;
  const Assessment* assessment = nullptr;
};

enum class ChangedSort { work, tree, barrier, surface, opening, gate, project };
enum class ChangedHow { added, removed, changed };

struct FieldChange {
  std::string field;          // a plain word: "width", "method"
  std::string before, after;  // for reading, in the units asked for; empty: not known
  friend bool operator==(const FieldChange&, const FieldChange&) = default;
};

struct ThingChange {
  ChangedSort sort = ChangedSort::work;
  std::string id, name;  // as it is now; of a thing removed, as it was
  ChangedHow how = ChangedHow::changed;
  // The furthest that any corner lies from the other outline; nothing where it lies as it lay, to
  // kSamePlace.
  std::optional<Length> moved;
  std::vector<FieldChange> fields;
  // The ground where it differs: all of it where it came, went or is made otherwise; where it only
  // lies elsewhere, what one state takes and the other does not. Empty without a place.
  MultiPolygon ground;
};

// Coordinates that differ by less are the same place: surveys are read to the millimetre (our
// assumption).
inline constexpr Length kSamePlace = Length::millimetres(1);

enum class Trend { same, better, worse, unknown };

// One answer of one tree in both states.
struct AnswerChange {
  std::optional<Range> before, after;
  Trend trend = Trend::same;  // unknown where one of the two is
};

struct TreeChange {
  std::string tree;                     // id
  AnswerChange health;                  // share of absorbing roots lost
  AnswerChange stability;               // share of anchorage kept
  std::optional<Action> before, after;  // verdicts; nothing where the state has no such tree
};

// A limit of a rule that is passed in one of the two states only.
struct LimitChange {
  std::string tree, rule, zone, limit;  // ids
  bool newly_passed = false;            // false: passed no longer
  std::optional<double> before, after;  // in the limit's own measure; nothing: was not asked
  double threshold = 0;
  std::string triggers;
};

struct Comparison {
  std::vector<ThingChange> things;  // in the order of ChangedSort; what is gone last
  std::vector<TreeChange> trees;    // with an answer or verdict that is not the same
  std::size_t trees_same = 0;       // in both states, with nothing to tell
  std::vector<LimitChange> limits;  // newly passed first
  bool empty() const { return things.empty() && trees.empty() && limits.empty(); }
};

// A difference of best estimates smaller than this is no difference: it would not be seen in print
// (our assumption).
inline constexpr double kLeastDifference = 0.005;

// By how much two medians of simulations may differ by the lot alone: twice the standard error of
// their difference, 2 x 1.2533 s / sqrt(n) of each, s = (high - low) / 2.5631, both as for normal
// draws independent of each other (our assumption; strata vary less, so that this is on the safe
// side). Zero for ranges that are not drawn.
double noise_of(const Range& before, int draws_before, const Range& after, int draws_after);

Comparison compare(const ProjectState& before, const ProjectState& after,
                   UnitSystem units = UnitSystem::metric);

std::string_view to_text(ChangedSort sort);  // "work", "tree" ...
std::string_view to_text(ChangedHow how);    // "added", "removed", "changed"
std::string_view to_text(Trend trend);       // "same", "better", "worse", "unknown"

// The rule of `better` and `worse` in one sentence, for the page.
const std::string& trend_rule();

}  // namespace rootstead
