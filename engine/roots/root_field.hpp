// RootField: one possible picture of a tree's absorbing roots, as a probability with total 1:
//   density(r, azimuth, z) = spread(r) * sector(azimuth) * depth(z | r)
// The best guess is one field; a simulation draws many. Lengths in metres, from the stem centre.
// Source: docs/methods/roots.md. Depth law: Gale & Grigal 1987, Jackson et al. 1996.
#pragma once

#include <array>
#include <variant>
#include <vector>

#include "engine/base/quantity.hpp"

namespace rootstead {

// Trees that thicken: density in plan falls as exp(-r / decay) out to the extent.
struct WoodySpread {
  double extent = 1;
  double decay = 1;
  double share_within(double r) const;
  double density(double r) const;  // per square metre of plan
};

// Palms and their like: roots leave the face of the trunk and end after a length drawn from two
// exponential laws, cut off at the extent. Distances are absolute, no stem diameter scales them.
struct FibrousSpread {
  double face = 0.15;  // radius from which roots emerge
  double extent = 12;  // from the stem centre
  double near_share = 0.8;
  double near_length = 0.5;
  double far_length = 4;
  double share_within(double r) const;
  double density(double r) const;

 private:
  double ends_before(double length) const;  // of roots unlimited by the extent
};

using RadialSpread = std::variant<WoodySpread, FibrousSpread>;

double extent_of(const RadialSpread& spread);
double share_within(const RadialSpread& spread, double r);
double density(const RadialSpread& spread, double r);

// A layer of soil: down to `bottom` metres roots are `weight` times as dense as in good ground.
struct DepthStep {
  double bottom = 0;
  double weight = 1;
};

// Share of roots above a depth: (1 - b^d) / (1 - b^limit), d in centimetres,
// b = beta - outer_shift * r / extent: outer roots lie shallower. Beta 1 means evenly spread.
// Where the soil has layers, the density of each is weighted and the whole is 1 again.
struct DepthLaw {
  double beta = 0.966;
  double outer_shift = 0.010;
  double limit = 1.5;                 // metres; no roots below
  std::vector<DepthStep> steps = {};  // from the top down; below the last, the weight is its own

  // The law at one distance, for many depths. Must not outlive the law.
  class Profile {
   public:
    Profile(double beta, double limit, const std::vector<DepthStep>& steps);
    double share_above(double depth) const;

   private:
    double amount_above(double depth) const;  // of the law without layers, limit not applied
    double weighted_above(double depth) const;
    double log_beta_, limit_, scale_;
    const std::vector<DepthStep>& steps_;
  };
  Profile at(double relative_distance) const {
    return {beta - outer_shift * relative_distance, limit, steps};
  }
  double share_above(double depth, double relative_distance) const {
    return at(relative_distance).share_above(depth);
  }
};

// The beta that puts `top_share` of the roots above 0.6 m into the upper 0.3 m.
// Requires: 0.5 <= top_share < 1.
double beta_of_top_share(double top_share);

// Relative root density by azimuth: eight values at 22.5, 67.5 ... degrees of grid azimuth, linear
// between them, mean 1. Linear rather than smooth so that no direction ever turns negative.
inline constexpr int kSectors = 8;
using Sectors = std::array<double, kSectors>;
inline constexpr Sectors kEvenSectors = {1, 1, 1, 1, 1, 1, 1, 1};

// The weights of the eight values at an azimuth; they add up to 1.
Sectors sector_weights(Angle azimuth);

// The constants a field was drawn with, in the order of FieldSource::input_ids(): what a range is
// traced back to.
inline constexpr int kFieldInputs = 7;

struct RootField {
  RadialSpread spread;
  DepthLaw depth;
  Sectors sectors = kEvenSectors;
  double pressing = 0;  // -1 ... 1: where in its range the effect of pressed ground lies
  double leak = 0;      // -1 ... 1: the same for how easily roots pass half-open ground
  std::array<double, kFieldInputs> inputs{};
};

}  // namespace rootstead
