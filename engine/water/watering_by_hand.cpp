// What a crown draws, what a tree can draw on, and how much is given.
#include <numbers>

#include "engine/base/text.hpp"
#include "engine/site/tree.hpp"
#include "engine/water/crown_demand.hpp"
#include "engine/water/water_by_hand.hpp"
#include "engine/water/watering.hpp"

namespace rootstead::water_by_hand {
namespace {

double circle(double diameter) {
  return std::numbers::pi * diameter * diameter / 4;
}

HandFigure crown_demand() {
  return {{"water.crown-demand",
           "L",
           "what a crown draws in a day, and what must be given for it",
           {{"reference", "evapotranspiration", "0.25in/day"},
            {"coefficient", "landscape coefficient", "0.6"},
            {"crown", "diameter", "20ft"},
            {"efficiency", "share of the water given that reaches the roots", "0.7"}}},
          {"efficiency"},
          [](const HandValues& v) -> Answer {
            const double efficiency = v.in("efficiency", "", 1);
            if (!(efficiency > 0 && efficiency <= 1))
              return refused("water.crown-demand", "the efficiency is none", "enter e.g. 0.7");
            const double need =
                v.in("reference", "mm/day") * v.in("coefficient", "") * circle(v.in("crown", "m"));
            const Citation from{"costello-2000", "landscape coefficient method", Status::published};
            return std::vector{
                part("water.crown-demand.day", need, "L", "E = ET_o K_L pi d^2 / 4", from),
                part("water.crown-demand.given", need / efficiency, "L", "E / e", from)};
          }};
}

HandFigure coefficient() {
  return {{"water.landscape-coefficient",
           "",
           "landscape coefficient of its three factors",
           {{"species", "factor", "0.5"},
            {"density", "factor", "1.0"},
            {"microclimate", "factor", "1.2"}}},
          {},
          [](const HandValues& v) -> Answer {
            return std::vector{
                part("", v.in("species", "") * v.in("density", "") * v.in("microclimate", ""), "",
                     "K_L = k_s k_d k_mc", {"costello-2000", "", Status::published})};
          }};
}

HandFigure reservoir() {
  return {
      {"water.reservoir",
       "L",
       "water in the ground that a tree draws on, and how long it lasts",
       {{"available", "water that roots can take", "2in/ft"},
        {"depth", "of the roots", "1.5ft"},
        {"radius", "of the rooted ground", "10ft"},
        {"lost", "share of the roots", "0%"},
        {"depletion", "share that may be used up", "0.5"},
        {"demand", "of the crown in a day", "29.38gal"}}},
      {"lost", "depletion", "demand"},
      [](const HandValues& v) -> Answer {
        const double lost = v.in("lost", "", 0);
        if (!(lost >= 0 && lost <= 1))
          return refused("water.reservoir", "the share lost is none", "enter 0 to 100 %");
        const double full = kLitresPerCubicMetre * v.in("available", "mm/m") / kMillimetres *
                            v.in("depth", "m") * circle(2 * v.in("radius", "m")) * (1 - lost);
        const double allowed = full * v.in("depletion", "", 0.5);
        const Citation from{"plane-geometry", "volume times water held", Status::published};
        std::vector<Figure> all{
            part("water.reservoir.full", full, "L", "W = AW z pi r^2 (1 - lost)", from),
            part("water.reservoir.allowed", allowed, "L", "W_a = m W", from)};
        if (v.has("demand")) {
          const double demand = v.in("demand", "L");
          if (!(demand > 0))
            return refused("water.reservoir", "the demand is none", "enter litres of a day");
          all.push_back(part("water.reservoir.lasts", allowed / demand, "days", "W_a / E", from));
        }
        return all;
      }};
}

HandFigure lindsey_bassuk() {
  return {{"water.lindsey-bassuk",
           "L",
           "what a crown draws in a day, by its leaves and an evaporation pan",
           {{"crown", "diameter", "6.1m"},
            {"leaf-area-index", "leaf area per ground", "4"},
            {"pan", "evaporation", "6mm/day"}}},
          {},
          [](const HandValues& v) -> Answer {
            return std::vector{
                part("",
                     lindsey_bassuk_litres(Area::square_metres(circle(v.in("crown", "m"))),
                                           v.in("leaf-area-index", ""), v.in("pan", "mm/day")),
                     "L", "0.20 A LAI E_pan", {"lindsey-bassuk-1991", "", Status::memory})};
          }};
}

HandFigure ball(const Tables& tables) {
  return {
      {"water.ball",
       "L",
       "water that roots can take from a dug ball",
       {{"ball", "diameter", "36in"},
        {"depth", "of the ball", "21.6in"},
        {"available", "water that roots can take", "2in/ft"}}},
      {},
      [&tables](const HandValues& v) -> Answer {
        const Parameter& taper = tables.parameter("water.ball_taper");
        return std::vector{part(
            "",
            ball_water_litres(Length::metres(v.in("ball", "m")), Length::metres(v.in("depth", "m")),
                              taper.best, v.in("available", "mm/m")),
            "L", "AW pi h / 3 (R^2 + R r + r^2), r = " + shortest_number(taper.best) + " R",
            taper.from)};
      }};
}

HandFigure by_inch(const Tables& tables, std::string name, std::string meaning, std::string_view id,
                   bool weekly) {
  const std::string asked = name;
  return {{std::move(name),
           "L",
           std::move(meaning),
           {{"stem", "diameter", "3in"}, {"form", "palms are refused", "broadleaf"}}},
          {"form"},
          [&tables, asked, id = std::string(id), weekly](const HandValues& v) -> Answer {
            const auto form = growth_form_from(v.word("form", "unknown"));
            if (!form && v.has("form"))
              return Error{Code::unknown_name, asked,
                           "there is no growth form \"" + v.word("form") + "\"",
                           "enter broadleaf, conifer, palm or monocot"};
            const Length stem = Length::metres(v.in("stem", "m"));
            const GrowthForm grown = form.value_or(GrowthForm::unknown);
            ROOTSTEAD_TRY(const Range litres,
                          weekly ? litres_per_stem_week(stem, grown, tables)
                                 : litres_per_calliper(stem, grown, false, tables));
            const Parameter& rule = tables.parameter(id);
            std::vector<Figure> all{part("", litres.best, "L", rule.meaning, rule.from)};
            all.front().range = litres;
            if (litres.low < litres.high) {
              all.push_back(part(asked + ".low", litres.low, "L", rule.meaning, rule.from));
              all.push_back(part(asked + ".high", litres.high, "L", rule.meaning, rule.from));
            }
            return all;
          }};
}

}  // namespace

std::vector<HandFigure> watering_figures(const Tables& tables) {
  return {crown_demand(),
          coefficient(),
          reservoir(),
          lindsey_bassuk(),
          ball(tables),
          by_inch(tables, "water.per-calliper", "one watering of a young tree",
                  "water.gallons_per_calliper_inch", false),
          by_inch(tables, "water.stem-week", "a week's water of a grown tree in dry weather",
                  "water.gallons_per_inch_week", true)};
}

}  // namespace rootstead::water_by_hand
