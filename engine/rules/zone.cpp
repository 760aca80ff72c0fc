#include "engine/rules/zone.hpp"

#include <algorithm>
#include <set>

#include "engine/rules/zone_builder.hpp"

namespace rootstead {
namespace {

template <class Value>
bool allows(const std::vector<Value>& allowed, const Value& value) {
  return allowed.empty() || std::find(allowed.begin(), allowed.end(), value) != allowed.end();
}

// "A" also takes in "A1": a letter with its sub-class.
bool allows_category(const std::vector<std::string>& allowed, const std::string& category) {
  return allowed.empty() ||
         std::any_of(allowed.begin(), allowed.end(), [&](const std::string& wanted) {
           return category.starts_with(wanted) &&
                  category.find_first_not_of("0123456789", wanted.size()) == std::string::npos;
         });
}

bool allows_taxon(const std::vector<std::string>& taxa, const Tree& tree) {
  return taxa.empty() || std::any_of(taxa.begin(), taxa.end(), [&](const std::string& taxon) {
           return same_taxon(tree.botanical_name, taxon);
         });
}

Error no_clause(const Tree& tree, const ZoneRule& rule) {
  const std::string subject = "tree " + tree.label();
  if (tree.is_monocot()) {
    return {Code::outside_rule_domain, subject,
            "the rule " + rule.id +
                " has no clause for palms and other monocots, whose stems do "
                "not scale with their roots",
            "use a rule that has one, e.g. as4970-2025 or a drip line rule"};
  }
  return {Code::outside_rule_domain, subject,
          "no zone of the rule " + rule.id + " is for this tree", "use another rule"};
}

}  // namespace

bool applies_to(const Applies& applies, const Tree& tree) {
  const bool form = applies.forms.empty() ? !tree.is_monocot() : allows(applies.forms, tree.form);
  const bool columnar = tree.crown && tree.crown->columnar;
  const bool leaning = tree.lean && tree.lean->from_vertical > Angle();
  return form && allows(applies.conditions, tree.condition) && allows(applies.stages, tree.stage) &&
         allows_category(applies.categories, tree.category) && allows_taxon(applies.taxa, tree) &&
         applies.columnar.value_or(columnar) == columnar &&
         applies.several_stems.value_or(tree.stems.size() > 1) == (tree.stems.size() > 1) &&
         applies.leaning.value_or(leaning) == leaning;
}

Result<std::vector<Zone>> zones_for(const Tree& tree, Tolerance tolerance, const ZoneRule& rule,
                                    const std::vector<Barrier>& barriers) {
  const TreeSize size = size_of(tree, tolerance, rule);
  std::vector<Zone> zones;
  std::vector<Note> left_out;
  std::optional<Error> first_error;
  std::set<std::string> taken;
  for (const ZoneDefinition& definition : rule.zones) {
    if (taken.contains(definition.id) || !applies_to(definition.applies, tree)) continue;
    taken.insert(definition.id);
    auto zone = build_zone(definition, size, rule, barriers);
    if (zone) {
      zones.push_back(std::move(zone).value());
      continue;
    }
    left_out.push_back({NoteCode::crown_missing, tree.label(),
                        "the " + definition.name + " is left out: " + zone.error().message});
    if (!first_error) first_error = zone.error();
  }
  if (zones.empty()) return first_error ? *first_error : no_clause(tree, rule);
  auto& notes = zones.front().notes;
  notes.insert(notes.end(), left_out.begin(), left_out.end());
  return zones;
}

Result<std::vector<Zone>> zones_of(const Tree& tree, const ZoneRule& rule, const Tables& tables,
                                   const std::vector<Barrier>& barriers) {
  const Species* species = tables.species_of(tree.botanical_name);
  if (species == nullptr) return zones_for(tree, Tolerance::unknown, rule, barriers);
  if (tree.form != GrowthForm::unknown) return zones_for(tree, species->tolerance, rule, barriers);
  Tree named = tree;
  named.form = species->form;
  return zones_for(named, species->tolerance, rule, barriers);
}

}  // namespace rootstead
