#include <algorithm>

#include "engine/remedies/verdict_case.hpp"

namespace rootstead {
namespace {

std::string tolerance_parameter(const Species* species) {
  const Tolerance tolerance = species ? species->tolerance : Tolerance::unknown;
  return "verdict.loss_tolerated." + std::string(to_text(tolerance));
}

bool is_stressed(const Tree& tree) {
  return tree.condition == Condition::poor || tree.stage == LifeStage::over_mature ||
         tree.stage == LifeStage::veteran;
}

bool is_vigorous_and_young(const Tree& tree) {
  return tree.condition == Condition::good && tree.stage == LifeStage::young;
}

Range loss_tolerated(const VerdictInputs& in, const Tables& tables) {
  const Parameter& base = tables.parameter(tolerance_parameter(in.species));
  double shift = 0;
  if (is_stressed(*in.tree)) shift += tables.parameter("verdict.loss_tolerated.stressed").best;
  if (is_vigorous_and_young(*in.tree))
    shift += tables.parameter("verdict.loss_tolerated.vigorous").best;
  Range tolerated{base.low + shift, base.best + shift, base.high + shift};
  if (in.species && in.species->sources_disagree)
    tolerated.low += tables.parameter("verdict.loss_tolerated.sources_disagree").best;
  tolerated.low = std::max(tolerated.low, 0.0);
  return tolerated;
}

}  // namespace

const Work* VerdictCase::work(std::string_view id) const {
  if (in.works == nullptr) return nullptr;
  for (const Work& work : *in.works) {
    if (work.id == id) return &work;
  }
  return nullptr;
}

VerdictCase verdict_case(const VerdictInputs& inputs, const Tables& tables) {
  const Parameter& any_tree = tables.parameter("verdict.loss_any_tree");
  const Parameter& no_change = tables.parameter("verdict.anchorage.no_change");
  VerdictThresholds t;
  t.loss_noticed = tables.parameter("verdict.loss_noticed").best;
  t.loss_any_tree = any_tree.best;
  t.loss_tolerated = loss_tolerated(inputs, tables);
  t.no_change = no_change.best;
  t.small_change = tables.parameter("verdict.anchorage.small_change").best;
  t.material_change = tables.parameter("verdict.anchorage.material_change").best;
  t.transplant_diameter = Length::metres(tables.parameter("verdict.transplant_diameter").best);
  t.any_tree_from = any_tree.from;
  t.tolerated_from = tables.parameter(tolerance_parameter(inputs.species)).from;
  t.anchorage_from = no_change.from;
  return {inputs, tables, t};
}

}  // namespace rootstead
