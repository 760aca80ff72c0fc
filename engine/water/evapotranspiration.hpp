// What the sky draws from a short green meadow in a day: the reference evapotranspiration of FAO-56
// with every part it is made of, and two shorter roads to it (Hargreaves, Makkink).
// Bare doubles, as the formulas are written; the unit is in the name. Sources, domain and worked
// examples: docs/methods/water.md.
#pragma once

#include <optional>

#include "engine/base/quantity.hpp"
#include "engine/base/result.hpp"

namespace rootstead {

// ---- the air (FAO-56, chapter 3) ----------------------------------------------------------------

double air_pressure_kpa(double elevation_m);
double psychrometric_kpa_per_c(double pressure_kpa);
double saturation_pressure_kpa(double celsius);
double saturation_slope_kpa_per_c(double celsius);
double mean_saturation_pressure_kpa(double max_celsius, double min_celsius);

// What was measured of the air's dampness, as shares: both extremes, else the mean.
struct Humidity {
  std::optional<double> max, min, mean;
};
// Nothing where no humidity is given: the dew point is then taken as the night's low.
double vapour_pressure_kpa(double max_celsius, double min_celsius, const Humidity& humidity);

// Wind at 2 m of one measured higher up, over short grass. Requires: height_m > 0.1.
double wind_at_two_metres(double speed_m_s, double height_m);

// ---- the sun ------------------------------------------------------------------------------------

struct SunOfDay {
  double relative_distance = 1;  // d_r, inverse, earth to sun
  double declination = 0;        // radians
  double sunset_angle = 0;       // radians; 0 in the polar night, pi in the polar day
  double radiation_mj = 0;       // R_a, MJ/m2/day, above the air
  double daylight_hours = 0;     // N
};
// day_of_year: 1 to 366. Latitude north positive.
SunOfDay sun_of_day(int day_of_year, Angle latitude);

double solar_radiation_mj(double above_air_mj, double sunshine_h, double daylight_h);  // R_s
double clear_sky_radiation_mj(double above_air_mj, double elevation_m);                // R_so
double net_short_radiation_mj(double solar_mj);                                        // R_ns
// R_nl; the relative radiation R_s / R_so counts as at most 1.
double net_long_radiation_mj(double max_celsius, double min_celsius, double vapour_kpa,
                             double solar_mj, double clear_sky_mj);

// ---- the reference evapotranspiration -----------------------------------------------------------

struct DailyWeather {
  int day_of_year = 0;
  Angle latitude;
  double elevation_m = 0;
  double max_celsius = 0, min_celsius = 0;
  Humidity humidity;
  double wind_m_s = 2;
  double wind_height_m = 2;
  std::optional<double> sunshine_h;         // either this
  std::optional<double> solar_mj;           // or this, MJ/m2/day
  std::optional<double> mean_celsius = {};  // else half the sum of the extremes
  double soil_heat_mj = 0;                  // G
};

// Every part, so that it can be shown and checked.
struct PenmanMonteith {
  double mean_celsius = 0;
  double pressure_kpa = 0, psychrometric = 0, slope = 0;
  double saturation_kpa = 0, vapour_kpa = 0;
  double wind_m_s = 0;  // at 2 m
  SunOfDay sun;
  double solar_mj = 0, clear_sky_mj = 0, net_short_mj = 0, net_long_mj = 0, net_mj = 0;
  double soil_heat_mj = 0;
  double mm_per_day = 0;
};

// FAO-56 equation 6 alone, of its parts.
double penman_monteith_mm(const PenmanMonteith& parts);
// Fails with value_invalid (a day, latitude, temperature, humidity, wind or sun that is none) or
// missing_measurement (neither sunshine nor radiation).
Result<PenmanMonteith> penman_monteith(const DailyWeather& weather);

// FAO-56 equation 52. The mean is half the sum of the extremes unless given.
double hargreaves_mm(double max_celsius, double min_celsius, double mean_celsius,
                     double above_air_mj);

// The convention of the Netherlands' weather service: mean temperature of the day and global
// radiation in J/cm2. Agrees with its ten published years at De Bilt to their rounding (0.05 mm).
double makkink_mm(double mean_celsius, double radiation_j_cm2);

}  // namespace rootstead
