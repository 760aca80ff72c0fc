#include "engine/soil/soil_figures.hpp"

#include <cmath>

#include "engine/base/text.hpp"
#include "engine/soil/density.hpp"
#include "engine/soil/oxygen.hpp"
#include "engine/soil/strength.hpp"
#include "engine/soil/stress.hpp"
#include "engine/soil/texture.hpp"
#include "engine/soil/traffic.hpp"

namespace rootstead {
namespace {

using Answer = Result<std::vector<Figure>>;
using Inputs = std::vector<FigureInput>;

Figure one(double value, std::string unit, std::string formula, Citation from) {
  Figure figure;
  figure.value = value;
  figure.unit = std::move(unit);
  figure.formula = std::move(formula);
  figure.from = std::move(from);
  return figure;
}

Figure named(std::string name, Figure figure) {
  figure.name = std::move(name);
  return figure;
}

Error not_in(const std::string& name, const std::string& what, const std::string& remedy) {
  return Error{Code::value_invalid, name, what, remedy};
}

// The first of these that is not above zero is refused.
std::optional<Error> below_zero(const std::string& name, const HandValues& given,
                                const std::vector<std::pair<std::string, std::string>>& keys) {
  for (const auto& [key, unit] : keys)
    if (given.has(key) && !(given.in(key, unit) > 0))
      return not_in(name, key + " is not above zero", "give a number above zero");
  return std::nullopt;
}

// ---- texture and density ------------------------------------------------------------------------

HandFigure texture() {
  return {{"soil.texture",
           "",
           "USDA texture class",
           {{"sand", "share of sand by mass", "40%"},
            {"silt", "share of silt", "40%"},
            {"clay", "share of clay", "20%"},
            {"limit", "where sand begins: usda (50 um) or uk (63 um)", "usda"}}},
          {"limit"},
          [](const HandValues& given) -> Answer {
            const auto limit = sand_limit_from(given.word("limit", "usda"));
            if (!limit) return not_in("soil.texture", "the limit is not known", "write usda or uk");
            ROOTSTEAD_TRY(Figure figure, texture_figure({given.in("sand", ""), given.in("silt", ""),
                                                         given.in("clay", "")},
                                                        *limit));
            figure.inputs.clear();
            return std::vector{std::move(figure)};
          }};
}

HandFigure pores() {
  return {
      {"soil.porosity",
       "",
       "share of pores, and of air where the water is given",
       {{"density", "bulk density, dry", "1.4 g/cm3"},
        {"water", "water as a share of the volume", "25%"}}},
      {"water"},
      [](const HandValues& given) -> Answer {
        const double density = given.in("density", "g/cm3");
        if (!(density > 0 && density < kParticleDensity))
          return not_in("soil.porosity", "no soil has this density", "write e.g. 1.4 g/cm3");
        std::vector figures = {named(
            "soil.porosity",
            one(porosity(density), "", "1 - rho / 2.65", {"soil-physics", "", Status::published}))};
        if (given.has("water"))
          figures.push_back(named("soil.air-filled", one(air_filled(density, given.in("water", "")),
                                                         "", "1 - rho / 2.65 - water",
                                                         {"soil-physics", "", Status::published})));
        return figures;
      }};
}

HandFigure densest() {
  return {
      {"soil.densest-with-air",
       "g/cm3",
       "density at which a tenth of the volume is still air",
       {{"water", "mass of water per mass of dry soil", "20%"},
        {"air", "share of air to be kept", "10%"}}},
      {"air"},
      [](const HandValues& given) -> Answer {
        const double water = given.in("water", ""), air = given.in("air", "", 0.10);
        if (water < 0 || air < 0 || air >= 1)
          return not_in("soil.densest-with-air", "a share is out of bounds",
                        "give water from 0 and air from 0 to below 100 %");
        return std::vector{one(densest_with_air(water, air), "g/cm3", "(1 - air) / (1 / 2.65 + w)",
                               {"soil-physics", "", Status::published})};
      }};
}

Figure reading_figure(const DensityReading& reading) {
  const auto& row = reading.row;
  const double value = row.restricts ? *row.restricts : row.affects.value_or(0);
  Figure figure = one(value, "g/cm3", reading.sentence, row.from);
  figure.word = to_text(reading.verdict);
  return named("soil.density-limit." + row.table, std::move(figure));
}

HandFigure limits(const Tables& tables) {
  return {{"soil.density-limit",
           "g/cm3",
           "density that hinders and stops roots, by one table or by our default; all tables "
           "side by side",
           {{"texture", "USDA class, blanks as _", "clay_loam"},
            {"density", "bulk density, dry", "1.5 g/cm3"},
            {"table", "nrcs-short, nrcs, harris, illinois or coder", "harris"}}},
          {"density", "table"},
          [&tables](const HandValues& given) -> Answer {
            const auto texture = texture_class_from(given.word("texture"));
            if (!texture)
              return not_in("soil.density-limit", "the texture is no USDA class",
                            "write e.g. clay_loam");
            ROOTSTEAD_TRY(const DensityLimits used,
                          density_limits(*texture, tables, given.word("table", "")));
            const double density = given.in("density", "g/cm3", 0);
            Figure watch = one(used.watch, "g/cm3", used.used, used.from);
            Figure stop = one(used.stop, "g/cm3", used.used, used.from);
            if (given.has("density")) stop.word = to_text(density_verdict(density, used));
            std::vector figures = {named("soil.density-limit.watch", std::move(watch)),
                                   named("soil.density-limit.stop", std::move(stop))};
            for (const DensityReading& reading : density_readings(density, *texture, tables))
              figures.push_back(reading_figure(reading));
            return figures;
          }};
}

HandFigure water_range() {
  return {{"soil.least-limiting-water-range",
           "",
           "width of the water contents between too wet, too dry and too hard, with the published "
           "example set of parameters: arithmetic, not the physics of your site",
           {{"density", "bulk density, dry", "1.4 g/cm3"}}},
          {},
          [](const HandValues& given) -> Answer {
            if (auto fault =
                    below_zero("soil.least-limiting-water-range", given, {{"density", "g/cm3"}}))
              return *std::move(fault);
            const WaterRange range = least_limiting_water_range(given.in("density", "g/cm3"), {});
            return std::vector{one(range.width, "",
                                   "min(air " + fixed_number(range.air, 3) + ", capacity " +
                                       fixed_number(range.capacity, 3) + ") - max(wilting " +
                                       fixed_number(range.wilting, 3) + ", resistance " +
                                       fixed_number(range.resistance, 3) + "), not below 0",
                                   {"leao-2005", "example set of parameters", Status::published})};
          }};
}

// ---- stress -------------------------------------------------------------------------------------

const FigureInput kLoad{"load", "load", "10kN"}, kDepth{"depth", "depth below it", "0.5m"};
const FigureInput kFactor{"concentration", "concentration factor: 3 elastic, 4 dry, 5 moist, 6 wet",
                          "4"};

Result<int> factor_of(const std::string& name, const HandValues& given, int otherwise) {
  const double factor = given.in("concentration", "", otherwise);
  if (factor < 1 || factor > 12 || factor != std::floor(factor))
    return not_in(name, "the concentration factor is no whole number from 1 to 12",
                  "write 3, 4, 5 or 6");
  return static_cast<int>(factor);
}

Length metres_in(const HandValues& given, const std::string& key) {
  return Length::metres(given.in(key, "m", 0));
}

HandFigure point(const std::string& name, int otherwise, const Citation& from) {
  const bool elastic = otherwise == kElastic;
  Inputs inputs = {kLoad, kDepth, {"offset", "distance sideways", "0.25m"}};
  if (!elastic) inputs.push_back(kFactor);
  return {{name, "kPa",
           elastic ? "stress below a point load on elastic ground"
                   : "stress below a point load on soil",
           inputs},
          {"offset"},
          [=](const HandValues& given) -> Answer {
            if (auto fault = below_zero(name, given, {{"load", "kN"}, {"depth", "m"}}))
              return *std::move(fault);
            int nu = otherwise;
            if (!elastic) {
              ROOTSTEAD_TRY(nu, factor_of(name, given, otherwise));
            }
            const Pressure stress = point_stress(given.in("load", "kN"), metres_in(given, "offset"),
                                                 metres_in(given, "depth"), nu);
            return std::vector{one(stress.kilopascals(), "kPa",
                                   elastic ? "3 P z^3 / (2 pi R^5)" : "nu P cos^nu / (2 pi R^2)",
                                   from)};
          }};
}

HandFigure circle() {
  return {{"soil.circle-stress",
           "kPa",
           "stress on the axis below a uniform circle",
           {{"pressure", "pressure on the circle", "100kPa"},
            {"radius", "radius", "0.25m"},
            kDepth,
            kFactor}},
          {"concentration"},
          [](const HandValues& given) -> Answer {
            const std::string name = "soil.circle-stress";
            if (auto fault =
                    below_zero(name, given, {{"pressure", "kPa"}, {"radius", "m"}, {"depth", "m"}}))
              return *std::move(fault);
            ROOTSTEAD_TRY(const int nu, factor_of(name, given, kElastic));
            const Pressure stress =
                circle_stress(Pressure::kilopascals(given.in("pressure", "kPa")),
                              metres_in(given, "radius"), metres_in(given, "depth"), nu);
            return std::vector{one(stress.kilopascals(), "kPa", "p (1 - (z / sqrt(z^2 + a^2))^nu)",
                                   {"froehlich-1934", "circle on the axis", Status::published})};
          }};
}

HandFigure newmark() {
  return {{"soil.newmark",
           "",
           "share of the surface pressure below a corner of a uniform rectangle",
           {{"width", "side of the rectangle", "1m"},
            {"length", "other side", "2m"},
            {"depth", "depth below the corner", "1m"}}},
          {},
          [](const HandValues& given) -> Answer {
            if (auto fault = below_zero("soil.newmark", given,
                                        {{"width", "m"}, {"length", "m"}, {"depth", "m"}}))
              return *std::move(fault);
            const double share = corner_influence(
                metres_in(given, "width"), metres_in(given, "length"), metres_in(given, "depth"));
            return std::vector{one(share, "", "Newmark, m = B / z, n = L / z",
                                   {"newmark-1935", "corner of a rectangle", Status::memory})};
          }};
}

HandFigure two_to_one() {
  return {{"soil.two-to-one",
           "kPa",
           "stress below a rectangle, spread at one sideways for two down",
           {{"load", "load", "20kN"},
            {"width", "side", "0.25m"},
            {"length", "other side", "0.4m"},
            kDepth}},
          {},
          [](const HandValues& given) -> Answer {
            if (auto fault =
                    below_zero("soil.two-to-one", given,
                               {{"load", "kN"}, {"width", "m"}, {"length", "m"}, {"depth", "m"}}))
              return *std::move(fault);
            const Pressure stress =
                two_to_one_stress(given.in("load", "kN"), metres_in(given, "width"),
                                  metres_in(given, "length"), metres_in(given, "depth"));
            return std::vector{one(stress.kilopascals(), "kPa",
                                   "Q / ((B + z)(L + z)); low on the axis for z < B",
                                   {"two-to-one", "", Status::memory})};
          }};
}

HandFigure layer() {
  return {{"soil.two-to-one-layer",
           "m",
           "layer that spreads a square load down to a pressure",
           {{"load", "load", "10kN"},
            {"width", "side of the square", "0.25m"},
            {"allowed", "pressure below the layer", "50kPa"}}},
          {},
          [](const HandValues& given) -> Answer {
            if (auto fault = below_zero("soil.two-to-one-layer", given,
                                        {{"load", "kN"}, {"width", "m"}, {"allowed", "kPa"}}))
              return *std::move(fault);
            const Length needed =
                two_to_one_layer(given.in("load", "kN"), metres_in(given, "width"),
                                 Pressure::kilopascals(given.in("allowed", "kPa")));
            return std::vector{one(needed.metres(), "m", "sqrt(Q / p) - B, not below 0",
                                   {"two-to-one", "", Status::memory})};
          }};
}

HandFigure rectangle() {
  return {{"soil.rectangle-stress",
           "kPa",
           "stress below the centre of a uniform rectangle: a wheel, a track or a stiff mat",
           {{"load", "load", "20kN"},
            {"width", "side", "1.2m"},
            {"length", "other side", "2.4m"},
            kDepth,
            kFactor}},
          {"concentration"},
          [](const HandValues& given) -> Answer {
            const std::string name = "soil.rectangle-stress";
            if (auto fault = below_zero(
                    name, given, {{"load", "kN"}, {"width", "m"}, {"length", "m"}, {"depth", "m"}}))
              return *std::move(fault);
            ROOTSTEAD_TRY(const int nu, factor_of(name, given, kElastic));
            const Contact contact{given.in("load", "kN"), metres_in(given, "width"),
                                  metres_in(given, "length")};
            const Pressure stress = rectangle_stress(contact.pressure(), contact.width,
                                                     contact.length, metres_in(given, "depth"), nu);
            return std::vector{
                one(stress.kilopascals(), "kPa", "4 Q / (B L) I(B/2z, L/2z)",
                    {"newmark-1935", "four corners; Froehlich's factor above 3", Status::memory})};
          }};
}

HandFigure tyre() {
  return {{"soil.tyre-contact",
           "kPa",
           "greatest stress under a tyre and the length of its footprint",
           {{"pressure", "tyre pressure", "160kPa"},
            {"recommended", "pressure recommended for this load", "160kPa"},
            {"load", "wheel load", "30kN"},
            {"width", "tyre width", "0.6m"},
            {"diameter", "tyre diameter", "1.6m"}}},
          {},
          [](const HandValues& given) -> Answer {
            if (auto fault = below_zero("soil.tyre-contact", given,
                                        {{"pressure", "kPa"},
                                         {"recommended", "kPa"},
                                         {"load", "kN"},
                                         {"width", "m"},
                                         {"diameter", "m"}}))
              return *std::move(fault);
            const TyreContact contact = tyre_contact(
                given.in("pressure", "kPa"), given.in("recommended", "kPa"), given.in("load", "kN"),
                metres_in(given, "width"), metres_in(given, "diameter"));
            const Citation from{"keller-2005", "", Status::published};
            return std::vector{named("soil.tyre-contact.greatest",
                                     one(contact.greatest.kilopascals(), "kPa",
                                         "34.4 + 1.13 p + 0.72 F - 33.4 ln(p / p_rec)", from)),
                               named("soil.tyre-contact.length",
                                     one(contact.length.metres(), "m",
                                         "0.47 + 0.11 d^2 - 0.16 ln(p / p_rec)", from)),
                               named("soil.tyre-contact.exponent",
                                     one(contact.exponent, "", "2.1 (w d)^2 + 2", from))};
          }};
}

HandFigure ground_pressure() {
  return {{"soil.ground-pressure",
           "kPa",
           "mean pressure of a machine on its tracks or wheels",
           {{"mass", "gross mass", "8t"},
            {"width", "of one contact", "0.45m"},
            {"length", "of one contact", "2.2m"},
            {"contacts", "tracks or wheels", "2"}}},
          {},
          [](const HandValues& given) -> Answer {
            if (auto fault =
                    below_zero("soil.ground-pressure", given,
                               {{"mass", "kg"}, {"width", "m"}, {"length", "m"}, {"contacts", ""}}))
              return *std::move(fault);
            constexpr double kGravity = 9.80665;
            const double area =
                given.in("contacts", "") * given.in("width", "m") * given.in("length", "m");
            return std::vector{one(given.in("mass", "kg") * kGravity / area / 1000, "kPa",
                                   "m g / (n w l)",
                                   {"mat-hire-pressures", "weight over area", Status::published})};
          }};
}

// ---- strength -----------------------------------------------------------------------------------

HandFigure schjonning() {
  return {{"soil.strength-schjonning",
           "kPa",
           "strength by density, clay and suction",
           {{"density", "bulk density, dry", "1.46 g/cm3"},
            {"clay", "share of clay", "30%"},
            {"suction", "suction of the soil water", "100hPa"}}},
          {},
          [](const HandValues& given) -> Answer {
            if (auto fault = below_zero("soil.strength-schjonning", given,
                                        {{"density", "g/cm3"}, {"suction", "hPa"}}))
              return *std::move(fault);
            const Pressure strength =
                schjonning_strength(given.in("density", "g/cm3"), given.in("clay", ""),
                                    std::log10(given.in("suction", "hPa")));
            return std::vector{one(strength.kilopascals(), "kPa",
                                   "(-26.51 + 25.57 rho - 20.40 C + 10.26 C pF)^2",
                                   {"schjonning-2018", "", Status::published})};
          }};
}

HandFigure severiano() {
  return {{"soil.strength-severiano",
           "kPa",
           "strength of tropical soils by clay and suction",
           {{"clay", "share of clay", "25%"}, {"suction", "suction of the soil water", "33kPa"}}},
          {},
          [](const HandValues& given) -> Answer {
            if (auto fault = below_zero("soil.strength-severiano", given, {{"suction", "kPa"}}))
              return *std::move(fault);
            const Pressure strength =
                severiano_strength(given.in("clay", ""), given.in("suction", "kPa"));
            return std::vector{one(strength.kilopascals(), "kPa", "a h^b, a and b by clay",
                                   {"severiano-2013", "Oxisols", Status::published})};
          }};
}

HandFigure passes(const Tables& tables) {
  return {{"soil.passes",
           "",
           "share of the final rise of density after so many passes",
           {{"passes", "trips of the machine", "3"}}},
          {},
          [&tables](const HandValues& given) -> Answer {
            return std::vector{one(share_after_passes(given.in("passes", ""), tables), "",
                                   "1 - exp(-0.7 n), our fit",
                                   tables.parameter("ground.pass_rate").from)};
          }};
}

// ---- air ----------------------------------------------------------------------------------------

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

std::vector<HandFigure> soil_figures(const Tables& tables) {
  return {texture(),
          pores(),
          densest(),
          limits(tables),
          water_range(),
          point("soil.boussinesq", kElastic, {"boussinesq-1885", "point load", Status::published}),
          point("soil.soehne", 4, {"froehlich-1934", "point load", Status::published}),
          circle(),
          newmark(),
          two_to_one(),
          layer(),
          rectangle(),
          tyre(),
          ground_pressure(),
          schjonning(),
          severiano(),
          passes(tables),
          diffusivity(),
          oxygen(),
          fill_air_left(),
          oxygen_rate(tables)};
}

}  // namespace rootstead
