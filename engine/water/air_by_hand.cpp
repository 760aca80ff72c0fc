// The air and the sun, as reference evapotranspiration needs them.
#include <cmath>

#include "engine/water/water_by_hand.hpp"

namespace rootstead::water_by_hand {
namespace {

HandFigure air_pressure() {
  return {{"water.air-pressure",
           "kPa",
           "pressure of the air",
           {{"elevation", "above the sea", "1800m"}}},
          {},
          [](const HandValues& v) -> Answer {
            return std::vector{part("", air_pressure_kpa(v.in("elevation", "m")), "kPa",
                                    "P = 101.3 ((293 - 0.0065 z) / 293)^5.26", fao("equation 7"))};
          }};
}

HandFigure psychrometric() {
  return {{"water.psychrometric",
           "kPa/degC",
           "psychrometric constant",
           {{"pressure", "of the air", "81.8kPa"}}},
          {},
          [](const HandValues& v) -> Answer {
            return std::vector{part("", psychrometric_kpa_per_c(v.in("pressure", "kPa")),
                                    "kPa/degC", "g = 0.665e-3 P", fao("equation 8"))};
          }};
}

HandFigure saturation_pressure() {
  return {{"water.saturation-pressure",
           "kPa",
           "vapour pressure of saturated air, and its slope",
           {{"temperature", "of the air", "24.5degC"}}},
          {},
          [](const HandValues& v) -> Answer {
            const double t = v.in("temperature", "degC");
            return std::vector{
                part("", saturation_pressure_kpa(t), "kPa", "e = 0.6108 exp(17.27 T / (T + 237.3))",
                     fao("equation 11")),
                part("water.saturation-pressure.slope", saturation_slope_kpa_per_c(t), "kPa/degC",
                     "D = 4098 e / (T + 237.3)^2", fao("equation 13"))};
          }};
}

HandFigure mean_saturation() {
  return {{"water.mean-saturation-pressure",
           "kPa",
           "mean vapour pressure of saturated air over a day",
           {{"max", "the day's high", "24.5degC"}, {"min", "its low", "15degC"}}},
          {},
          [](const HandValues& v) -> Answer {
            return std::vector{
                part("", mean_saturation_pressure_kpa(v.in("max", "degC"), v.in("min", "degC")),
                     "kPa", "(e(max) + e(min)) / 2", fao("equation 12"))};
          }};
}

HandFigure vapour_pressure() {
  return {{"water.vapour-pressure",
           "kPa",
           "vapour pressure of the air over a day; without humidities its low is the dew point",
           {{"max", "the day's high", "25degC"},
            {"min", "its low", "18degC"},
            {"humidity-max", "highest relative humidity", "82%"},
            {"humidity-min", "lowest relative humidity", "54%"},
            {"humidity", "mean relative humidity, where the others are not known", "68%"}}},
          {"humidity-max", "humidity-min", "humidity"},
          [](const HandValues& v) -> Answer {
            return std::vector{part(
                "", vapour_pressure_kpa(v.in("max", "degC"), v.in("min", "degC"), humidity_of(v)),
                "kPa", "(e(min) RH_max + e(max) RH_min) / 2", fao("equations 17 to 19 and 48"))};
          }};
}

HandFigure sun() {
  return {{"water.sun",
           "MJ/m2/day",
           "what the sun sends above the air on a day, and how long it shines",
           {{"day", "of the year", "246"}, {"latitude", "north positive", "-20deg"}}},
          {},
          [](const HandValues& v) -> Answer {
            const int day = day_of_year(v);
            if (day == 0)
              return refused("water.sun", "there is no such day in a year", "enter 1 to 366");
            const double latitude = v.in("latitude", "deg");
            if (!(std::abs(latitude) <= 90))
              return refused("water.sun", "there is no such latitude", "enter -90 to 90 degrees");
            const SunOfDay s = sun_of_day(day, Angle::degrees(latitude));
            return std::vector{
                part("water.sun.distance", s.relative_distance, "", "1 + 0.033 cos(2 pi J / 365)",
                     fao("equation 23")),
                part("water.sun.declination", s.declination, "rad",
                     "0.409 sin(2 pi J / 365 - 1.39)", fao("equation 24")),
                part("water.sun.sunset-angle", s.sunset_angle, "rad", "acos(-tan phi tan d)",
                     fao("equation 25")),
                part("water.sun.radiation", s.radiation_mj, "MJ/m2/day",
                     "24 60 / pi 0.0820 d_r (w sin phi sin d + cos phi cos d sin w)",
                     fao("equation 21")),
                part("water.sun.daylight", s.daylight_hours, "h", "24 w / pi", fao("equation 34"))};
          }};
}

HandFigure solar_radiation() {
  return {
      {"water.solar-radiation",
       "MJ/m2/day",
       "radiation on the ground from hours of sunshine",
       {{"above-air", "radiation above the air", "25.1MJ/m2/day"},
        {"sunshine", "hours of sunshine", "7.1h"},
        {"daylight", "hours of daylight", "10.9h"}}},
      {},
      [](const HandValues& v) -> Answer {
        return std::vector{part("",
                                solar_radiation_mj(v.in("above-air", "MJ/m2/day"),
                                                   v.in("sunshine", "h"), v.in("daylight", "h")),
                                "MJ/m2/day", "R_s = (0.25 + 0.50 n / N) R_a", fao("equation 35"))};
      }};
}

HandFigure net_long() {
  return {
      {"water.net-long-radiation",
       "MJ/m2/day",
       "radiation that the ground sends back",
       {{"max", "the day's high", "25.1degC"},
        {"min", "its low", "19.1degC"},
        {"vapour", "vapour pressure", "2.1kPa"},
        {"solar", "radiation on the ground", "14.5MJ/m2/day"},
        {"clear-sky", "the same under a clear sky", "18.8MJ/m2/day"}}},
      {},
      [](const HandValues& v) -> Answer {
        return std::vector{part(
            "",
            net_long_radiation_mj(v.in("max", "degC"), v.in("min", "degC"), v.in("vapour", "kPa"),
                                  v.in("solar", "MJ/m2/day"), v.in("clear-sky", "MJ/m2/day")),
            "MJ/m2/day",
            "4.903e-9 (T_max^4 + T_min^4) / 2 (0.34 - 0.14 sqrt e) (1.35 R_s / R_so - "
            "0.35)",
            fao("equation 39"))};
      }};
}

HandFigure wind() {
  return {{"water.wind",
           "m/s",
           "wind at 2 m",
           {{"speed", "as measured", "3.2m/s"}, {"height", "of the instrument", "10m"}}},
          {},
          [](const HandValues& v) -> Answer {
            const double height = v.in("height", "m");
            if (!(height >= 0.5))
              return refused("water.wind", "the instrument stands too low", "enter 0.5 m or more");
            return std::vector{part("", wind_at_two_metres(v.in("speed", "m/s"), height), "m/s",
                                    "u_2 = u_z 4.87 / ln(67.8 z - 5.42)", fao("equation 47"))};
          }};
}

}  // namespace

std::vector<HandFigure> air_and_sun_figures() {
  return {air_pressure(),    psychrometric(),   saturation_pressure(),
          mean_saturation(), vapour_pressure(), sun(),
          solar_radiation(), net_long(),        wind()};
}

}  // namespace rootstead::water_by_hand
