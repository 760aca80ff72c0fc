// Reference evapotranspiration.
#include "engine/water/water_by_hand.hpp"

namespace rootstead::water_by_hand {
namespace {

const std::string kPenmanMonteith =
    "(0.408 D (R_n - G) + g 900 / (T + 273) u_2 (e_s - e_a)) / (D + g (1 + 0.34 u_2))";

DailyWeather weather_of(const HandValues& v) {
  DailyWeather w;
  w.day_of_year = day_of_year(v);
  w.latitude = Angle::degrees(v.in("latitude", "deg"));
  w.elevation_m = v.in("elevation", "m");
  w.max_celsius = v.in("max", "degC");
  w.min_celsius = v.in("min", "degC");
  w.humidity = humidity_of(v);
  w.wind_m_s = v.in("wind", "m/s");
  w.wind_height_m = v.in("wind-height", "m", 2);
  if (v.has("sunshine")) w.sunshine_h = v.in("sunshine", "h");
  if (v.has("solar")) w.solar_mj = v.in("solar", "MJ/m2/day");
  return w;
}

std::vector<Figure> parts_of(const PenmanMonteith& p) {
  const std::string n = "water.penman-monteith.";
  return {part("", p.mm_per_day, "mm/day", kPenmanMonteith, fao("equation 6")),
          part(n + "wind", p.wind_m_s, "m/s", "u_2", fao("equation 47")),
          part(n + "psychrometric", p.psychrometric, "kPa/degC", "g", fao("equation 8")),
          part(n + "slope", p.slope, "kPa/degC", "D", fao("equation 13")),
          part(n + "saturation", p.saturation_kpa, "kPa", "e_s", fao("equation 12")),
          part(n + "vapour", p.vapour_kpa, "kPa", "e_a", fao("equations 17 to 19 and 48")),
          part(n + "above-air", p.sun.radiation_mj, "MJ/m2/day", "R_a", fao("equation 21")),
          part(n + "daylight", p.sun.daylight_hours, "h", "N", fao("equation 34")),
          part(n + "solar", p.solar_mj, "MJ/m2/day", "R_s", fao("equation 35")),
          part(n + "clear-sky", p.clear_sky_mj, "MJ/m2/day", "R_so", fao("equation 37")),
          part(n + "net-short", p.net_short_mj, "MJ/m2/day", "R_ns", fao("equation 38")),
          part(n + "net-long", p.net_long_mj, "MJ/m2/day", "R_nl", fao("equation 39")),
          part(n + "net", p.net_mj, "MJ/m2/day", "R_n = R_ns - R_nl", fao("equation 40"))};
}

HandFigure of_weather() {
  return {{"water.penman-monteith",
           "mm/day",
           "reference evapotranspiration of a day, with its parts",
           {{"day", "of the year", "187"},
            {"latitude", "north positive", "50.8deg"},
            {"elevation", "above the sea", "100m"},
            {"max", "the day's high", "21.5degC"},
            {"min", "its low", "12.3degC"},
            {"humidity-max", "highest relative humidity", "84%"},
            {"humidity-min", "lowest relative humidity", "63%"},
            {"humidity", "mean relative humidity, where the others are not known", "70%"},
            {"wind", "speed", "10km/h"},
            {"wind-height", "of the instrument; 2 m if left out", "10m"},
            {"sunshine", "hours of sunshine, or", "9.25h"},
            {"solar", "radiation on the ground", "22.07MJ/m2/day"}}},
          {"humidity-max", "humidity-min", "humidity", "wind-height", "sunshine", "solar"},
          [](const HandValues& v) -> Answer {
            ROOTSTEAD_TRY(const PenmanMonteith p, penman_monteith(weather_of(v)));
            return parts_of(p);
          }};
}

HandFigure of_parts() {
  return {{"water.penman-monteith-of-parts",
           "mm/day",
           "the same of parts that are known already",
           {{"net", "net radiation", "14.33MJ/m2/day"},
            {"soil-heat", "heat flux into the soil", "0.14MJ/m2/day"},
            {"temperature", "mean of the day", "30.2degC"},
            {"wind", "at 2 m", "2m/s"},
            {"saturation", "vapour pressure of saturated air", "4.42kPa"},
            {"vapour", "vapour pressure", "2.85kPa"},
            {"slope", "of the saturation pressure, kPa per degree", "0.246"},
            {"psychrometric", "constant, kPa per degree", "0.0674"}}},
          {"soil-heat"},
          [](const HandValues& v) -> Answer {
            PenmanMonteith p;
            p.net_mj = v.in("net", "MJ/m2/day");
            p.soil_heat_mj = v.in("soil-heat", "MJ/m2/day", 0);
            p.mean_celsius = v.in("temperature", "degC");
            p.wind_m_s = v.in("wind", "m/s");
            p.saturation_kpa = v.in("saturation", "kPa");
            p.vapour_kpa = v.in("vapour", "kPa");
            p.slope = v.in("slope", "");
            p.psychrometric = v.in("psychrometric", "");
            return std::vector{
                part("", penman_monteith_mm(p), "mm/day", kPenmanMonteith, fao("equation 6"))};
          }};
}

HandFigure hargreaves() {
  return {{"water.hargreaves",
           "mm/day",
           "reference evapotranspiration where only temperatures are known",
           {{"max", "the day's high", "38degC"},
            {"min", "its low", "28degC"},
            {"mean", "of the day; half the sum of both if left out", "35degC"},
            {"above-air", "radiation above the air", "38.937MJ/m2/day"}}},
          {"mean"},
          [](const HandValues& v) -> Answer {
            const double high = v.in("max", "degC"), low = v.in("min", "degC");
            if (high < low)
              return refused("water.hargreaves", "the high lies below the low", "exchange them");
            const double mean = v.in("mean", "degC", (high + low) / 2);
            return std::vector{
                part("", hargreaves_mm(high, low, mean, v.in("above-air", "MJ/m2/day")), "mm/day",
                     "0.0023 (T + 17.8) sqrt(T_max - T_min) 0.408 R_a", fao("equation 52"))};
          }};
}

HandFigure makkink() {
  return {
      {"water.makkink",
       "mm/day",
       "reference evapotranspiration in the Netherlands' convention",
       {{"mean", "temperature of the day", "6.9degC"},
        {"radiation", "on the ground", "1.67MJ/m2/day"}}},
      {},
      [](const HandValues& v) -> Answer {
        constexpr double kJoulesPerCm2 = 100;  // of a MJ/m2
        return std::vector{part(
            "", makkink_mm(v.in("mean", "degC"), kJoulesPerCm2 * v.in("radiation", "MJ/m2/day")),
            "mm/day", "0.65 s / (s + g) K / (L rho)", {"knmi-makkink", "", Status::published})};
      }};
}

}  // namespace

std::vector<HandFigure> evapotranspiration_figures() {
  return {of_weather(), of_parts(), hargreaves(), makkink()};
}

}  // namespace rootstead::water_by_hand
