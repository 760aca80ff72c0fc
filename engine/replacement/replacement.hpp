// Replacement: what each chosen rule asks for the trees that go: stem diameter or trees to plant,
// what is free of it, what is paid instead, what is held as a guarantee and when it is released.
// Rules stand side by side and are never averaged. Local law prevails over all of it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/assess/assess.hpp"
#include "engine/base/prescription.hpp"

namespace rootstead {

// Why a tree is counted among those removed. What the project wants and what the assessment
// advises are kept apart.
enum class RemovedBecause {
  wanted,             // Tree::intent is remove
  advised,            // the verdict is remove, the project has not said so
  wanted_and_advised  // both
};
std::string_view to_text(RemovedBecause why);

// A sum of money known exactly (low == high) or within what the rule states.
struct MoneyRange {
  double low = 0, high = 0;
  std::string currency;
};

// What one rule asks for one removed tree, before any allowance. What the rule does not speak of is
// left out.
struct TreeOwed {
  std::string tree;  // id
  RemovedBecause why = RemovedBecause::wanted;
  std::optional<Length> diameter;  // as the rule combines stems; never of a palm unless it does so
  std::optional<Length> diameter_owed;
  std::optional<double> trees_owed;
  std::optional<Money> fee;                   // where nothing is planted
  std::optional<double> trees_without_leave;  // had it been removed without leave
  std::optional<Money> fee_without_leave;
  std::vector<Figure> figures;
  std::vector<Note> notes;
  std::optional<Error> refused;  // why the rule gives no answer for this tree
};

// All removed trees together. Where a tree was refused, every sum is "at least".
struct OwedTotal {
  std::size_t trees = 0;              // removed
  std::vector<std::string> left_out;  // ids of removed trees without an answer
  Length removed;                     // sum of their D
  std::optional<Length> allowed;  // what the rule lets go free; nothing where it has no allowance
  Length free;                    // of `removed`, covered by the allowance
  std::optional<Length> diameter_owed;
  std::optional<double> trees_owed;  // a whole number: rounded up
  std::optional<Money> fee;          // where nothing at all is planted
  bool complete() const { return left_out.empty(); }
};

struct ReleaseStage {
  std::optional<double> share;
  std::optional<double> months;
  std::string condition;
  std::optional<MoneyRange> amount;  // where share and the whole are known
};

struct GuaranteeAdvice {
  std::optional<MoneyRange> amount;  // nothing where a cost must be entered first
  std::string needs;                 // which; empty where the amount is known
  std::vector<ReleaseStage> stages;
  Figure figure;  // of the amount; value is the high end
  Citation from;
};

struct RuleReplacement {
  std::string rule, title;
  std::vector<TreeOwed> trees;               // order of site.trees
  OwedTotal wanted;                          // trees whose intent is remove
  OwedTotal with_advised;                    // and those that the verdicts would remove
  std::optional<GuaranteeAdvice> guarantee;  // for `wanted`
  std::vector<TableAnomaly> anomalies;       // of its published tables
  std::vector<Figure> figures;               // of the totals, `with_advised` last
  std::vector<Note> notes;
};

struct ReplacementAdvice {
  std::vector<RuleReplacement> rules;        // in the order asked for
  std::vector<std::string> wanted, advised;  // ids of removed trees; no id is in both
  std::vector<Error> not_applied;            // ids of rules that are not known
  std::vector<Prescription> prescriptions;
  std::vector<std::string> cautions;
};

// What a guarantee is reckoned from; a person enters it.
struct ReplacementCosts {
  std::optional<double> planting_cost;  // of all replacement trees, planted
  std::optional<double> tree_value;     // appraised, of the trees that are kept or moved
};
// The settings "planting cost" and "tree value" of the project.
ReplacementCosts replacement_costs_of(const ProjectSettings& settings);

// Nothing is refused as a whole: an unknown rule is in `not_applied`, a tree without an answer in
// its line. Sums do not depend on the order of the trees, and no removal lowers any of them.
ReplacementAdvice replacement_for(const Site& site, const Tables& tables,
                                  const Assessment& assessment,
                                  const std::vector<std::string>& rule_ids);
ReplacementAdvice replacement_for(const Site& site, const Tables& tables,
                                  const Assessment& assessment,
                                  const std::vector<std::string>& rule_ids,
                                  const ReplacementCosts& costs);

}  // namespace rootstead
