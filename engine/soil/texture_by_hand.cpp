// Texture, pores and density.
#include "engine/base/text.hpp"
#include "engine/soil/density.hpp"
#include "engine/soil/soil_by_hand.hpp"
#include "engine/soil/texture.hpp"

namespace rootstead::soil_by_hand {
namespace {

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

}  // namespace

std::vector<HandFigure> texture_figures(const Tables& tables) {
  return {texture(), pores(), densest(), limits(tables), water_range()};
}

}  // namespace rootstead::soil_by_hand
