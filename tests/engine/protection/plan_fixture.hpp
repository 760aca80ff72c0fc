// Sites, rules and assessments in a few lines, for the tests of protection plans. Zones come from a
// rule of twelve diameters; nothing of the root model is needed here.
#pragma once

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/protection/protection_plan.hpp"
#include "engine/rules/zone.hpp"
#include "tests/support/shipped_tables.hpp"
#include "tests/support/site_builder.hpp"

namespace rootstead::test {

// Zones of `factor` stem diameters round trees that thicken.
inline ZoneRule stem_rule(std::string id, double factor) {
  ZoneTerm term;
  term.factor = factor;
  ZoneDefinition zone;
  zone.id = "zone";
  zone.name = "root zone";
  zone.terms = {term};
  zone.from = {"plane-geometry", "test", Status::published};
  ZoneRule rule;
  rule.id = std::move(id);
  rule.title = "Rule";
  rule.measured_at = metres(1.4);
  rule.zones = {zone};
  return rule;
}

inline const Tables& plan_tables() {
  static const Tables tables = [] {
    Tables made = shipped_tables();
    made.rules = {stem_rule("twelve", 12), stem_rule("fifteen", 15)};
    return made;
  }();
  return tables;
}

// Zones by the rules of the site, every verdict "keep".
inline Assessment zones_only(const Site& site) {
  Assessment assessment;
  for (const Tree& tree : site.trees) {
    TreeAssessment one;
    one.tree = tree.id;
    one.verdict.action = Action::keep;
    for (const std::string& id : site.settings.rules) {
      auto zones = zones_of(tree, *plan_tables().rule(id), plan_tables(), site.barriers);
      if (!zones.ok()) {
        one.rules_not_applied.push_back(zones.error());
        continue;
      }
      for (Zone& zone : *zones) one.zones.push_back({std::move(zone), {}, {}});
    }
    assessment.trees.push_back(std::move(one));
  }
  return assessment;
}

inline ProtectionPlan plan_of(const Site& site, const ProtectionOptions& options = {}) {
  auto plan = protection_plan(site, plan_tables(), zones_only(site), options);
  if (!plan.ok()) ADD_FAILURE() << plan.error().sentence();
  return plan.ok() ? std::move(plan).value() : ProtectionPlan{};
}

inline std::vector<Clash> clashes_of(const ProtectionPlan& plan, const Site& site) {
  return find_clashes(plan, site, plan_tables(), zones_only(site));
}

inline double quantity(const ProtectionPlan& plan, std::string_view name) {
  for (const BillItem& item : plan.bill) {
    if (item.name == name) return item.quantity;
  }
  return 0;
}

inline std::string words_of(const std::vector<Clash>& clashes) {
  std::string words;
  for (const Clash& clash : clashes)
    words += std::string(to_text(clash.kind)) + ": " + clash.text + "\n";
  return words;
}

inline bool has(const std::vector<std::string>& ids, const std::string& id) {
  return std::find(ids.begin(), ids.end(), id) != ids.end();
}

inline bool has_clash(const std::vector<Clash>& clashes, ClashKind kind,
                      const std::vector<std::string>& ids) {
  return std::any_of(clashes.begin(), clashes.end(), [&](const Clash& clash) {
    return clash.kind == kind && std::all_of(ids.begin(), ids.end(), [&](const std::string& id) {
             return has(clash.ids, id);
           });
  });
}

// Boundary and gates move with the rest.
template <class Move>
Site moved_whole(const Site& site, Move move) {
  Site other = moved(site, move);
  move_area(other.boundary, move);
  for (Gate& gate : other.gates) gate.at = move(gate.at);
  return other;
}

}  // namespace rootstead::test
