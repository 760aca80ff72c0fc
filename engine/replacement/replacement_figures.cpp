#include "engine/replacement/replacement_figures.hpp"

#include <algorithm>
#include <cmath>

#include "engine/base/text.hpp"
#include "engine/replacement/owed.hpp"

namespace rootstead {
namespace {

using Kind = ReplacementTerm::Kind;
using FeeKind = ReplacementFee::Kind;

std::string prefix_of(const ReplacementRule& rule) {
  return "replacement." + rule.id;
}

bool has_table(const ReplacementRule& rule) {
  return std::any_of(rule.fees.begin(), rule.fees.end(),
                     [](const ReplacementFee& fee) { return fee.kind == FeeKind::table; });
}

bool has_kind(const ReplacementRule& rule, Kind kind) {
  const auto same = [&](const ReplacementTerm& term) { return term.kind == kind; };
  return std::any_of(rule.terms.begin(), rule.terms.end(), same);
}

// What a person may give: a key for each part of the rule.
std::vector<FigureInput> inputs_of(const ReplacementRule& rule) {
  std::vector<FigureInput> inputs;
  const bool category = has_kind(rule, Kind::by_category), sum = has_kind(rule, Kind::by_sum);
  if (rule.allowance) {
    inputs.push_back({"removed", "sum of the stem diameters removed", "400in"});
    inputs.push_back({"surveyed", "sum of the stem diameters the rule is for", "1000in"});
  } else if (sum) {
    inputs.push_back({"removed", "sum of the stem diameters removed", "30in"});
  } else if (category) {
    inputs.push_back({"class", "class of the tree", rule.terms.front().rows.front().category});
  } else if (takes_diameter(rule)) {
    inputs.push_back(
        {"stem", "stem diameter of the removed tree", has_table(rule) ? "56in" : "20in"});
  }
  if (has_table(rule)) inputs.push_back({"owed", "stem diameter owed", "107in"});
  const bool counts =
      !rule.terms.empty() || !rule.terms_without_leave.empty() || !rule.fees.empty();
  if (counts && !sum && !has_table(rule)) inputs.push_back({"trees", "such trees removed", "1"});
  if (!rule.guarantee) return inputs;
  inputs.push_back(rule.guarantee->basis == Guarantee::Basis::stated_elsewhere
                       ? FigureInput{"amount", "the guarantee as the authority states it", "10000"}
                       : FigureInput{"cost", std::string(to_text(rule.guarantee->basis)), "10000"});
  return inputs;
}

Figure figure_of(const ReplacementRule& rule, const std::string& name, double value,
                 const std::string& unit, const std::string& formula, const Citation& from) {
  Figure figure;
  figure.name = prefix_of(rule) + "." + name;
  figure.value = value;
  figure.unit = unit;
  figure.formula = formula;
  figure.from = from;
  return figure;
}

// One kind of tree, `count` times over, through the same code as a site.
Result<std::vector<Figure>> of_trees(const ReplacementRule& rule, const HandValues& values) {
  Tree tree;
  tree.id = "T";
  tree.form = GrowthForm::broadleaf;
  if (values.has("stem"))
    tree.stems = {{Stem::Read::diameter, {values.in("stem", "m"), LengthUnit::metre}, {}}};
  if (values.has("class")) tree.category = values.word("class");
  const TreeOwed owed = owed_for(rule, tree, RemovedBecause::wanted);
  if (owed.refused) return *owed.refused;
  const double count = values.in("trees", "", 1);
  const Citation from = owed.figures.empty() ? citation_of(rule) : owed.figures.front().from;
  std::vector<Figure> figures;
  if (owed.diameter_owed)
    figures.push_back(figure_of(rule, "diameter-owed", owed.diameter_owed->metres() * count, "m",
                                "owed for one tree, times the trees", from));
  constexpr double kOfRounding = 1e-9;
  if (owed.trees_owed)
    figures.push_back(figure_of(rule, "trees-owed",
                                std::ceil(*owed.trees_owed * count - kOfRounding), "",
                                "owed for one tree, times the trees, rounded up", from));
  if (owed.fee)
    figures.push_back(figure_of(rule, "fee", owed.fee->amount * count, owed.fee->currency,
                                owed.figures.back().formula, from));
  if (owed.trees_without_leave)
    figures.push_back(figure_of(rule, "trees-without-leave", *owed.trees_without_leave * count, "",
                                "owed for one tree, times the trees", from));
  if (owed.fee_without_leave)
    figures.push_back(figure_of(rule, "fee-without-leave", owed.fee_without_leave->amount * count,
                                owed.fee_without_leave->currency, owed.figures.back().formula,
                                from));
  for (const TableAnomaly& anomaly : anomalies_of(rule))
    if (owed.fee && owed.fee->amount == anomaly.printed)
      figures.push_back(figure_of(rule, "fee-by-pattern", anomaly.pattern, anomaly.unit,
                                  "what the pattern of the table gives; not used", from));
  return figures;
}

// A stem diameter owed that is in no row of our copy goes by the pattern of its neighbours.
std::vector<Figure> of_owed(const ReplacementRule& rule, double owed_m) {
  for (const ReplacementFee& fee : rule.fees) {
    if (fee.kind != FeeKind::table) continue;
    for (const ReplacementFee::Row& row : fee.rows)
      if (std::abs(row.owed.length().metres() - owed_m) < 1e-6)
        return {figure_of(rule, "fee", row.fee, fee.amount.currency, "as printed in the table",
                          fee.from)};
    if (!fee.pattern_per_inch) continue;
    Citation from = fee.from;
    from.status = weaker(from.status, fee.pattern_status.value_or(Status::assumption));
    const double owed_in = in_unit(Length::metres(owed_m), LengthUnit::inch);
    return {figure_of(rule, "fee", *fee.pattern_per_inch * owed_in, fee.amount.currency,
                      "fee = " + shortest_number(*fee.pattern_per_inch) +
                          " for an inch owed, as in the neighbouring rows",
                      from)};
  }
  return {};
}

Result<std::vector<Figure>> of_sum(const ReplacementRule& rule, const HandValues& values) {
  const double removed = values.in("removed", "m");
  std::vector<Figure> figures;
  double counted = removed;
  if (rule.allowance && values.has("surveyed")) {
    const double allowed = rule.allowance->share * values.in("surveyed", "m");
    counted = std::max(0.0, removed - allowed);
    const std::string share = percent(rule.allowance->share, 0);
    figures.push_back(figure_of(rule, "allowed", allowed, "m",
                                "allowed = " + share + " of surveyed", rule.allowance->from));
    figures.push_back(figure_of(rule, "beyond-allowance", counted, "m",
                                "removed - allowed, not below 0", rule.allowance->from));
  }
  for (const ReplacementTerm& term : rule.terms) {
    if (term.kind != Kind::by_sum) continue;
    const auto* row = class_row_for(term, Length::metres(counted));
    if (row == nullptr)
      return Error{Code::outside_rule_domain, prefix_of(rule),
                   "the sum is above the last row of the table", "ask the authority"};
    figures.push_back(
        figure_of(rule, "trees-owed", row->value, "", "up to " + to_text(row->up_to), term.from));
  }
  return figures;
}

void add_guarantee(const ReplacementRule& rule, const HandValues& values,
                   std::vector<Figure>& figures) {
  if (values.has("amount")) {
    const double amount = values.in("amount", "");
    int number = 0;
    for (const Guarantee::Stage& stage : rule.guarantee->stages) {
      ++number;
      if (stage.share)
        figures.push_back(figure_of(rule, "release-" + std::to_string(number),
                                    amount * *stage.share, "", stage.condition,
                                    rule.guarantee->from));
      if (stage.months)
        figures.push_back(figure_of(rule, "months-" + std::to_string(number), *stage.months,
                                    "months", stage.condition, rule.guarantee->from));
    }
  }
  if (!values.has("cost")) return;
  ReplacementCosts costs;
  costs.planting_cost = costs.tree_value = values.in("cost", "");
  const GuaranteeAdvice advice = guarantee_of(rule, costs);
  figures.push_back(figure_of(rule, "guarantee-low", advice.amount->low, advice.amount->currency,
                              advice.figure.formula, advice.from));
  figures.push_back(figure_of(rule, "guarantee-high", advice.amount->high, advice.amount->currency,
                              advice.figure.formula, advice.from));
}

Result<std::vector<Figure>> compute(const ReplacementRule& rule, const HandValues& values) {
  std::vector<Figure> figures;
  if (values.has("removed")) {
    ROOTSTEAD_TRY(figures, of_sum(rule, values));
  } else if (values.has("stem") || values.has("class") || values.has("trees")) {
    ROOTSTEAD_TRY(figures, of_trees(rule, values));
  } else if (values.has("owed")) {
    figures = of_owed(rule, values.in("owed", "m"));
  }
  add_guarantee(rule, values, figures);
  if (figures.empty())
    return Error{Code::wrong_use, prefix_of(rule), "nothing was given to compute from",
                 "see `rootstead figure --list` for its inputs"};
  return figures;
}

}  // namespace

std::vector<HandFigure> replacement_figures(const Tables& tables) {
  std::vector<HandFigure> all;
  for (const ReplacementRule& rule : tables.replacement_rules) {
    HandFigure one;
    one.kind = {prefix_of(rule), "", rule.title, inputs_of(rule)};
    if (one.kind.inputs.empty()) continue;
    if (one.kind.inputs.size() > 1)
      for (const FigureInput& input : one.kind.inputs) one.may_miss.push_back(input.symbol);
    one.compute = [rule](const HandValues& values) { return compute(rule, values); };
    all.push_back(std::move(one));
  }
  return all;
}

}  // namespace rootstead
