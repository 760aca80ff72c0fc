// Air in the soil, and below fill.
#include "engine/soil/density.hpp"
#include "engine/soil/oxygen.hpp"
#include "engine/soil/soil_by_hand.hpp"

namespace rootstead::soil_by_hand {
namespace {

const FigureInput kAir{"air", "air-filled share of the soil", "20%"};
const FigureInput kPores{"pores", "porosity", "50%"};
const FigureInput kUse{"respiration", "oxygen used by the whole profile", "10 g/m2/day"};
const Citation kSteady{"steady-diffusion", "with Millington and Quirk (1961) at 20 degrees C",
                       Status::memory};

std::optional<Error> air_fault(const std::string& name, const HandValues& given) {
  const double air = given.in("air", ""), pores = given.in("pores", "", 1);
  if (air > 0 && air <= pores && pores <= 1) return std::nullopt;
  return not_in(name, "the air is no part of the pores", "give 0 < air <= pores <= 100 %");
}

Status status_of(DiffusionModel model) {
  const bool read = model == DiffusionModel::millington_1961 || model == DiffusionModel::currie;
  return read ? Status::published : Status::memory;
}

std::string source_of(DiffusionModel model) {
  switch (model) {
    case DiffusionModel::penman:
      return "penman-1940";
    case DiffusionModel::buckingham:
      return "buckingham-1904";
    case DiffusionModel::marshall:
      return "marshall-1959";
    case DiffusionModel::millington_1960:
      return "millington-1960";
    case DiffusionModel::millington_1961:
      return "millington-1961";
    case DiffusionModel::currie:
      return "currie-1960";
  }
  return "rootstead";
}

HandFigure diffusivity() {
  return {{"soil.gas-diffusivity",
           "",
           "diffusion of gas in soil over that in air",
           {kAir,
            kPores,
            {"model", "penman, buckingham, marshall, millington_1960, millington_1961 or currie",
             "millington_1961"}}},
          {"model", "pores"},
          [](const HandValues& given) -> Answer {
            const std::string name = "soil.gas-diffusivity";
            const auto model =
                diffusion_model_from(given.word("model", std::string("millington 1961")));
            if (!model) return not_in(name, "the model is not known", "write e.g. millington_1961");
            const bool needs_pores = *model == DiffusionModel::millington_1960 ||
                                     *model == DiffusionModel::millington_1961;
            if (needs_pores && !given.has("pores"))
              return not_in(name, "the porosity is missing", "write e.g. pores=50%");
            if (auto fault = air_fault(name, given)) return *std::move(fault);
            return std::vector{
                one(relative_diffusivity(*model, given.in("air", ""), given.in("pores", "", 1)), "",
                    std::string(to_text(*model)), {source_of(*model), "", status_of(*model)})};
          }};
}

double diffusivity_in(const HandValues& given) {
  return kOxygenDiffusion * relative_diffusivity(DiffusionModel::millington_1961,
                                                 given.in("air", ""), given.in("pores", ""));
}

HandFigure oxygen() {
  return {
      {"soil.oxygen",
       "%",
       "oxygen of the soil air at a depth; used evenly down to the rooting depth, or fading "
       "with depth where a scale is given",
       {kAir,
        kPores,
        kUse,
        {"rooting", "depth of even use", "0.5m"},
        {"scale", "depth by which use falls to 37 %", "0.15m"},
        {"depth", "depth", "0.2m"}}},
      {"rooting", "scale"},
      [](const HandValues& given) -> Answer {
        const std::string name = "soil.oxygen";
        if (auto fault = air_fault(name, given)) return *std::move(fault);
        if (given.has("rooting") == given.has("scale"))
          return not_in(name, "give either rooting or scale", "write e.g. rooting=0.5m");
        if (auto fault = below_zero(
                name, given, {{"rooting", "m"}, {"scale", "m"}, {"respiration", "g/m2/day"}}))
          return *std::move(fault);
        const double d = diffusivity_in(given), r = given.in("respiration", "g/m2/day");
        const Length z = metres_in(given, "depth");
        if (given.has("scale"))
          return std::vector{
              one(percent_oxygen(oxygen_fading(kOxygenAbove, r, metres_in(given, "scale"), d, z)),
                  "%", "C0 - R Z / D (1 - exp(-z / Z))", kSteady)};
        const Length rooting = metres_in(given, "rooting");
        std::vector figures = {one(percent_oxygen(oxygen_even(kOxygenAbove, r, rooting, d, z)), "%",
                                   "C0 - R / (L D) (L z - z^2 / 2), not below 0", kSteady)};
        if (const auto none = anoxic_depth_even(kOxygenAbove, r, rooting, d))
          figures.push_back(named("soil.oxygen.anoxic-depth",
                                  one(none->metres(), "m", "the root of it", kSteady)));
        return figures;
      }};
}

HandFigure fill_air_left() {
  return {{"soil.oxygen-below-fill",
           "%",
           "oxygen of the soil air at the old surface below fill, and the fill that leaves a "
           "wanted oxygen",
           {kAir,
            kPores,
            kUse,
            {"fill-use", "oxygen used by the fill itself", "5 g/m3/day"},
            {"thickness", "thickness of the fill", "0.3m"},
            {"wanted", "oxygen wanted at the old surface, per cent of the air", "15%"}}},
          {"thickness", "wanted"},
          [](const HandValues& given) -> Answer {
            const std::string name = "soil.oxygen-below-fill";
            if (auto fault = air_fault(name, given)) return *std::move(fault);
            const double d = diffusivity_in(given), r = given.in("respiration", "g/m2/day");
            const double q = given.in("fill-use", "g/m3/day");
            if (r < 0 || q < 0 || r + q <= 0)
              return not_in(name, "nothing uses oxygen", "give a respiration above zero");
            std::vector<Figure> figures;
            if (given.has("thickness"))
              figures.push_back(
                  named(name, one(percent_oxygen(oxygen_below_fill(kOxygenAbove, r, q, d,
                                                                   metres_in(given, "thickness"))),
                                  "%", "C0 - (R F + qf F^2 / 2) / D, not below 0", kSteady)));
            const double wanted = given.in("wanted", "%", 15) * kOxygenPerPercent;
            figures.push_back(named(name + ".thickest",
                                    one(thickest_fill(kOxygenAbove, wanted, r, q, d).metres(), "m",
                                        "F of the same equation at the wanted oxygen", kSteady)));
            return figures;
          }};
}

HandFigure oxygen_rate(const Tables& tables) {
  return {{"soil.oxygen-rate",
           "g/m2/s",
           "oxygen diffusion rate of a probe, and what roots do with it",
           {{"rate", "rate in ug cm-2 min-1", "0.2"}}},
          {},
          [&tables](const HandValues& given) -> Answer {
            const double rate = given.in("rate", "");
            const Parameter& stops = tables.parameter("air.rate_stops");
            const double good = tables.parameter("air.rate_good").best;
            Figure figure = one(rate * 1e-6 * 1e4 / 60, "g/m2/s",
                                "1 ug cm-2 min-1 = 1/6000 g m-2 s-1; roots stop at 0.2, air is "
                                "good above 0.4",
                                stops.from);
            figure.word = rate <= stops.best ? "roots stop" : rate <= good ? "poor" : "good";
            return std::vector{std::move(figure)};
          }};
}

}  // namespace

std::vector<HandFigure> air_figures(const Tables& tables) {
  return {diffusivity(), oxygen(), fill_air_left(), oxygen_rate(tables)};
}

}  // namespace rootstead::soil_by_hand
