#include "engine/advice/told_figure.hpp"

#include <algorithm>

#include "engine/base/text.hpp"

namespace rootstead {
namespace {

using Told = std::vector<ToldFigure>;

void tell(const std::vector<Figure>& figures, Told& told, const std::string& work = {},
          const std::string& rule = {}) {
  for (const Figure& figure : figures) told.push_back({figure, work, rule});
}

void tell_tree(const TreeAdvice& tree, Told& told) {
  if (tree.move) tell(tree.move->figures, told);
  for (const CutAdvice& cut : tree.cuts) tell(cut.figures, told, cut.work);
  for (const BoreAdvice& bore : tree.bores) tell(bore.figures, told, bore.work);
  tell(tree.root_crown.figures, told);
  if (tree.water) tell(tree.water->figures, told);
  if (tree.damage) tell(tree.damage->figures, told);
}

void tell_replacement(const ReplacementAdvice& replacement, const std::string& tree, Told& told) {
  for (const RuleReplacement& rule : replacement.rules) {
    for (const TreeOwed& owed : rule.trees) {
      if (owed.tree == tree) tell(owed.figures, told, {}, rule.rule);
    }
  }
}

Told chosen_by(const Told& figures, std::string_view name, bool exactly) {
  Told chosen;
  for (const ToldFigure& told : figures) {
    const bool is = told.figure.name == name;
    const bool holds = told.figure.name.find(name) != std::string::npos;
    if (exactly ? is : holds) chosen.push_back(told);
  }
  return chosen;
}

}  // namespace

bool reaches(const TreeAssessment& tree, const std::string& work) {
  const auto is_it = [&work](const auto& by_work) { return by_work.work == work; };
  for (const ZoneAssessment& zone : tree.zones) {
    if (std::any_of(zone.loss.by_work.begin(), zone.loss.by_work.end(), is_it)) return true;
  }
  return tree.roots && std::any_of(tree.roots->by_work.begin(), tree.roots->by_work.end(), is_it);
}

Told figures_told(const TreeAssessment& assessed, const Advice& advice) {
  Told told;
  tell(figures_of(assessed), told);
  for (const TreeAdvice& tree : advice.trees) {
    if (tree.tree == assessed.tree) tell_tree(tree, told);
  }
  for (const TrafficAdvice& traffic : advice.traffic) {
    if (reaches(assessed, traffic.work)) tell(traffic.figures, told, traffic.work);
  }
  for (const FillAdvice& fill : advice.fills) {
    if (reaches(assessed, fill.work)) tell(fill.figures, told, fill.work);
  }
  tell_replacement(advice.replacement, assessed.tree, told);
  return told;
}

Result<Told> figures_named(const Told& figures, std::string_view name, const std::string& tree) {
  Told chosen = chosen_by(figures, name, true);
  if (chosen.empty()) chosen = chosen_by(figures, name, false);
  if (!chosen.empty()) return chosen;
  std::vector<std::string> names;
  for (const ToldFigure& told : figures) {
    const bool known = std::find(names.begin(), names.end(), told.figure.name) != names.end();
    if (!known) names.push_back(told.figure.name);
  }
  return Error{Code::unknown_name, "tree " + tree, "there is no figure named " + std::string(name),
               "choose from " + joined(names, ", ")};
}

}  // namespace rootstead
