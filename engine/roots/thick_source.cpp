// Laws of thick roots from the tables: the best guess and draws. The order of the draws is part of
// the result: the same seed gives the same law.
#include <algorithm>
#include <array>
#include <cmath>

#include "engine/roots/thick_roots.hpp"

namespace rootstead {
namespace {

constexpr double kLeastDepthRatio = 0.4, kLargestDepthRatio = 3;
constexpr double kFurthestNormal = 3;  // of a sector's place among the sectors

// Genera whose thick roots run far and near the surface, as the poplars of the open counts do.
constexpr std::array<std::string_view, 2> kSurfaceRooters = {"Populus", "Salix"};

bool roots_near_the_surface(const Tree& tree, const Species* species) {
  return std::any_of(kSurfaceRooters.begin(), kSurfaceRooters.end(), [&](std::string_view genus) {
    return same_taxon(tree.botanical_name, genus) ||
           (species && same_taxon(species->botanical_name, genus));
  });
}

double best(const Tables& tables, std::string_view id) {
  return tables.parameter(id).best;
}

// Wilson & Hilferty 1931: a number of a gamma law with mean 1 from a normal one.
double gamma_of_mean_one(double variation, double z) {
  const double ninth = variation * variation / 9;
  return std::max(0.0, std::pow(1 - ninth + z * std::sqrt(ninth), 3));
}

}  // namespace

ThickRootSource::ThickRootSource(const Tree& tree, Length diameter, const Species* species,
                                 const Tables& tables)
    : diameter_(diameter.metres()),
      base_(distribution_of(tables, "thick.base_area")),
      near_share_(distribution_of(tables, roots_near_the_surface(tree, species)
                                              ? "thick.near_share_surface"
                                              : "thick.near_share")),
      near_length_(distribution_of(tables, "thick.near_length")),
      far_length_(distribution_of(tables, "thick.far_length")),
      counts_(distribution_of(tables, "thick.counts")),
      main_roots_(distribution_of(tables, "thick.main_roots")),
      depth_scale_(distribution_of(tables, "thick.depth_scale")),
      face_per_diameter_(best(tables, "thick.face_per_diameter")),
      count_reach_(best(tables, "thick.count_reach")),
      main_spread_(best(tables, "thick.main_spread")),
      crowding_(best(tables, "thick.crowding")),
      sector_variation_(best(tables, "thick.sector_variation")),
      sector_link_(best(tables, "thick.sector_link")),
      fine_variation_(best(tables, "roots.sector_variation")),
      fine_depth_(best(tables, "roots.depth_beta")),
      depth_{best(tables, "thick.depth_shape"),   best(tables, "thick.depth_shape_growth"),
             best(tables, "thick.depth_scale"),   best(tables, "thick.depth_scale_growth"),
             best(tables, "thick.depth_outward"), 0},
      spectrum_(best(tables, "thick.size_exponent"), best(tables, "thick.reach_exponent")) {}

// Thick roots lie deeper or shallower as the fine roots of the same tree do: the scale goes with
// the depth at which the fine-root law falls to 1/e.
ThickRootLaw ThickRootSource::law(const RootField& field, double depth_scale) const {
  ThickRootLaw law;
  law.diameter = diameter_;
  law.extent = extent_of(field.spread);
  law.face = std::min(face_per_diameter_ * diameter_, law.extent / 2);
  law.count_reach = count_reach_;
  law.main_spread = main_spread_;
  law.crowding = crowding_;
  law.spectrum = spectrum_;
  law.depth = depth_;
  const double ratio = std::log(fine_depth_) / std::log(std::min(field.depth.beta, 0.9999));
  law.depth.scale = depth_scale * std::clamp(ratio, kLeastDepthRatio, kLargestDepthRatio);
  law.depth.limit = field.depth.limit;
  return law;
}

ThickRootLaw ThickRootSource::central(const RootField& field) const {
  ThickRootLaw made = law(field, depth_scale_.best());
  made.base = base_.best();
  made.near_share = near_share_.best();
  made.near_length = near_length_.best();
  made.far_length = far_length_.best();
  made.counts = counts_.best();
  made.main_roots = main_roots_.best();
  return made;
}

ThickRootLaw ThickRootSource::draw(const RootField& field, RandomStream& random) const {
  const double base = base_.draw(random);
  const double near_share = near_share_.draw(random);
  const double near_length = near_length_.draw(random);
  const double far_length = far_length_.draw(random);
  const double counts = counts_.draw(random);
  const double main_roots = main_roots_.draw(random);
  ThickRootLaw made = law(field, depth_scale_.draw(random));
  made.base = base;
  made.near_share = near_share;
  made.near_length = near_length;
  made.far_length = far_length;
  made.counts = counts_.best();
  made.count_factor = counts / counts_.best();
  made.main_roots = main_roots;
  made.sectors = sectors(field.sectors, random);
  return made;
}

Sectors ThickRootSource::sectors(const Sectors& fine, RandomStream& random) const {
  const double own_part = std::sqrt(1 - sector_link_ * sector_link_);
  Sectors made{};
  double sum = 0;
  for (std::size_t i = 0; i < kSectors; ++i) {
    const double place = fine_variation_ > 0 ? (fine[i] - 1) / fine_variation_ : 0;
    const double z = sector_link_ * std::clamp(place, -kFurthestNormal, kFurthestNormal) +
                     own_part * random.normal(0, 1);
    sum += made[i] = gamma_of_mean_one(sector_variation_, z);
  }
  if (sum <= 0) return kEvenSectors;
  for (double& sector : made) sector *= kSectors / sum;
  return made;
}

ThickRootLaw thick_roots(const Tree& tree, Length diameter, const Species* species,
                         const RootField& field, const Tables& tables) {
  return ThickRootSource(tree, diameter, species, tables).central(field);
}

ThickRootLaw draw_thick_roots(const Tree& tree, Length diameter, const Species* species,
                              const RootField& field, const Tables& tables, RandomStream& random) {
  return ThickRootSource(tree, diameter, species, tables).draw(field, random);
}

ThickRootLaw in_ploughed_land(ThickRootLaw law, const Tables& tables) {
  law.depth.scale *= best(tables, "thick.depth_tilled");
  return law;
}

double regrown_share(double years, const Tables& tables) {
  return -std::expm1(-std::max(0.0, years) / best(tables, "thick.regrowth_time"));
}

}  // namespace rootstead
