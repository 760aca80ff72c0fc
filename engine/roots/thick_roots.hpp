// Thick (structural) roots of one tree: how much wood crosses a ring, how many roots of which
// thickness a trench face shows, and the chance of meeting one. Woody trees; palms have none.
// Formulas, sources, domain: docs/methods/thick_roots.md. Open data: Upson & Burgess 2013 (Silsoe).
#pragma once

#include <array>

#include "engine/base/random.hpp"
#include "engine/roots/root_field.hpp"
#include "engine/roots/size_spectrum.hpp"
#include "engine/site/tree.hpp"
#include "engine/tables/distribution.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

// Share of roots above a depth, a Weibull law cut off at the limit:
//   (1 - exp(-(d / scale)^shape)) / (1 - exp(-(limit / scale)^shape))
// With shape 1 it is the beta law of Gale & Grigal 1987. The thicker, the higher the shape: thick
// roots leave the topmost ground empty. The scale shrinks outward: outer roots lie shallower.
struct ThickDepthLaw {
  double shape = 1.21, shape_growth = 0.18;    // of roots of 2 mm; power of the thickness
  double scale = 0.374, scale_growth = 0.055;  // m, at the trunk
  double outward = 0.88;                       // scale falls as exp(-outward * r / extent)
  double limit = 1.5;                          // m; no roots below

  // A depth made ready to be asked of many laws.
  struct Depth {
    Depth(double metres);  // NOLINT: a depth in metres is a depth
    double metres, log;
  };
  // The law for one thickness (m) at one distance, for many depths.
  class Profile {
   public:
    Profile() = default;
    Profile(double shape, double scale, double limit);
    double share_above(const Depth& depth) const;
    double depth_of(double share) const;  // the inverse, share in [0, 1]

   private:
    double shape_ = 1, log_scale_ = 0, limit_ = 1, total_ = 1;
  };
  Profile at(double thickness, double relative_distance) const;
  double share_above(double depth, double thickness, double relative_distance) const {
    return at(thickness, relative_distance).share_above(depth);
  }
};

struct ThickRootLaw;

// A thickness made ready to be counted at many distances in one law.
struct CountedThickness {
  double log = 0;  // of metres
  SizeSpectrum::Size size;
};

// What crosses the ring at one distance from the trunk, all depths and directions together.
struct RootRing {
  double length = 0;  // m, of the ring
  double wood = 0;    // m2, of the roots counted: 1/175 of the stem and more
  // Roots at least so thick (m).
  double count(double thicker_than) const;
  double count(const CountedThickness& thicker_than) const;
  double per_metre(double thicker_than) const { return count(thicker_than) / length; }

  // How it was made, see docs/methods/thick_roots.md.
  const ThickRootLaw* law = nullptr;  // must outlive the ring
  double many = 0;                    // roots above the reference, were it at the trunk
  double fall = 0;                    // u of the spectrum
  double mains = 0;                   // main roots, and the logarithm of their median thickness
  double log_main_thickness = 0;
};

// One possible law: the best estimate, or one draw of it. Distances x are metres of open ground
// from the face of the trunk at the ground.
struct ThickRootLaw {
  double diameter = 0.3;  // m, of the stem
  double extent = 8;      // m, of this draw, from the stem centre; no roots beyond
  double face = 0.225;    // m, radius of the trunk at the ground
  double base = 1.0;      // wood crossing at the face per stem cross-section
  double near_share = 0.9, near_length = 0.9, far_length = 0.5;  // of D, of the extent
  double counts = 65;       // roots above the reference per metre at the face where near_share 0.7
  double count_factor = 1;  // on that number
  double count_reach = 0.38;  // of the extent
  double main_roots = 8, main_spread = 0.35;
  double crowding = 2.5;  // variance of counts over their mean
  ThickDepthLaw depth;
  Sectors sectors = kEvenSectors;
  SizeSpectrum spectrum;

  double cross_section(double x) const;  // m2 crossing the ring at x
  RootRing ring(double x) const;
  CountedThickness counted(double thickness) const;
  // Per metre of face, all depths; and per m2 of face, the upper metre.
  double count_per_metre(double thicker_than, double x) const;
  double count_per_area(double thicker_than, double x) const;
  double relative_distance(double x) const;  // of the stem centre, per extent, 0 to 1
  // Of roots at least so thick; left out, of those a report speaks of.
  double share_above(double depth, double x) const;
  double share_above(double depth, double thicker_than, double x) const;
};

// Makes laws for one tree; reads the tables once. `species` may be null.
class ThickRootSource {
 public:
  ThickRootSource(const Tree& tree, Length diameter, const Species* species, const Tables& tables);
  ThickRootLaw central(const RootField& field) const;
  // Takes the same number of numbers from the stream every time.
  ThickRootLaw draw(const RootField& field, RandomStream& random) const;

 private:
  ThickRootLaw law(const RootField& field, double depth_scale) const;
  Sectors sectors(const Sectors& fine, RandomStream& random) const;

  double diameter_;
  Distribution base_, near_share_, near_length_, far_length_, counts_, main_roots_, depth_scale_;
  double face_per_diameter_, count_reach_, main_spread_, crowding_;
  double sector_variation_, sector_link_, fine_variation_, fine_depth_;
  ThickDepthLaw depth_;
  SizeSpectrum spectrum_;
};

ThickRootLaw thick_roots(const Tree& tree, Length diameter, const Species* species,
                         const RootField& field, const Tables& tables);
ThickRootLaw draw_thick_roots(const Tree& tree, Length diameter, const Species* species,
                              const RootField& field, const Tables& tables, RandomStream& random);

// The same law in land that has been ploughed deep for years: thick roots lie deeper.
ThickRootLaw in_ploughed_land(ThickRootLaw law, const Tables& tables);

// Share of the cross-section of cut roots that has grown again: 1 - exp(-years / regrowth time).
double regrown_share(double years, const Tables& tables);

// The k of the negative binomial with this mean and crowding.
double clumping(double mean, double crowding);
// Chance that a count with this mean and crowding (variance over mean) is not zero: negative
// binomial with k = mean / (crowding - 1), at least 0.5.
double chance_of_any(double mean, double crowding);
// ln of the chance of exactly `count`.
double log_chance_of_count(int count, double mean, double crowding);
// The chances of exactly 0, 1 ... n - 1, each from the one before.
template <std::size_t n>
std::array<double, n> chances_of_counts(double mean, double crowding) {
  std::array<double, n> chances{};
  chances[0] = 1 - chance_of_any(mean, crowding);
  if (mean <= 0) return chances;
  const double k = crowding <= 1 ? 0 : clumping(mean, crowding);
  for (std::size_t i = 1; i < n; ++i) {
    const auto before = static_cast<double>(i - 1), count = static_cast<double>(i);
    chances[i] =
        chances[i - 1] * (crowding <= 1 ? mean / count : (k + before) / count * mean / (mean + k));
  }
  return chances;
}

// The thicknesses a report speaks of, in metres.
inline constexpr std::array<double, 3> kSpokenThickness = {0.025, 0.050, 0.100};

}  // namespace rootstead
