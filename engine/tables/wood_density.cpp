#include <algorithm>

#include "engine/base/text.hpp"
#include "engine/tables/distribution.hpp"
#include "engine/tables/traits.hpp"

namespace rootstead {
namespace {

constexpr double kLeastDensity = 0.05;            // g/cm3: below every wood
constexpr double kKilogramsPerCubicMetre = 1000;  // in one g/cm3

// What is known of the wood, and how closely.
struct Wood {
  double density = 0, sd = 0;  // g/cm3
  std::string taxon;           // whose
  Citation from;
  bool own = false;  // of the species itself
};

Wood wood_of(std::string_view botanical_name, const Tables& tables) {
  const WoodDensity* row = tables.wood_density_of(botanical_name);
  if (!row) {
    const Parameter& any = tables.parameter("traits.wood_density.any");
    return {any.best, distribution_of(tables, any.id).sigma(), "all woods", any.from, false};
  }
  const bool genus = row->botanical_name.find(' ') == std::string::npos;
  const Parameter& usual =
      tables.parameter(genus ? "traits.wood_density.genus_sd" : "traits.wood_density.species_sd");
  return {row->density, row->sd.value_or(usual.best), row->botanical_name, row->from, !genus};
}

std::string density_note(const Wood& wood, bool palm) {
  std::string text =
      "the wood density is that of " + wood.taxon + ", " + fixed_number(wood.density, 2) + " g/cm3";
  if (palm) text += "; within one palm stem it differs several times over";
  return text;
}

}  // namespace

Filled<Density> wood_density_of(std::string_view botanical_name, const Tables& tables) {
  const Wood wood = wood_of(botanical_name, tables);
  Tree tree;
  tree.botanical_name = botanical_name;
  const bool palm = is_monocot(tree, tables);
  Filled<Density> filled{Density::kilograms_per_cubic_metre(wood.density * kKilogramsPerCubicMetre),
                         !wood.own || palm,
                         {},
                         {}};
  filled.figure.name = "wood.density";
  filled.figure.value = wood.density;
  filled.figure.unit = "g/cm3";
  filled.figure.range = Range{std::max(kLeastDensity, wood.density - kNormalP90 * wood.sd),
                              wood.density, wood.density + kNormalP90 * wood.sd};
  filled.figure.inputs = {{"taxon", "whose wood", wood.taxon},
                          {"s", "standard deviation", fixed_number(wood.sd, 3) + " g/cm3"}};
  filled.figure.formula = "mean of the taxon; P10 and P90 are 1.28 standard deviations off";
  filled.figure.from = wood.from;
  if (filled.filled)
    filled.note =
        Note{NoteCode::density_filled, std::string(botanical_name), density_note(wood, palm)};
  return filled;
}

}  // namespace rootstead
