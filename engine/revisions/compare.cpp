#include "engine/revisions/compare.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "engine/revisions/compare_things.hpp"

namespace rootstead {
namespace {

constexpr double kMedianError = 1.2533141373155;  // sqrt(pi / 2), of normal draws
constexpr double kLowToHigh = 2.5631031310892;    // P10 to P90 of a normal, in standard deviations
constexpr double kStandardErrors = 2;

using ByTree = std::map<std::string, const TreeAssessment*>;
ByTree by_tree(const Assessment& assessment) {
  ByTree trees;
  for (const TreeAssessment& tree : assessment.trees) trees.emplace(tree.tree, &tree);
  return trees;
}

std::optional<Range> loss_of(const TreeAssessment* tree) {
  if (tree == nullptr || !tree->roots) return std::nullopt;
  return tree->roots->all;
}
std::optional<Range> kept_of(const TreeAssessment* tree) {
  if (tree == nullptr || !tree->anchorage) return std::nullopt;
  return tree->anchorage->kept;
}

AnswerChange answer(std::optional<Range> before, std::optional<Range> after, double noise,
                    bool less_is_better) {
  if (!before || !after) return {before, after, before == after ? Trend::same : Trend::unknown};
  const double rise = after->best - before->best;
  if (std::abs(rise) < std::max(noise, kLeastDifference)) return {before, after, Trend::same};
  return {before, after, (rise < 0) == less_is_better ? Trend::better : Trend::worse};
}

class AnswerComparer {
 public:
  AnswerComparer(const Assessment& before, const Assessment& after)
      : before_(before), after_(after), was_(by_tree(before)), is_(by_tree(after)) {}

  void operator()(Comparison& result) const {
    for (const TreeAssessment& tree : after_.trees) add(find(was_, tree.tree), &tree, result);
    for (const TreeAssessment& tree : before_.trees)
      if (!is_.contains(tree.tree)) add(&tree, nullptr, result);
  }

 private:
  static const TreeAssessment* find(const ByTree& trees, const std::string& id) {
    const auto found = trees.find(id);
    return found == trees.end() ? nullptr : found->second;
  }

  void add(const TreeAssessment* was, const TreeAssessment* is, Comparison& result) const {
    const auto lost = loss_of(was), loses = loss_of(is);
    const double noise =
        lost && loses ? noise_of(*lost, before_.simulation.draws, *loses, after_.simulation.draws)
                      : 0;
    TreeChange change{is != nullptr ? is->tree : was->tree,
                      answer(lost, loses, noise, true),
                      answer(kept_of(was), kept_of(is), 0, false),
                      {},
                      {}};
    if (was != nullptr) change.before = was->verdict.action;
    if (is != nullptr) change.after = is->verdict.action;
    const bool same = change.health.trend == Trend::same && change.stability.trend == Trend::same &&
                      change.before == change.after;
    if (same)
      ++result.trees_same;
    else
      result.trees.push_back(std::move(change));
  }

  const Assessment &before_, &after_;
  ByTree was_, is_;
};

using LimitKey = std::tuple<std::string, std::string, std::string, std::string>;
using Limits = std::map<LimitKey, const LimitResult*>;

Limits limits_of(const Assessment& assessment) {
  Limits limits;
  for (const TreeAssessment& tree : assessment.trees)
    for (const ZoneAssessment& zone : tree.zones)
      for (const LimitResult& limit : zone.limits)
        limits.emplace(LimitKey{tree.tree, limit.rule, limit.zone, limit.limit}, &limit);
  return limits;
}

// Passed in `these`, and not passed, or not asked, in the others.
std::vector<LimitChange> passed_only_in(const Limits& these, const Limits& others, bool newly) {
  std::vector<LimitChange> changes;
  for (const auto& [key, limit] : these) {
    const auto found = others.find(key);
    const LimitResult* other = found == others.end() ? nullptr : found->second;
    if (!limit->passed_over || (other != nullptr && other->passed_over)) continue;
    LimitChange change{std::get<0>(key), limit->rule,    limit->zone, limit->limit, newly, {}, {},
                       limit->threshold, limit->triggers};
    std::optional<double>& mine = newly ? change.after : change.before;
    std::optional<double>& theirs = newly ? change.before : change.after;
    mine = limit->value;
    if (other != nullptr) theirs = other->value;
    changes.push_back(std::move(change));
  }
  return changes;
}

}  // namespace

double noise_of(const Range& before, int draws_before, const Range& after, int draws_after) {
  const auto error = [](const Range& range, int draws) {
    return draws > 0 ? kMedianError * (range.high - range.low) / kLowToHigh / std::sqrt(draws) : 0;
  };
  return kStandardErrors * std::hypot(error(before, draws_before), error(after, draws_after));
}

Comparison compare(const ProjectState& before, const ProjectState& after, UnitSystem units) {
  Comparison result;
  result.things = changed_things(*before.site, *after.site, units);
  AnswerComparer(*before.assessment, *after.assessment)(result);
  const Limits was = limits_of(*before.assessment), is = limits_of(*after.assessment);
  result.limits = passed_only_in(is, was, true);
  const std::vector<LimitChange> gone = passed_only_in(was, is, false);
  result.limits.insert(result.limits.end(), gone.begin(), gone.end());
  return result;
}

std::string_view to_text(ChangedSort sort) {
  switch (sort) {
    case ChangedSort::work:
      return "work";
    case ChangedSort::tree:
      return "tree";
    case ChangedSort::barrier:
      return "barrier";
    case ChangedSort::surface:
      return "surface";
    case ChangedSort::opening:
      return "opening";
    case ChangedSort::gate:
      return "gate";
    case ChangedSort::project:
      return "project";
  }
  return "";
}

std::string_view to_text(ChangedHow how) {
  switch (how) {
    case ChangedHow::added:
      return "added";
    case ChangedHow::removed:
      return "removed";
    case ChangedHow::changed:
      return "changed";
  }
  return "";
}

std::string_view to_text(Trend trend) {
  switch (trend) {
    case Trend::same:
      return "same";
    case Trend::better:
      return "better";
    case Trend::worse:
      return "worse";
    case Trend::unknown:
      return "unknown";
  }
  return "";
}

const std::string& trend_rule() {
  static const std::string rule =
      "Better or worse is said where the best estimate differs by at least half a percentage point "
      "and, of fine roots, by more than the lot of the simulation could make: twice the standard "
      "error of the difference of the two medians, taken as of normal draws (our assumption). "
      "Anchorage is not drawn by lot. Both states are computed with the same tables.";
  return rule;
}

}  // namespace rootstead
