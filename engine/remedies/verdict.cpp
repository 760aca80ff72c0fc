#include "engine/remedies/verdict.hpp"

#include <algorithm>
#include <cassert>

#include "engine/remedies/verdict_case.hpp"
#include "engine/site/diameter.hpp"

namespace rootstead {
namespace {

using About = Reason::About;
using Weight = LimitDefinition::Weight;

// What must be known before anything can be said. Palms are not scaled by their stem.
std::vector<std::string> missing_measurements(const VerdictCase& c) {
  std::vector<std::string> missing;
  if (!c.tree().position) missing.push_back("position");
  const bool palm = roots_like_a_palm(c.tree(), c.in.species);
  if (!palm && !combined_diameter(c.tree(), {}).ok()) missing.push_back("stem diameter");
  return missing;
}

// What would sharpen the answer without being needed for one.
void name_what_would_help(const VerdictCase& c, Verdict& verdict) {
  for (const Error& error : c.in.not_applied) {
    verdict.reasons.push_back({About::data, error.sentence(), {}, {}, {}});
    if (error.code == Code::missing_measurement) verdict.missing.push_back(error.message);
  }
  const bool reached = !c.in.works_in_zones.empty() || (c.in.roots && c.in.roots->all.high > 0);
  if (!reached) return;
  if (c.in.species == nullptr || c.in.species->tolerance == Tolerance::unknown) {
    verdict.missing.push_back("tolerance of the species to root loss");
    verdict.reasons.push_back({About::data,
                               "How well this species stands root loss is not known; anything from "
                               "poor to good was allowed for.",
                               {},
                               {},
                               {}});
  }
  if (c.tree().condition == Condition::unknown) verdict.missing.push_back("condition");
}

void add_reasons_of_the_tree(const VerdictCase& c, Verdict& verdict) {
  for (const std::string& id : c.in.works_on_stem) {
    const Work* work = c.work(id);
    const bool digs = work && severs(*work);
    verdict.reasons.push_back({About::tree,
                               digs ? names_of({id}, c) + " digs where the trunk stands."
                                    : names_of({id}, c) + " lies against the trunk.",
                               {},
                               {},
                               id});
  }
  if (c.tree().condition == Condition::dead) {
    verdict.reasons.push_back({About::tree,
                               "The tree is recorded as dead: whether it stays as dead wood for "
                               "wildlife or goes is for a person to decide on site.",
                               {},
                               {},
                               {}});
  }
}

bool stem_is_dug_out(const VerdictCase& c) {
  return std::any_of(c.in.works_on_stem.begin(), c.in.works_on_stem.end(), [&](const auto& id) {
    const Work* work = c.work(id);
    return work && severs(*work);
  });
}

// Felling needs two witnesses: a published rule that is passed, and the root estimate.
bool is_lost_to_root_loss(const VerdictCase& c) {
  if (!c.in.roots) return false;
  Weight heaviest = Weight::note;
  for (const LimitResult& result : c.in.limits) {
    if (result.passed_over && !is_about_stability(result, c.tables))
      heaviest = std::max(heaviest, result.weight);
  }
  const Range& loss = c.in.roots->all;
  const Range& tolerated = c.thresholds.loss_tolerated;
  if (heaviest == Weight::refuse && loss.best >= tolerated.best) return true;
  return heaviest >= Weight::justify && loss.low >= tolerated.high;
}

// Small trees and palms that are well enough to be worth lifting. Only a candidate.
bool may_be_moved(const VerdictCase& c) {
  const Tree& tree = c.tree();
  if (tree.condition == Condition::poor || tree.condition == Condition::dead) return false;
  if (tree.stage == LifeStage::over_mature || tree.stage == LifeStage::veteran) return false;
  if (roots_like_a_palm(tree, c.in.species)) return true;
  const auto diameter = combined_diameter(tree, {});
  return diameter.ok() && *diameter <= c.thresholds.transplant_diameter;
}

Action by_concern(Concern concern) {
  switch (concern) {
    case Concern::none:
      return Action::keep;
    case Concern::small:
      return Action::keep_with_measures;
    case Concern::material:
    case Concern::large:
      return Action::assess_further;
    case Concern::unknown:
      break;
  }
  return Action::undecided;
}

// The first row that holds, of the table in docs/methods/verdicts.md.
Action action_of(const VerdictCase& c, const Verdict& verdict, bool missing) {
  if (stem_is_dug_out(c)) return may_be_moved(c) ? Action::transplant : Action::remove;
  if (missing) return Action::undecided;
  if (c.tree().condition == Condition::dead) return Action::assess_further;
  if (is_lost_to_root_loss(c)) return may_be_moved(c) ? Action::transplant : Action::remove;
  if (verdict.vitality == Concern::unknown || verdict.stability == Concern::unknown) {
    const Action known = by_concern(larger(verdict.vitality, verdict.stability));
    return known == Action::assess_further ? known : Action::undecided;
  }
  return by_concern(larger(verdict.vitality, verdict.stability));
}

void add_measures(const VerdictCase& c, Verdict& verdict) {
  if (verdict.action == Action::remove || verdict.action == Action::transplant) {
    verdict.measures.push_back(
        "The works as drawn leave the tree no room: first look for a way to build them elsewhere "
        "or "
        "otherwise; a permit may be needed to fell or move it.");
    if (verdict.action == Action::transplant) {
      verdict.measures.push_back(
          "It is small enough to be a candidate for moving: species, season, access, size of the "
          "root ball and aftercare must be checked first.");
    }
    return;
  }
  for (const std::string& id : c.in.works_on_stem) {
    const Work* work = c.work(id);
    if (work && !severs(*work))
      verdict.measures.push_back("Hold " + names_of({id}, c) +
                                 " back from the trunk and the root flare.");
  }
  if (verdict.action == Action::keep) return;
  for (std::string& sentence : measures_of(c, verdict))
    verdict.measures.push_back(std::move(sentence));
}

}  // namespace

Concern concern_of(Weight weight) {
  switch (weight) {
    case Weight::note:
    case Weight::measures:
      return Concern::small;
    case Weight::justify:
      return Concern::material;
    case Weight::refuse:
      return Concern::large;
  }
  return Concern::small;
}

Concern larger(Concern a, Concern b) {
  if (a == Concern::unknown) return b;
  if (b == Concern::unknown) return a;
  return std::max(a, b);
}

bool is_about_stability(const LimitResult& result, const Tables& tables) {
  const ZoneRule* rule = tables.rule(result.rule);
  if (rule == nullptr) return false;
  for (const ZoneDefinition& zone : rule->zones) {
    if (zone.id == result.zone) return zone.purpose == ZonePurpose::stability;
  }
  return false;
}

Verdict verdict_of(const VerdictInputs& inputs, const Tables& tables) {
  assert(inputs.tree != nullptr);
  const VerdictCase c = verdict_case(inputs, tables);
  Verdict verdict;
  verdict.large_loss = {c.thresholds.loss_tolerated.best, c.thresholds.tolerated_from};
  verdict.large_reduction = {c.thresholds.material_change, c.thresholds.anchorage_from};
  verdict.missing = missing_measurements(c);
  const bool missing = !verdict.missing.empty();
  add_reasons_of_the_tree(c, verdict);
  verdict.vitality = vitality_concern(c, verdict.reasons);
  verdict.stability = stability_concern(c, verdict.reasons);
  if (missing) verdict.vitality = verdict.stability = Concern::unknown;
  if (stem_is_dug_out(c)) verdict.vitality = verdict.stability = Concern::large;
  name_what_would_help(c, verdict);
  verdict.action = action_of(c, verdict, missing);
  add_measures(c, verdict);
  return verdict;
}

std::string_view to_text(Action action) {
  switch (action) {
    case Action::keep:
      return "keep";
    case Action::keep_with_measures:
      return "keep with measures";
    case Action::assess_further:
      return "assess further";
    case Action::transplant:
      return "transplant";
    case Action::remove:
      return "remove";
    case Action::undecided:
      return "undecided";
  }
  return "undecided";
}

std::string_view to_text(Reason::About about) {
  switch (about) {
    case Reason::About::vitality:
      return "vitality";
    case Reason::About::stability:
      return "stability";
    case Reason::About::data:
      return "data";
    case Reason::About::tree:
      return "tree";
  }
  return "tree";
}

std::string_view to_text(Concern concern) {
  switch (concern) {
    case Concern::none:
      return "none";
    case Concern::small:
      return "small";
    case Concern::material:
      return "material";
    case Concern::large:
      return "large";
    case Concern::unknown:
      return "unknown";
  }
  return "unknown";
}

}  // namespace rootstead
