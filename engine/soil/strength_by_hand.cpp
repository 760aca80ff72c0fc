// What a soil bears, and how often.
#include <cmath>

#include "engine/soil/soil_by_hand.hpp"
#include "engine/soil/strength.hpp"
#include "engine/soil/traffic.hpp"

namespace rootstead::soil_by_hand {
namespace {

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

}  // namespace

std::vector<HandFigure> strength_figures(const Tables& tables) {
  return {schjonning(), severiano(), passes(tables)};
}

}  // namespace rootstead::soil_by_hand
