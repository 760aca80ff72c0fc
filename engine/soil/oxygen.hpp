// Air in the soil: how fast oxygen moves, and how much is left at depth. Steady, one-dimensional;
// oxygen in g/m3 of soil air, diffusivity in m2/s, respiration in g m-2 day-1 (of a profile) or
// g m-3 day-1 (of a volume). At 20 degrees C one per cent of the air is 13.302 g/m3.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "engine/base/quantity.hpp"
#include "engine/base/result.hpp"

namespace rootstead {

// Ideal gas at 293.15 K and 101325 Pa, 31.998 g/mol: 13.302 g/m3.
inline constexpr double kOxygenPerPercent = 0.01 * 101325 * 31.998 / (8.314462618 * 293.15);
inline constexpr double kOxygenInAir = 20.95;                             // per cent
inline constexpr double kOxygenAbove = kOxygenInAir * kOxygenPerPercent;  // g/m3, open air
inline constexpr double kOxygenDiffusion = 2.00e-5;  // m2/s in air at 20 degrees C
// 1.77e-5 (T / 273.15)^1.75, from memory.
double oxygen_diffusion_in_air(double celsius);

// Ds/D0 by air-filled share and porosity.
enum class DiffusionModel {
  penman,           // 0.66 e
  buckingham,       // e^2
  marshall,         // e^1.5
  millington_1960,  // e^2 / P^(2/3)
  millington_1961,  // e^(10/3) / P^2: for disturbed and pressed soil, the default
  currie,           // 1.9 e^1.4
};
std::string_view to_text(DiffusionModel model);
std::optional<DiffusionModel> diffusion_model_from(std::string_view text);
// Requires: 0 <= air <= pores <= 1, pores > 0. At most 1.
double relative_diffusivity(DiffusionModel model, double air, double pores);
// Moldrup (2000): (2 a^3 + 0.04 a)(e / a)^(2 + 3/b), a the air at 100 hPa, b of Campbell's curve.
double moldrup_diffusivity(double air, double air_at_100_hpa, double campbell_b);

// Oxygen at a depth, g/m3; not below 0.
// (a) Respiration R even to depth L, none below: C0 - (q/D)(L z - z^2/2), q = R/L.
double oxygen_even(double surface, double respiration, Length rooting, double diffusivity,
                   Length depth);
// (b) Respiration R falling off as exp(-z/Z): C0 - (q0 Z^2 / D)(1 - exp(-z/Z)), R = q0 Z.
double oxygen_fading(double surface, double respiration, Length scale, double diffusivity,
                     Length depth);
// Depth from which (a) has no oxygen; nothing where it never runs out.
std::optional<Length> anoxic_depth_even(double surface, double respiration, Length rooting,
                                        double diffusivity);
// (c) Below fill of thickness F that uses qf itself, over ground that uses R: at the old surface.
double oxygen_below_fill(double surface, double respiration, double fill_use, double diffusivity,
                         Length thickness);
// The thickest fill that leaves `wanted` at the old surface.
Length thickest_fill(double surface, double wanted, double respiration, double fill_use,
                     double diffusivity);

// Layers, marched downward: what passes into a layer less what it uses passes into the next.
struct AirLayer {
  Length thickness;
  double diffusivity = 0;  // m2/s
  double use = 0;          // g m-3 day-1
};
struct AirProfile {
  std::vector<double> oxygen;          // g/m3 at the bottom of each layer, not below 0
  std::optional<Length> anoxic_depth;  // where it runs out first
};
// The flow at the top is what all layers use together.
AirProfile march(double surface, const std::vector<AirLayer>& layers);

double percent_oxygen(double grams_per_cubic_metre);  // of the soil air

}  // namespace rootstead
