// Verdict: the trade's word for what should happen to a tree, with reasons. Health (vitality) and
// stability (anchorage) are two answers and stay two; the verdict only names the stricter action
// and says which answer asked for it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/anchorage/anchorage.hpp"
#include "engine/base/source.hpp"
#include "engine/losses/losses.hpp"

namespace rootstead {

enum class Action {
  keep,                // nothing passes a limit
  keep_with_measures,  // may stay if the measures named are taken
  assess_further,      // a person must look before anyone decides: dig, inspect, pull test
  transplant,
  remove,
  undecided,  // data are missing: says which
};

// One answer on a scale of its own, never mixed with the other.
enum class Concern { none, small, material, large, unknown };

struct Reason {
  enum class About { vitality, stability, data, tree } about = About::vitality;
  std::string text;               // one sentence naming rule, limit and work
  std::string rule, limit, work;  // ids, empty where they do not apply
};

// Where an answer begins to count as large, to be shown beside its range.
struct Threshold {
  double share = 0;
  Citation from;
};

struct Verdict {
  Action action = Action::undecided;
  Concern vitality = Concern::unknown;
  Concern stability = Concern::unknown;
  std::vector<Reason> reasons;
  std::vector<std::string> missing;   // measurements that would settle what is unknown
  std::vector<std::string> measures;  // what to do, each a sentence
  Threshold large_loss;       // of absorbing roots, of this tree: a best estimate at or above it
  Threshold large_reduction;  // of anchorage kept: a low end below it
};

// Everything a verdict may rest on. Pointers may be null except `tree`.
struct VerdictInputs {
  const Tree* tree = nullptr;
  const Species* species = nullptr;  // may be null
  std::vector<LimitResult> limits;
  std::optional<RootLoss> roots;
  std::optional<AnchorageKept> anchorage;
  std::vector<Note> notes;
  const std::vector<Work>* works = nullptr;
  std::vector<std::string> works_in_zones;  // ids of new works that reach any zone of the tree
  std::vector<std::string> works_on_stem;   // ids of new works whose ground meets the trunk
  std::vector<Error> not_applied;           // rules that gave no zone, and why
  std::vector<const Zone*> zones;           // of the tree, by all rules
  UnitSystem units = UnitSystem::metric;    // of the sentences
};

// The logic is a small table in docs/methods/verdicts.md; its thresholds are the parameters
// `verdict.*`, each with its source and status.
Verdict verdict_of(const VerdictInputs& inputs, const Tables& tables);

std::string_view to_text(Action action);        // "keep", "keep with measures", ...
std::string_view to_text(Reason::About about);  // "vitality", "stability", "data", "tree"
std::string_view to_text(Concern concern);      // "none", "small", "material", "large", "unknown"

}  // namespace rootstead
