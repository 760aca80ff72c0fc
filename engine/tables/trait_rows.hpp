// Rows of data/: what is known of a species besides its roots, to fill gaps in a survey with.
// Every row has the name of a species or of a genus; a species' own row goes first.
#pragma once

#include <optional>
#include <string>

#include "engine/base/source.hpp"

namespace rootstead {

// Crown width of stand-grown trees: feet = constant + linear D + square D^2, D in inches; as
// published, so that each row can be laid beside its source.
struct CrownWidth {
  std::string botanical_name;
  double constant_ft = 0, ft_per_in = 0, ft_per_in2 = 0;
  Citation from;
};

// Oven-dry mass per green volume of stem wood.
struct WoodDensity {
  std::string botanical_name;
  double density = 0;        // g/cm3
  std::optional<double> sd;  // g/cm3, between species of a genus or trees of a species
  Citation from;
};

enum class LeafHabit { unknown, deciduous, evergreen };

struct Leaves {
  std::string botanical_name;
  LeafHabit habit = LeafHabit::unknown;
  Citation from;
};

// How a species bears ground without air. Root loss is another matter: Species::tolerance.
enum class WetSoil {
  unknown,
  very_intolerant,
  intolerant,
  intermediate,
  tolerant,
  very_tolerant,
};

struct WetSoilTolerance {
  std::string botanical_name;
  WetSoil tolerance = WetSoil::unknown;
  bool sources_disagree = false;
  Citation from;
};

std::string_view to_text(LeafHabit habit);
std::string_view to_text(WetSoil tolerance);
std::optional<LeafHabit> leaf_habit_from(std::string_view text);
std::optional<WetSoil> wet_soil_from(std::string_view text);

}  // namespace rootstead
