#include "engine/roots/soil_depth.hpp"

#include <algorithm>
#include <string>

namespace rootstead {
namespace {

// From 1 at `good` to 0 at `none`.
double falling(double value, double good, double none) {
  return std::clamp((none - value) / (none - good), 0.0, 1.0);
}

std::string texture_id(SoilTexture texture) {
  switch (texture) {
    case SoilTexture::sand:
      return "sand";
    case SoilTexture::clay:
      return "clay";
    case SoilTexture::silt:
    case SoilTexture::loam:
    case SoilTexture::unknown:
      break;
  }
  return "silt";
}

}  // namespace

double rooting_weight(const SoilLayer& layer, SoilTexture of_profile, const Tables& tables) {
  const auto best = [&](const std::string& id) { return tables.parameter(id).best; };
  double weight = 1;
  if (layer.bulk_density) {
    const bool known = layer.texture != SoilTexture::unknown;
    const std::string texture = texture_id(known ? layer.texture : of_profile);
    weight *= falling(*layer.bulk_density, best("soil.bulk_ideal." + texture),
                      best("soil.bulk_restricting." + texture));
  }
  if (layer.air_filled) weight *= std::clamp(*layer.air_filled / best("soil.air_enough"), 0.0, 1.0);
  if (layer.resistance)
    weight *=
        falling(*layer.resistance, best("soil.resistance_easy"), best("soil.resistance_stop"));
  return weight;
}

std::vector<DepthStep> depth_steps(const Soil& soil, const Tables& tables) {
  const double least = tables.parameter("soil.least_rooting").best;
  std::vector<DepthStep> steps;
  for (const SoilLayer& layer : soil.layers)
    steps.push_back({layer.bottom.length().metres(),
                     std::max(least, rooting_weight(layer, soil.texture, tables))});
  return steps;
}

}  // namespace rootstead
