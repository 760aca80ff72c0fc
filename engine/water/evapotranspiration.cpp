#include "engine/water/evapotranspiration.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

#include "engine/base/text.hpp"

namespace rootstead {
namespace {

// FAO-56 writes its constants rounded; they are used as printed, or its examples would not come
// out.
constexpr double kSolarConstant = 0.0820;        // MJ/m2/min
constexpr double kStefanBoltzmann = 4.903e-9;    // MJ/K4/m2/day
constexpr double kKelvin = 273.16;               // for the long waves
constexpr double kEvaporationPerEnergy = 0.408;  // mm per MJ/m2
constexpr double kReflected = 0.23;              // of a green meadow
constexpr double kPlainWindHeight = 2;

Error unusable(std::string message, std::string remedy) {
  return {Code::value_invalid, "weather", std::move(message), std::move(remedy)};
}

bool is_share(const std::optional<double>& share) {
  return !share || (*share >= 0 && *share <= 1);
}

// What a record of one day may hold at all; generous, to catch slips of the unit.
Result<Nothing> checked(const DailyWeather& w) {
  const auto number = [](double v) { return shortest_number(v); };
  if (w.day_of_year < 1 || w.day_of_year > 366)
    return unusable("there is no day " + number(w.day_of_year) + " in a year", "enter 1 to 366");
  if (!(std::abs(w.latitude.degrees()) <= 90))
    return unusable("a latitude of " + number(w.latitude.degrees()) + " is none",
                    "enter degrees between -90 and 90");
  if (!(w.elevation_m > -500 && w.elevation_m < 9000))
    return unusable("an elevation of " + number(w.elevation_m) + " m is none",
                    "enter metres above the sea");
  if (!(w.min_celsius > -90 && w.max_celsius < 60 && w.min_celsius <= w.max_celsius))
    return unusable("temperatures from " + number(w.min_celsius) + " to " + number(w.max_celsius) +
                        " degrees C are none of one day",
                    "enter the day's low and high in degrees Celsius");
  if (!is_share(w.humidity.max) || !is_share(w.humidity.min) || !is_share(w.humidity.mean))
    return unusable("a humidity lies outside 0 to 100 %", "enter relative humidities, e.g. 63 %");
  if (!(w.wind_m_s >= 0 && w.wind_m_s < 120 && w.wind_height_m >= 0.5 && w.wind_height_m <= 200))
    return unusable(
        "a wind of " + number(w.wind_m_s) + " m/s at " + number(w.wind_height_m) + " m is none",
        "enter the speed in m/s and the height of the instrument");
  if (!w.sunshine_h && !w.solar_mj)
    return Error{Code::missing_measurement, "weather", "neither sunshine nor radiation is known",
                 "enter hours of sunshine or the day's radiation"};
  if ((w.sunshine_h && !(*w.sunshine_h >= 0 && *w.sunshine_h <= 24)) ||
      (w.solar_mj && !(*w.solar_mj >= 0 && *w.solar_mj <= 50)))
    return unusable("the sunshine or radiation is none of one day",
                    "enter hours of sunshine, 0 to 24, or MJ/m2 of the day");
  return Nothing{};
}

}  // namespace

// ---- the air ------------------------------------------------------------------------------------

double air_pressure_kpa(double elevation_m) {
  return 101.3 * std::pow((293 - 0.0065 * elevation_m) / 293, 5.26);  // equation 7
}

double psychrometric_kpa_per_c(double pressure_kpa) {
  return 0.665e-3 * pressure_kpa;  // equation 8
}

double saturation_pressure_kpa(double celsius) {
  return 0.6108 * std::exp(17.27 * celsius / (celsius + 237.3));  // equation 11
}

double saturation_slope_kpa_per_c(double celsius) {
  const double t = celsius + 237.3;
  return 4098 * saturation_pressure_kpa(celsius) / (t * t);  // equation 13
}

double mean_saturation_pressure_kpa(double max_celsius, double min_celsius) {
  return (saturation_pressure_kpa(max_celsius) + saturation_pressure_kpa(min_celsius)) / 2;  // 12
}

double vapour_pressure_kpa(double max_celsius, double min_celsius, const Humidity& humidity) {
  const double at_low = saturation_pressure_kpa(min_celsius);
  const double at_high = saturation_pressure_kpa(max_celsius);
  if (humidity.max && humidity.min)
    return (at_low * *humidity.max + at_high * *humidity.min) / 2;    // equation 17
  if (humidity.mean) return *humidity.mean * (at_low + at_high) / 2;  // equation 19
  if (humidity.max) return at_low * *humidity.max;                    // equation 18
  return at_low;                                                      // equation 48
}

double wind_at_two_metres(double speed_m_s, double height_m) {
  assert(height_m > 0.1);
  if (height_m == kPlainWindHeight) return speed_m_s;
  return speed_m_s * 4.87 / std::log(67.8 * height_m - 5.42);  // equation 47
}

// ---- the sun ------------------------------------------------------------------------------------

SunOfDay sun_of_day(int day_of_year, Angle latitude) {
  const double turn = 2 * std::numbers::pi * day_of_year / 365;
  const double phi = latitude.radians();
  SunOfDay sun;
  sun.relative_distance = 1 + 0.033 * std::cos(turn);  // equation 23
  sun.declination = 0.409 * std::sin(turn - 1.39);     // equation 24
  const double over = -std::tan(phi) * std::tan(sun.declination);
  sun.sunset_angle = std::acos(std::clamp(over, -1.0, 1.0));  // equation 25
  const double sines = std::sin(phi) * std::sin(sun.declination);
  const double cosines = std::cos(phi) * std::cos(sun.declination);
  sun.radiation_mj = 24 * 60 / std::numbers::pi * kSolarConstant * sun.relative_distance *
                     (sun.sunset_angle * sines + cosines * std::sin(sun.sunset_angle));  // 21
  sun.radiation_mj = std::max(0.0, sun.radiation_mj);
  sun.daylight_hours = 24 / std::numbers::pi * sun.sunset_angle;  // equation 34
  return sun;
}

double solar_radiation_mj(double above_air_mj, double sunshine_h, double daylight_h) {
  const double share = daylight_h > 0 ? std::min(1.0, sunshine_h / daylight_h) : 0;
  return (0.25 + 0.50 * share) * above_air_mj;  // equation 35
}

double clear_sky_radiation_mj(double above_air_mj, double elevation_m) {
  return (0.75 + 2e-5 * elevation_m) * above_air_mj;  // equation 37
}

double net_short_radiation_mj(double solar_mj) {
  return (1 - kReflected) * solar_mj;  // equation 38
}

double net_long_radiation_mj(double max_celsius, double min_celsius, double vapour_kpa,
                             double solar_mj, double clear_sky_mj) {
  const auto fourth = [](double celsius) { return std::pow(celsius + kKelvin, 4); };
  const double relative = clear_sky_mj > 0 ? std::min(1.0, solar_mj / clear_sky_mj) : 1;
  return kStefanBoltzmann * (fourth(max_celsius) + fourth(min_celsius)) / 2 *
         (0.34 - 0.14 * std::sqrt(vapour_kpa)) * (1.35 * relative - 0.35);  // equation 39
}

// ---- the reference evapotranspiration -----------------------------------------------------------

double penman_monteith_mm(const PenmanMonteith& p) {
  const double energy = kEvaporationPerEnergy * p.slope * (p.net_mj - p.soil_heat_mj);
  const double air = p.psychrometric * 900 / (p.mean_celsius + 273) * p.wind_m_s *
                     (p.saturation_kpa - p.vapour_kpa);
  return (energy + air) / (p.slope + p.psychrometric * (1 + 0.34 * p.wind_m_s));
}

Result<PenmanMonteith> penman_monteith(const DailyWeather& w) {
  ROOTSTEAD_CHECK(checked(w));
  PenmanMonteith p;
  p.mean_celsius = w.mean_celsius.value_or((w.max_celsius + w.min_celsius) / 2);
  p.pressure_kpa = air_pressure_kpa(w.elevation_m);
  p.psychrometric = psychrometric_kpa_per_c(p.pressure_kpa);
  p.slope = saturation_slope_kpa_per_c(p.mean_celsius);
  p.saturation_kpa = mean_saturation_pressure_kpa(w.max_celsius, w.min_celsius);
  p.vapour_kpa = vapour_pressure_kpa(w.max_celsius, w.min_celsius, w.humidity);
  p.wind_m_s = wind_at_two_metres(w.wind_m_s, w.wind_height_m);
  p.sun = sun_of_day(w.day_of_year, w.latitude);
  p.solar_mj = w.solar_mj
                   ? *w.solar_mj
                   : solar_radiation_mj(p.sun.radiation_mj, *w.sunshine_h, p.sun.daylight_hours);
  p.clear_sky_mj = clear_sky_radiation_mj(p.sun.radiation_mj, w.elevation_m);
  p.net_short_mj = net_short_radiation_mj(p.solar_mj);
  p.net_long_mj =
      net_long_radiation_mj(w.max_celsius, w.min_celsius, p.vapour_kpa, p.solar_mj, p.clear_sky_mj);
  p.net_mj = p.net_short_mj - p.net_long_mj;  // equation 40
  p.soil_heat_mj = w.soil_heat_mj;
  p.mm_per_day = penman_monteith_mm(p);
  return p;
}

double hargreaves_mm(double max_celsius, double min_celsius, double mean_celsius,
                     double above_air_mj) {
  const double swing = std::sqrt(std::max(0.0, max_celsius - min_celsius));
  return 0.0023 * (mean_celsius + 17.8) * swing * kEvaporationPerEnergy * above_air_mj;
}

double makkink_mm(double mean_celsius, double radiation_j_cm2) {
  const double t = mean_celsius + 237.3;
  const double saturation_hpa = 6.107 * std::pow(10, 7.5 * mean_celsius / t);
  const double slope = 7.5 * 237.3 / (t * t) * std::numbers::ln10 * saturation_hpa;
  const double psychrometric = 0.646 + 0.0006 * mean_celsius;  // hPa per degree
  const double joules_per_litre = 1000 * (2501 - 2.38 * mean_celsius);
  const double joules_per_m2 = radiation_j_cm2 * 1e4;
  return 0.65 * slope / (slope + psychrometric) * joules_per_m2 / joules_per_litre;
}

}  // namespace rootstead
