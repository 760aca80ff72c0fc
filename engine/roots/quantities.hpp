// How much root a tree has, by weight, by length and by surface. The three are separate answers: a
// trench that takes a tenth of the weight may take half of the length, because the weight is in a
// few thick roots and the length in countless thin ones.
// From the stem diameter and the kind of tree alone, as medians of weighed trees; a closed-form
// lognormal spread, no lot is drawn. Sources: docs/methods/traits.md.
#pragma once

#include <vector>

#include "engine/base/figure.hpp"
#include "engine/base/note.hpp"
#include "engine/base/range.hpp"
#include "engine/base/result.hpp"
#include "engine/site/tree.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

// Dry masses. Fine roots are those under about 2 mm.
struct RootQuantities {
  Range root_mass_kg;    // all roots, stump excluded or included as the weighed trees had it
  Range root_per_shoot;  // mass of all roots per mass above ground
  Range fine_mass_kg;
  Range fine_length_m;
  Range fine_surface_m2;
  std::vector<Figure> figures;  // the same, each with its trail
  std::vector<Note> notes;      // a stem thinner or thicker than any weighed
};

// Fails with missing_measurement for palms and other monocots, whose stem says nothing of their
// roots, and for trees without a stem diameter.
Result<RootQuantities> root_quantities(const Tree& tree, const Tables& tables);

}  // namespace rootstead
