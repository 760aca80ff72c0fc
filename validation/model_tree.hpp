// One made-up tree, and what the root model says of it, asked only through its public headers.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "engine/roots/quantities.hpp"
#include "engine/roots/root_model.hpp"
#include "engine/site/site.hpp"

namespace rootstead::validation {

// Crown radius per stem diameter of free-standing urban trees (Coombes et al. 2019).
inline constexpr double kCrownPerStem = 12.75;

struct TreeWords {
  double diameter = 0.4;                 // m
  std::optional<double> crown_radius;    // m
  std::string botanical_name = "Tilia";  // heart roots
};

class ModelTree {
 public:
  // On open ground without a soil record, the stem at (0, 0), unless `site` says otherwise.
  explicit ModelTree(const TreeWords& words, Site site = {});

  double extent() const;                          // m
  double share_within(double r) const;            // of all roots, in a circle round the stem
  double share_above(double depth) const;         // of all roots, by depth, m
  double plan_density(double x, double y) const;  // share per m2
  // Share lost to straight, deep trenches at this distance from the stem centre, on the first
  // `sides` of north, east, south and west. Best estimate, and P10 to P90 of the draws.
  Range loss(double distance, int sides, int draws) const;
  RootQuantities quantities() const;

 private:
  std::unique_ptr<Site> site_;  // the model refers to it
  std::unique_ptr<RootModel> model_;
};

}  // namespace rootstead::validation
