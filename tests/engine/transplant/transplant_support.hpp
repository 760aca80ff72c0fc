// Trees to be moved, for the tests of this room.
#pragma once

#include <algorithm>
#include <string>

#include "engine/transplant/transplant.hpp"
#include "tests/support/shipped_tables.hpp"

namespace rootstead::test {

constexpr double kInch = 0.0254, kFoot = 0.3048, kPound = 0.45359237;

inline const Tables& tables() {
  static const Tables shipped = shipped_tables();
  return shipped;
}

inline EnteredLength metres(double value) {
  return {value, LengthUnit::metre};
}

// Good, young, from a nursery, its stem measured where callipers are set.
inline Tree nursery_tree(std::string name, GrowthForm form, double calliper, double height) {
  Tree tree;
  tree.id = "T1";
  tree.botanical_name = std::move(name);
  tree.form = form;
  tree.stems = {{Stem::Read::diameter, metres(calliper), metres(0.15)}};
  tree.height = metres(height);
  tree.condition = Condition::good;
  tree.stage = LifeStage::young;
  tree.history = GrowthHistory::planted_from_nursery;
  return tree;
}

inline Tree oak_from_seed(double diameter, double height) {
  Tree tree = nursery_tree("Quercus robur", GrowthForm::broadleaf, diameter, height);
  tree.stems.front().measured_at = metres(1.4);
  tree.stage = LifeStage::mature;
  tree.history = GrowthHistory::from_seed_in_place;
  return tree;
}

inline Tree grown_palm(std::string name, double trunk, double height) {
  Tree palm = nursery_tree(std::move(name), GrowthForm::palm, trunk, height);
  palm.stems.front().measured_at = metres(1.4);
  palm.clear_trunk = metres(height * 0.7);
  palm.stage = LifeStage::mature;
  return palm;
}

inline Site site_in_zone(int zone) {
  Site site;
  site.climate.hardiness_zone = zone;
  return site;
}

inline RootSimulation few_draws() {
  return {1, 40};
}

inline const Prescription* prescribed(const std::vector<Prescription>& all,
                                      std::string_view topic) {
  const auto found = std::find_if(all.begin(), all.end(),
                                  [&](const Prescription& one) { return one.topic == topic; });
  return found == all.end() ? nullptr : &*found;
}

}  // namespace rootstead::test
