#include <algorithm>

#include "engine/base/text.hpp"
#include "engine/replacement/owed.hpp"

namespace rootstead {
namespace {

constexpr const char* kPlantingCost = "planting cost";
constexpr const char* kTreeValue = "tree value";

std::optional<double> setting(const ProjectSettings& settings, const char* key) {
  const auto found = settings.other.find(key);
  if (found == settings.other.end()) return std::nullopt;
  return number_from(found->second);
}

std::optional<double> basis_of(const Guarantee& guarantee, const ReplacementCosts& costs) {
  switch (guarantee.basis) {
    case Guarantee::Basis::planting_cost:
      return costs.planting_cost;
    case Guarantee::Basis::tree_value:
      return costs.tree_value;
    case Guarantee::Basis::stated_elsewhere:
      return std::nullopt;
  }
  return std::nullopt;
}

std::string needs_of(const Guarantee& guarantee) {
  switch (guarantee.basis) {
    case Guarantee::Basis::planting_cost:
      return "Enter the cost of planting the replacement trees as the setting \"planting cost\".";
    case Guarantee::Basis::tree_value:
      return "Enter the appraised value of the trees as the setting \"tree value\".";
    case Guarantee::Basis::stated_elsewhere:
      return "Our copy of the rule does not say how much is held: ask the authority.";
  }
  return {};
}

MoneyRange amount_of(const Guarantee& guarantee, double cost) {
  MoneyRange amount{guarantee.least_share.value_or(1) * cost,
                    guarantee.most_share.value_or(1) * cost, ""};
  if (!guarantee.at_most) return amount;
  amount.currency = guarantee.at_most->currency;
  amount.low = std::min(amount.low, guarantee.at_most->amount);
  amount.high = std::min(amount.high, guarantee.at_most->amount);
  return amount;
}

std::string formula_of(const Guarantee& guarantee) {
  std::string text = "guarantee = " + percent(guarantee.least_share.value_or(1), 0);
  if (guarantee.most_share != guarantee.least_share)
    text += " to " + percent(guarantee.most_share.value_or(1), 0);
  text += " of the " + std::string(to_text(guarantee.basis));
  if (guarantee.at_most) text += ", at most " + shortest_number(guarantee.at_most->amount);
  return text;
}

}  // namespace

ReplacementCosts replacement_costs_of(const ProjectSettings& settings) {
  return {setting(settings, kPlantingCost), setting(settings, kTreeValue)};
}

GuaranteeAdvice guarantee_of(const ReplacementRule& rule, const ReplacementCosts& costs) {
  const Guarantee& guarantee = *rule.guarantee;
  GuaranteeAdvice advice;
  advice.from = guarantee.from;
  const auto cost = basis_of(guarantee, costs);
  if (cost) {
    advice.amount = amount_of(guarantee, *cost);
    advice.figure.name = "replacement." + rule.id + ".guarantee";
    advice.figure.value = advice.amount->high;
    advice.figure.unit = advice.amount->currency;
    advice.figure.inputs = {{"C", std::string(to_text(guarantee.basis)), shortest_number(*cost)}};
    advice.figure.formula = formula_of(guarantee);
    advice.figure.from = guarantee.from;
  } else {
    advice.needs = needs_of(guarantee);
  }
  for (const Guarantee::Stage& stage : guarantee.stages) {
    ReleaseStage release{stage.share, stage.months, stage.condition, std::nullopt};
    if (advice.amount && stage.share)
      release.amount = MoneyRange{advice.amount->low * *stage.share,
                                  advice.amount->high * *stage.share, advice.amount->currency};
    advice.stages.push_back(std::move(release));
  }
  return advice;
}

}  // namespace rootstead
