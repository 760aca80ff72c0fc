#include "engine/soil/strength.hpp"

#include <algorithm>
#include <cmath>

#include "engine/base/text.hpp"
#include "engine/base/words.hpp"

namespace rootstead {
namespace {

constexpr Words<PressRisk, 3> kRisks{{
    {PressRisk::none_expected, "no new compaction expected"},
    {PressRisk::risk, "risk of compaction"},
    {PressRisk::damage, "compaction expected"},
}};

std::string spread_text(const Range& range) {
  return fixed_number(range.low, 1) + " to " + fixed_number(range.high, 1);
}

const SoilLayer* layer_at(const Soil& soil, Length depth) {
  for (const SoilLayer& layer : soil.layers)
    if (layer.bottom.length() >= depth) return &layer;
  return nullptr;
}

const Parameter& suction_of(Moisture moisture, const Tables& tables) {
  return tables.parameter("ground.pf_" + std::string(to_text(moisture)));
}

// Strength rises with suction only where clay is; both ends are taken.
Figure by_density(double density, double clay, Moisture moisture, const Tables& tables) {
  const Parameter& suction = suction_of(moisture, tables);
  const auto strength = [&](double pf) {
    return schjonning_strength(density, clay, pf).kilopascals();
  };
  Figure figure;
  figure.range = Range{strength(suction.low), strength(suction.best), strength(suction.high)};
  figure.inputs = {{"rho", "bulk density", fixed_number(density, 2) + " g/cm3"},
                   {"C", "share of clay", percent(clay)},
                   input_from(suction, "pF")};
  figure.formula = "(-26.51 + 25.57 rho - 20.40 C + 10.26 C pF)^2";
  figure.from = {"schjonning-2018", "soil strength by density, clay and suction; suction ours",
                 weaker(Status::published, suction.from.status)};
  return figure;
}

const Parameter& strength_row(SoilTexture texture, Moisture moisture, const Tables& tables) {
  const bool fine = texture == SoilTexture::clay || texture == SoilTexture::silt;
  switch (moisture) {
    case Moisture::wet:
      return tables.parameter(fine ? "ground.strength_wet_clay" : "ground.strength_wet");
    case Moisture::moist:
      return tables.parameter(fine ? "ground.strength_moist_clay" : "ground.strength_moist");
    case Moisture::dry:
      break;
  }
  return tables.parameter("ground.strength_dry");
}

Figure by_texture(SoilTexture texture, Moisture moisture, const Tables& tables) {
  const Parameter& row = strength_row(texture, moisture, tables);
  Figure figure;
  figure.range = range_of(row);
  figure.inputs = {{"texture", "texture of the soil", std::string(to_text(texture))},
                   {"moisture", "state of the ground", std::string(to_text(moisture))}};
  figure.formula = row.meaning + ": " + spread_text(*figure.range) + " kPa";
  figure.from = row.from;
  return figure;
}

}  // namespace

Pressure schjonning_strength(double bulk_density, double clay, double pf) {
  const double bracket = -26.51 + 25.57 * bulk_density - 20.40 * clay + 10.26 * clay * pf;
  return Pressure::kilopascals(bracket < 0 ? 0 : bracket * bracket);
}

Pressure severiano_strength(double clay, double suction_kpa) {
  struct Fit {
    double below, factor, power;
  };
  constexpr Fit kFits[] = {
      {0.20, 129, 0.15}, {0.31, 123.3, 0.13}, {0.37, 85, 0.17}, {0.52, 70.1, 0.16}};
  for (const Fit& fit : kFits)
    if (clay < fit.below)
      return Pressure::kilopascals(fit.factor * std::pow(suction_kpa, fit.power));
  return Pressure::kilopascals(62.7 * std::pow(suction_kpa, 0.15));
}

Figure strength_of(const Soil& soil, Length depth, Moisture moisture, const Tables& tables) {
  const SoilLayer* layer = layer_at(soil, depth);
  const bool measured = layer != nullptr && layer->bulk_density && layer->clay;
  const SoilTexture texture =
      layer != nullptr && layer->texture != SoilTexture::unknown ? layer->texture : soil.texture;
  Figure figure = measured ? by_density(*layer->bulk_density, *layer->clay, moisture, tables)
                           : by_texture(texture, moisture, tables);
  figure.name = "soil.strength";
  figure.unit = "kPa";
  figure.value = figure.range->best;
  return figure;
}

std::string_view to_text(PressRisk risk) {
  return word_for(kRisks, risk);
}

PressRisk press_risk(double stress_over_strength, const Tables& tables) {
  if (stress_over_strength <= tables.parameter("ground.risk_from").best)
    return PressRisk::none_expected;
  return stress_over_strength <= tables.parameter("ground.damage_from").best ? PressRisk::risk
                                                                             : PressRisk::damage;
}

double pressed_share(double stress_over_strength, const Tables& tables) {
  const double none = tables.parameter("ground.risk_from").best;
  const double all = std::max(tables.parameter("ground.damage_from").best, none + 1e-9);
  return std::clamp((stress_over_strength - none) / (all - none), 0.0, 1.0);
}

double share_after_passes(double passes, const Tables& tables) {
  return 1 - std::exp(-tables.parameter("ground.pass_rate").best * std::max(passes, 0.0));
}

}  // namespace rootstead
