#include "engine/replacement/replacement.hpp"

#include <algorithm>
#include <map>

#include "engine/base/amount_text.hpp"
#include "engine/base/nearest.hpp"
#include "engine/base/text.hpp"
#include "engine/replacement/owed.hpp"

namespace rootstead {
namespace {

const std::vector<std::string> kReplacementCautions = {
    "Rules of different authorities stand side by side; which of them binds is for the authority "
    "to "
    "say, and the edition in force prevails.",
    "That the assessment advises the removal of a tree is no leave to remove it: ask for the "
    "permit "
    "first.",
    "Fees and ratios change from year to year; read the row in force before anything is paid or "
    "planted.",
};

std::optional<RemovedBecause> why_removed(const Tree& tree, const TreeAssessment* assessed) {
  const bool wanted = tree.intent == Intent::remove;
  const bool advised = assessed && assessed->verdict.action == Action::remove;
  if (wanted && advised) return RemovedBecause::wanted_and_advised;
  if (wanted) return RemovedBecause::wanted;
  if (advised) return RemovedBecause::advised;
  return std::nullopt;
}

struct Removed {
  const Tree* tree = nullptr;
  RemovedBecause why = RemovedBecause::wanted;
};

std::vector<Removed> removed_trees(const Site& site, const Assessment& assessment) {
  std::map<std::string, const TreeAssessment*> by_id;
  for (const TreeAssessment& one : assessment.trees) by_id[one.tree] = &one;
  std::vector<Removed> removed;
  for (const Tree& tree : site.trees) {
    const auto found = by_id.find(tree.id);
    const auto why = why_removed(tree, found == by_id.end() ? nullptr : found->second);
    if (why) removed.push_back({&tree, *why});
  }
  return removed;
}

void add_figure(RuleReplacement& result, const Citation& from, const std::string& name,
                double value, const std::string& unit, const OwedTotal& total,
                const std::string& formula) {
  Figure figure;
  figure.name = "replacement." + result.rule + "." + name;
  figure.value = value;
  figure.unit = unit;
  figure.inputs = {{"n", "trees removed", std::to_string(total.trees)},
                   {"S", "sum of their diameters",
                    fixed_number(in_unit(total.removed, LengthUnit::inch), 1) + " in"}};
  if (total.allowed)
    figure.inputs.push_back({"A", "free of replacement",
                             fixed_number(in_unit(total.free, LengthUnit::inch), 1) + " in"});
  figure.formula = formula;
  figure.from = from;
  result.figures.push_back(std::move(figure));
}

void add_figures(RuleReplacement& result, const Citation& from, const std::string& prefix,
                 const OwedTotal& total) {
  if (total.allowed)
    add_figure(result, from, prefix + ".beyond-allowance", (total.removed - total.free).metres(),
               "m", total, "beyond = S - A");
  if (total.diameter_owed)
    add_figure(result, from, prefix + ".diameter-owed", total.diameter_owed->metres(), "m", total,
               "sum over the trees");
  if (total.trees_owed)
    add_figure(result, from, prefix + ".trees-owed", *total.trees_owed, "", total,
               "sum over the trees, rounded up");
  if (total.fee)
    add_figure(result, from, prefix + ".fee", total.fee->amount, total.fee->currency, total,
               "sum over the trees, nothing planted");
}

std::vector<const TreeOwed*> lines_of(const RuleReplacement& result, bool with_advised) {
  std::vector<const TreeOwed*> lines;
  for (const TreeOwed& one : result.trees)
    if (with_advised || one.why != RemovedBecause::advised) lines.push_back(&one);
  return lines;
}

void say_once(std::vector<Note>& notes) {
  std::vector<Note> kept;
  for (Note& note : notes) {
    const auto same = [&](const Note& other) {
      return other.code == note.code && other.text == note.text;
    };
    if (std::none_of(kept.begin(), kept.end(), same)) kept.push_back(std::move(note));
  }
  notes = std::move(kept);
}

RuleReplacement under(const ReplacementRule& rule, const Site& site,
                      const std::vector<Removed>& removed, const ReplacementCosts& costs) {
  RuleReplacement result;
  result.rule = rule.id;
  result.title = rule.title;
  for (const Removed& one : removed) result.trees.push_back(owed_for(rule, *one.tree, one.why));
  const auto allowed = allowance_of(rule, site, result.notes);
  result.wanted = total_of(rule, lines_of(result, false), site, allowed, result.notes);
  result.with_advised = total_of(rule, lines_of(result, true), site, allowed, result.notes);
  add_figures(result, citation_of(rule), "wanted", result.wanted);
  add_figures(result, citation_of(rule), "with-advised", result.with_advised);
  if (rule.guarantee) result.guarantee = guarantee_of(rule, costs);
  result.anomalies = anomalies_of(rule);
  for (const TableAnomaly& anomaly : result.anomalies)
    result.notes.push_back({NoteCode::table_row_odd, rule.id, anomaly.sentence()});
  say_once(result.notes);
  return result;
}

// "6 trees", "24.0 in of stem diameter"; empty where the rule asks for neither.
std::string owed_text(const OwedTotal& total, const AmountText& amount) {
  std::vector<std::string> parts;
  if (total.trees_owed && *total.trees_owed > 0)
    parts.push_back(fixed_number(*total.trees_owed, 0) +
                    (*total.trees_owed == 1 ? " tree" : " trees"));
  if (total.diameter_owed && *total.diameter_owed > Length{})
    parts.push_back(amount.small_length(*total.diameter_owed) + " of stem diameter");
  return joined(parts, " with ");
}

std::string removed_text(const RuleReplacement& result, bool with_advised) {
  std::vector<std::string> ids;
  for (const TreeOwed* one : lines_of(result, with_advised))
    if (!one->refused) ids.push_back(one->tree);
  return joined(ids, ", ");
}

void prescribe(const RuleReplacement& result, const ReplacementRule& rule, bool with_advised,
               const AmountText& amount, std::vector<Prescription>& out) {
  const OwedTotal& total = with_advised ? result.with_advised : result.wanted;
  const std::string owed = owed_text(total, amount);
  if (owed.empty()) return;
  Prescription one;
  one.topic = "replacement";
  one.text = "Where the rule " + rule.id + " binds: plant " +
             std::string(total.complete() ? "" : "at least ") + owed + " for " +
             removed_text(result, with_advised) +
             (with_advised ? ", if the trees advised for removal are removed too." : ".");
  one.reason = rule.title + ".";
  const std::string prefix =
      "replacement." + rule.id + (with_advised ? ".with-advised." : ".wanted.");
  for (const Figure& figure : result.figures)
    if (figure.name.starts_with(prefix)) one.figures.push_back(figure);
  one.from = citation_of(rule);
  out.push_back(std::move(one));
}

}  // namespace

std::string_view to_text(RemovedBecause why) {
  switch (why) {
    case RemovedBecause::wanted:
      return "the project removes it";
    case RemovedBecause::advised:
      return "the assessment advises removal";
    case RemovedBecause::wanted_and_advised:
      return "the project removes it and the assessment advises it";
  }
  return "";
}

ReplacementAdvice replacement_for(const Site& site, const Tables& tables,
                                  const Assessment& assessment,
                                  const std::vector<std::string>& rule_ids) {
  return replacement_for(site, tables, assessment, rule_ids, replacement_costs_of(site.settings));
}

ReplacementAdvice replacement_for(const Site& site, const Tables& tables,
                                  const Assessment& assessment,
                                  const std::vector<std::string>& rule_ids,
                                  const ReplacementCosts& costs) {
  ReplacementAdvice advice;
  const auto removed = removed_trees(site, assessment);
  for (const Removed& one : removed)
    (one.why == RemovedBecause::advised ? advice.advised : advice.wanted).push_back(one.tree->id);
  std::vector<std::string> known;
  for (const ReplacementRule& rule : tables.replacement_rules) known.push_back(rule.id);
  const AmountText amount{site.settings.units};
  for (const std::string& id : rule_ids) {
    const ReplacementRule* rule = tables.replacement_rule(id);
    if (rule == nullptr) {
      advice.not_applied.push_back({Code::unknown_name, "replacement",
                                    "there is no replacement rule \"" + id + "\"",
                                    suggestion(id, known)});
      continue;
    }
    advice.rules.push_back(under(*rule, site, removed, costs));
    prescribe(advice.rules.back(), *rule, false, amount, advice.prescriptions);
    if (!advice.advised.empty())
      prescribe(advice.rules.back(), *rule, true, amount, advice.prescriptions);
  }
  advice.cautions = kReplacementCautions;
  return advice;
}

}  // namespace rootstead
