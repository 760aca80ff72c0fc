#include "validation/model_tree.hpp"

#include <cmath>
#include <cstdlib>
#include <iostream>
#include <numbers>

#include "validation/shipped.hpp"

namespace rootstead::validation {
namespace {

constexpr int kSteps = 400;                               // of integrals outward from the stem
constexpr int kDirections = 8;                            // round the stem
constexpr double kTrenchEnd = 200;                        // m: a trench longer than any root system
constexpr double kTrenchWidth = 0.6, kTrenchDepth = 2.5;  // m: deeper than all roots

Tree tree_of(const TreeWords& words) {
  const auto metres = [](double value) { return EnteredLength{value, LengthUnit::metre}; };
  Tree tree;
  tree.id = "model tree";
  tree.botanical_name = words.botanical_name;
  tree.position = Position{{0, 0}, "by definition", {}};
  tree.stems = {{Stem::Read::diameter, metres(words.diameter), {}}};
  if (words.crown_radius) {
    const EnteredLength r = metres(*words.crown_radius);
    tree.crown = Crown{{r, r, r, r}, {}, false};
  }
  return tree;
}

// A strip square to a direction, its near edge at `distance` from the stem.
Polygon trench(double distance, int side) {
  const double sin[] = {0, 1, 0, -1}, cos[] = {1, 0, -1, 0};
  const auto at = [&](double out, double along) {
    return Point{out * sin[side] + along * cos[side], out * cos[side] - along * sin[side]};
  };
  const double far = distance + kTrenchWidth;
  return {{at(distance, -kTrenchEnd), at(far, -kTrenchEnd), at(far, kTrenchEnd),
           at(distance, kTrenchEnd)},
          {}};
}

// A model that refuses a tree of ours is a fault of this program.
template <class Value>
Value value_or_exit(Result<Value> result) {
  if (!result) {
    std::cerr << "validate: " << result.error().sentence() << '\n';
    std::exit(3);
  }
  return std::move(result).value();
}

}  // namespace

ModelTree::ModelTree(const TreeWords& words, Site site)
    : site_(std::make_unique<Site>(std::move(site))) {
  site_->trees = {tree_of(words)};
  model_ = value_or_exit(first_estimate(site_->trees.front(), *site_, shipped()));
}

double ModelTree::extent() const {
  return model_->estimate({1, 0}).extent_m.best;
}

double ModelTree::plan_density(double x, double y) const {
  return model_->plan_density({x, y});
}

double ModelTree::share_within(double r) const {
  double share = 0;
  const double width = r / kSteps;
  for (int i = 0; i < kSteps; ++i) {
    const double at = (i + 0.5) * width;
    for (int d = 0; d < kDirections; ++d) {
      const double azimuth = 2 * std::numbers::pi * (d + 0.5) / kDirections;
      share += plan_density(at * std::sin(azimuth), at * std::cos(azimuth)) * 2 * std::numbers::pi *
               at * width / kDirections;
    }
  }
  return share;
}

double ModelTree::share_above(double depth) const {
  double share = 0, whole = 0;
  const double reach = extent(), width = reach / kSteps;
  for (int i = 0; i < kSteps; ++i) {
    const double at = (i + 0.5) * width;
    const double ring = plan_density(at, 0) * at;
    whole += ring;
    share += ring * model_->share_above({at, 0}, Length::metres(depth));
  }
  return share / whole;
}

Range ModelTree::loss(double distance, int sides, int draws) const {
  std::vector<GroundTaking> takings;
  for (int side = 0; side < sides; ++side)
    takings.push_back({"trench",
                       {trench(distance, side)},
                       Length::metres(kTrenchDepth),
                       GroundTaking::Effect::severs,
                       {}});
  return model_->loss(takings, {1, draws}).all;
}

RootQuantities ModelTree::quantities() const {
  return value_or_exit(root_quantities(site_->trees.front(), shipped()));
}

}  // namespace rootstead::validation
