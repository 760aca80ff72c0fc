#include "engine/soil/oxygen.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

#include "engine/base/words.hpp"

namespace rootstead {
namespace {

constexpr Words<DiffusionModel, 6> kModels{{
    {DiffusionModel::penman, "penman"},
    {DiffusionModel::buckingham, "buckingham"},
    {DiffusionModel::marshall, "marshall"},
    {DiffusionModel::millington_1960, "millington 1960"},
    {DiffusionModel::millington_1961, "millington 1961"},
    {DiffusionModel::currie, "currie"},
}};

constexpr double kDay = 86400;

// The depth at which c - flow z / D + use z^2 / (2 D) = 0; requires flow >= use x thickness.
std::optional<double> zero_depth(double surface, double flow, double use, double diffusivity,
                                 double thickness) {
  const auto at = [&](double z) { return surface * diffusivity - flow * z + use * z * z / 2; };
  if (at(thickness) >= 0) return std::nullopt;
  if (use <= 0) return surface * diffusivity / flow;
  // The smaller root, in the form that does not cancel.
  const double root = std::sqrt(flow * flow - 2 * use * surface * diffusivity);
  return 2 * surface * diffusivity / (flow + root);
}

}  // namespace

std::string_view to_text(DiffusionModel model) {
  return word_for(kModels, model);
}
std::optional<DiffusionModel> diffusion_model_from(std::string_view text) {
  return value_for(kModels, text);
}

double oxygen_diffusion_in_air(double celsius) {
  return 1.77e-5 * std::pow((celsius + 273.15) / 273.15, 1.75);
}

double relative_diffusivity(DiffusionModel model, double air, double pores) {
  assert(0 <= air && air <= pores && pores > 0 && pores <= 1);
  switch (model) {
    case DiffusionModel::penman:
      return 0.66 * air;
    case DiffusionModel::buckingham:
      return air * air;
    case DiffusionModel::marshall:
      return std::pow(air, 1.5);
    case DiffusionModel::millington_1960:
      return air * air / std::pow(pores, 2.0 / 3);
    case DiffusionModel::millington_1961:
      return std::pow(air, 10.0 / 3) / (pores * pores);
    case DiffusionModel::currie:
      return std::min(1.9 * std::pow(air, 1.4), 1.0);
  }
  return 0;
}

double moldrup_diffusivity(double air, double air_at_100_hpa, double campbell_b) {
  const double a = air_at_100_hpa;
  return (2 * a * a * a + 0.04 * a) * std::pow(air / a, 2 + 3 / campbell_b);
}

double oxygen_even(double surface, double respiration, Length rooting, double diffusivity,
                   Length depth) {
  const double z = std::min(depth, rooting).metres(), l = rooting.metres();
  const double use = respiration / kDay / l;
  if (const auto none = zero_depth(surface, use * l, use, diffusivity, l); none && z >= *none)
    return 0;
  return std::max(surface - use / diffusivity * (l * z - z * z / 2), 0.0);
}

double oxygen_fading(double surface, double respiration, Length scale, double diffusivity,
                     Length depth) {
  const double flow = respiration / kDay;
  return std::max(surface - flow * scale.metres() / diffusivity * (1 - std::exp(-(depth / scale))),
                  0.0);
}

std::optional<Length> anoxic_depth_even(double surface, double respiration, Length rooting,
                                        double diffusivity) {
  const double flow = respiration / kDay;
  const auto depth =
      zero_depth(surface, flow, flow / rooting.metres(), diffusivity, rooting.metres());
  if (!depth) return std::nullopt;
  return Length::metres(*depth);
}

double oxygen_below_fill(double surface, double respiration, double fill_use, double diffusivity,
                         Length thickness) {
  const double f = thickness.metres();
  const double used = (respiration * f + fill_use * f * f / 2) / kDay;
  return std::max(surface - used / diffusivity, 0.0);
}

Length thickest_fill(double surface, double wanted, double respiration, double fill_use,
                     double diffusivity) {
  const double spare = std::max(surface - wanted, 0.0) * diffusivity * kDay;
  const double root = std::sqrt(respiration * respiration + 2 * fill_use * spare);
  if (root + respiration <= 0) return Length::metres(std::numeric_limits<double>::infinity());
  return Length::metres(2 * spare / (respiration + root));
}

AirProfile march(double surface, const std::vector<AirLayer>& layers) {
  double flow = 0;
  for (const AirLayer& layer : layers) flow += layer.use / kDay * layer.thickness.metres();
  AirProfile profile;
  double oxygen = surface, top = 0;
  for (const AirLayer& layer : layers) {
    const double h = layer.thickness.metres(), use = layer.use / kDay;
    if (!profile.anoxic_depth) {
      if (const auto none = zero_depth(oxygen, flow, use, layer.diffusivity, h))
        profile.anoxic_depth = Length::metres(top + *none);
    }
    oxygen -= (flow * h - use * h * h / 2) / layer.diffusivity;
    profile.oxygen.push_back(profile.anoxic_depth ? 0.0 : std::max(oxygen, 0.0));
    flow = std::max(flow - use * h, 0.0);
    top += h;
  }
  return profile;
}

double percent_oxygen(double grams_per_cubic_metre) {
  return grams_per_cubic_metre / kOxygenPerPercent;
}

}  // namespace rootstead
