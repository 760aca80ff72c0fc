// Soil strength: the stress (precompression stress) up to which soil is not pressed further, and
// what a load does against it.
#pragma once

#include <string>
#include <string_view>

#include "engine/base/figure.hpp"
#include "engine/base/quantity.hpp"
#include "engine/base/range.hpp"
#include "engine/site/site.hpp"
#include "engine/soil/stress.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

inline Range range_of(const Parameter& parameter) {
  return {parameter.low, parameter.best, parameter.high};
}

// Schjonning and Lamande (2018): (-26.51 + 25.57 rho - 20.40 C + 10.26 C pF)^2 kPa, 0 where the
// bracket is below 0. Density in g/cm3, clay 0 to 1, pF = log10 of the suction in hPa.
Pressure schjonning_strength(double bulk_density, double clay, double pf);

// Severiano and others (2013), tropical soils: by clay, suction in kPa.
Pressure severiano_strength(double clay, double suction_kpa);

// The strength at `depth` in one state of moisture, kPa low to high: by Schjonning where the layer
// there has density and clay, else the recalled values of its texture (the 50-50 rule for wet
// ground of unknown texture).
Figure strength_of(const Soil& soil, Length depth, Moisture moisture, const Tables& tables);

// Stress over strength: up to 0.5 no new damage is expected, to 1.1 there is a risk, above it the
// soil is pressed (Stettler and others 2014).
enum class PressRisk { none_expected, risk, damage };
std::string_view to_text(PressRisk risk);  // "no new compaction expected", "risk of ..." ...
PressRisk press_risk(double stress_over_strength, const Tables& tables);

// How much of the final compaction a load brings: 0 up to the lower bound, 1 from the upper,
// straight between. Our assumption.
double pressed_share(double stress_over_strength, const Tables& tables);

// The share of the final rise in density that is there after `passes`: 1 - exp(-0.7 n), our fit.
double share_after_passes(double passes, const Tables& tables);

}  // namespace rootstead
