#include "engine/water/water_figures.hpp"

#include <cmath>
#include <numbers>
#include <utility>

#include "engine/base/text.hpp"
#include "engine/site/tree.hpp"
#include "engine/water/crown_demand.hpp"
#include "engine/water/evapotranspiration.hpp"
#include "engine/water/soil_water.hpp"
#include "engine/water/watering.hpp"

namespace rootstead {
namespace {

using Answer = Result<std::vector<Figure>>;

constexpr double kLitresPerCubicMetre = 1000, kMillimetres = 1000;

Citation fao(std::string place) {
  return {"allen-1998", std::move(place), Status::published};
}

Figure part(std::string name, double value, std::string unit, std::string formula, Citation from) {
  Figure figure;
  figure.name = std::move(name);
  figure.value = value;
  figure.unit = std::move(unit);
  figure.formula = std::move(formula);
  figure.from = std::move(from);
  return figure;
}

Error refused(const std::string& name, std::string message, std::string remedy) {
  return {Code::value_invalid, name, std::move(message), std::move(remedy)};
}

// ---- the air and the sun ------------------------------------------------------------------------

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

// 0, which is no day, where it cannot be one.
int day_of_year(const HandValues& v) {
  const double day = v.in("day", "");
  return day >= 1 && day <= 366 ? static_cast<int>(day) : 0;
}

Humidity humidity_of(const HandValues& v) {
  const auto share = [&](const char* key) {
    return v.has(key) ? std::optional(v.in(key, "")) : std::nullopt;
  };
  return {share("humidity-max"), share("humidity-min"), share("humidity")};
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

// ---- reference evapotranspiration ---------------------------------------------------------------

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

// ---- soil ---------------------------------------------------------------------------------------

HandFigure depletion() {
  return {{"water.depletion",
           "",
           "share of the available water that may be used without stress, at a day's demand",
           {{"share", "of the table, at 5 mm a day", "0.5"}, {"demand", "of the crop", "7mm/day"}}},
          {},
          [](const HandValues& v) -> Answer {
            return std::vector{
                part("", depletion_share(v.in("share", ""), v.in("demand", "mm/day")), "",
                     "p = p_table + 0.04 (5 - ET_c), 0.1 to 0.8", fao("Table 22, note"))};
          }};
}

HandFigure total_available() {
  return {{"water.total-available",
           "mm",
           "water that roots can take from a depth of soil",
           {{"field-capacity", "share of the volume", "25%"},
            {"wilting", "share of the volume", "12%"},
            {"depth", "of the roots", "1m"},
            {"share", "that may be used without stress", "0.5"},
            {"depleted", "used up already", "0.08m"}}},
          {"share", "depleted"},
          [](const HandValues& v) -> Answer {
            const double total = total_available_mm(v.in("field-capacity", ""), v.in("wilting", ""),
                                                    v.in("depth", "m"));
            if (!(total > 0))
              return refused("water.total-available", "this soil holds nothing for roots",
                             "the field capacity must be above the wilting point");
            const double share = v.in("share", "", 0.5);
            if (!(share > 0 && share < 1))
              return refused("water.total-available", "the share is none", "enter e.g. 50 %");
            std::vector<Figure> all{part("water.total-available.total", total, "mm",
                                         "TAW = 1000 (FC - WP) z", fao("equation 82")),
                                    part("water.total-available.readily", share * total, "mm",
                                         "RAW = p TAW", fao("equation 83"))};
            if (v.has("depleted"))
              all.push_back(part("water.total-available.stress",
                                 stress_factor(v.in("depleted", "mm"), total, share), "",
                                 "K_s = (TAW - D) / (TAW - RAW), 0 to 1", fao("equation 84")));
            return all;
          }};
}

HandFigure available(const Tables& tables) {
  return {{"water.available",
           "mm/m",
           "water that roots can take, by texture: low, middle and high of the row",
           {{"texture", "by the names of soil survey", "silt loam"}}},
          {},
          [&tables](const HandValues& v) -> Answer {
            const auto row = available_water(v.word("texture"), tables);
            if (!row)
              return Error{Code::unknown_name, "water.available",
                           "there is no row for \"" + v.word("texture") + "\"",
                           "the rows are " + joined(available_water_textures(), ", ")};
            Figure figure =
                part("", row->mm_per_m.best, "mm/m", "table row: " + row->texture, row->from);
            figure.range = row->mm_per_m;
            return std::vector{figure};
          }};
}

HandFigure contents() {
  return {{"water.soil-contents",
           "",
           "water contents of a soil by its particles",
           {{"sand", "share by mass", "20%"},
            {"clay", "share by mass", "20%"},
            {"organic-matter", "share by mass", "2.5%"}}},
          {},
          [](const HandValues& v) -> Answer {
            ROOTSTEAD_TRY(const WaterContents w, saxton_rawls(v.in("sand", ""), v.in("clay", ""),
                                                              v.in("organic-matter", "")));
            const auto from = [](std::string place) {
              return Citation{"saxton-rawls-2006", std::move(place), Status::published};
            };
            const std::string n = "water.soil-contents.";
            return std::vector{
                part(n + "wilting", w.wilting, "", "at 1500 kPa", from("equation 1")),
                part(n + "field-capacity", w.field_capacity, "", "at 33 kPa", from("equation 2")),
                part(n + "saturation", w.saturation, "", "saturated", from("equation 5")),
                part(n + "available", w.field_capacity - w.wilting, "", "field capacity - wilting",
                     from("equations 1 and 2"))};
          }};
}

HandFigure crop(const Tables& tables) {
  return {{"water.crop",
           "",
           "rooting depth, depletion share and crop coefficients of a crop of trees or turf",
           {{"name", "of the row", "conifers"}}},
          {},
          [&tables](const HandValues& v) -> Answer {
            std::vector<std::string> names;
            for (const CropRow& row : crop_rows(tables)) {
              names.push_back(row.name);
              if (row.name != v.word("name")) continue;
              const std::string n = "water.crop.";
              Figure depth = part(n + "root-depth", row.root_depth_m.best, "m",
                                  "greatest rooting depth", row.from);
              depth.range = row.root_depth_m;
              std::vector<Figure> all{
                  depth, part(n + "depletion", row.depletion, "", "p at 5 mm/day", row.from)};
              const auto add = [&](const char* name, const std::optional<double>& kc) {
                if (kc) all.push_back(part(n + name, *kc, "", "K_c", row.from));
              };
              add("initial", row.kc_initial);
              add("middle", row.kc_middle);
              add("end", row.kc_end);
              return all;
            }
            return Error{Code::unknown_name, "water.crop",
                         "there is no row for \"" + v.word("name") + "\"",
                         "the rows are " + joined(names, ", ")};
          }};
}

// ---- crown, store, watering ---------------------------------------------------------------------

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

std::vector<HandFigure> water_figures(const Tables& tables) {
  return {air_pressure(),
          psychrometric(),
          saturation_pressure(),
          mean_saturation(),
          vapour_pressure(),
          sun(),
          solar_radiation(),
          net_long(),
          wind(),
          of_weather(),
          of_parts(),
          hargreaves(),
          makkink(),
          depletion(),
          total_available(),
          available(tables),
          contents(),
          crop(tables),
          crown_demand(),
          coefficient(),
          reservoir(),
          lindsey_bassuk(),
          ball(tables),
          by_inch(tables, "water.per-calliper", "one watering of a young tree",
                  "water.gallons_per_calliper_inch", false),
          by_inch(tables, "water.stem-week", "a week's water of a grown tree in dry weather",
                  "water.gallons_per_inch_week", true)};
}

}  // namespace rootstead
