// What a crown takes from the soil in a day: reference evapotranspiration, times a landscape
// coefficient, times the ground the crown covers.
#pragma once

#include <optional>

#include "engine/base/figure.hpp"
#include "engine/site/site.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

inline constexpr double kLitresPerGallon = 3.785411784;  // US gallon, exactly

// K_L = k_s k_d k_mc: species, density, and how windy and hot the place is.
struct LandscapeCoefficient {
  Range species, density, microclimate, product;
  Citation from;
};
enum class SpeciesWater { unknown, low, moderate, high };
LandscapeCoefficient landscape_coefficient(SpeciesWater species, const Tables& tables);

// Millimetres a day of one month, 1 to 12, of the site's climate; without a month, of the
// thirstiest one. Where the site names no climate: a wide assumption for dry weather in the growing
// season.
struct ReferenceDemand {
  Range mm_per_day;
  bool assumed = false;
  std::string what;  // "July, as stated: ..."
  Citation from;
};
ReferenceDemand reference_demand(const Climate& climate, std::optional<int> month,
                                 const Tables& tables);

// Litres a day: 1 mm on 1 m2 is 1 litre.
Range crown_demand_litres(const ReferenceDemand& reference, const LandscapeCoefficient& landscape,
                          Area crown);

// Lindsey and Bassuk 1991: crown projection x leaf area index x pan evaporation x 0.20.
double lindsey_bassuk_litres(Area crown, double leaf_area_index, double pan_mm);

}  // namespace rootstead
