// What a survey left out, filled from the published tables: crown and height; and the density of
// wood, which no survey has.
// A filled figure is a guess about a kind of tree, not a measurement of this one: each has its
// range, its trail and a note that says so. Palms and other monocots are never filled from a stem:
// their stems do not thicken, so a diameter says nothing about the rest.
// Formulas, sources, how far they agree with open data: docs/methods/traits.md.
#pragma once

#include <optional>
#include <string_view>

#include "engine/base/figure.hpp"
#include "engine/base/note.hpp"
#include "engine/base/result.hpp"
#include "engine/site/tree.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

template <class Value>
struct Filled {
  Value value;
  bool filled = false;       // false: measured, or known of the species itself
  Figure figure;             // value, P10 to P90 where filled, inputs, formula, source
  std::optional<Note> note;  // wherever filled
};

// The groups that the fits of size and mass tell apart.
enum class TraitGroup { any, deciduous_broadleaf, evergreen_broadleaf, conifer, deciduous_conifer };

// By the record of the tree, else by its species; leaves by species or genus. Requires: no monocot.
TraitGroup trait_group_of(const Tree& tree, const Tables& tables);
std::string_view to_text(TraitGroup group);  // "deciduous broadleaf"
std::string_view key_of(TraitGroup group);   // "deciduous_broadleaf", as in the ids of parameters

// A palm or other monocot by its record or by its species.
bool is_monocot(const Tree& tree, const Tables& tables);

// The radius of the circle with the crown's area. Filled: the larger of the width of stand-grown
// trees of the species (else of its group) and of free-standing urban trees, halved.
// Fails with missing_measurement for monocots and for trees without a stem diameter.
Result<Filled<Length>> crown_radius_of(const Tree& tree, const Tables& tables);

// Filled: 1.3 m + f a D^b: the forest-grown height of the group, and f for trees in the open, about
// half. Fails as crown_radius_of does.
Result<Filled<Length>> height_of(const Tree& tree, const Tables& tables);

// Oven-dry mass per green volume of stem wood: of the species, else of its genus, else of all.
Filled<Density> wood_density_of(std::string_view botanical_name, const Tables& tables);

// The z with P(Z < z) = 0.9 for a standard normal Z.
inline constexpr double kNormalP90 = 1.2815515655446004;
// P10, P50 and P90 of a lognormal figure with this median and standard deviation of the logarithm.
Range lognormal_range(double median, double sigma);

}  // namespace rootstead
