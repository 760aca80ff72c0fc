// Published examples first: Allen et al. 1998 (FAO-56), examples 2 to 18, to the digits printed.
#include "engine/water/evapotranspiration.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <fstream>
#include <map>
#include <numbers>
#include <string>

#include "engine/base/text.hpp"
#include "tests/support/shared_data.hpp"

namespace rootstead {
namespace {

// Half of the last digit printed.
void expect_printed(double value, double printed, int decimals, const std::string& what) {
  EXPECT_NEAR(value, printed, 0.5000001 * std::pow(10, -decimals)) << what;
}

DailyWeather uccle() {  // example 18: Uccle, 6 July
  DailyWeather w;
  w.day_of_year = 187;
  w.latitude = Angle::degrees(50.80);
  w.elevation_m = 100;
  w.max_celsius = 21.5;
  w.min_celsius = 12.3;
  w.humidity = {0.84, 0.63, {}};
  w.wind_m_s = 10 / 3.6;
  w.wind_height_m = 10;
  w.sunshine_h = 9.25;
  return w;
}

TEST(PenmanMonteith, GivesExampleEighteenWithAllItsParts) {
  const auto p = penman_monteith(uccle());
  ASSERT_TRUE(p.ok());
  expect_printed(p->wind_m_s, 2.078, 3, "u2");
  expect_printed(p->psychrometric, 0.0666, 4, "gamma");
  expect_printed(p->slope, 0.122, 3, "delta");
  expect_printed(p->saturation_kpa, 1.997, 3, "es");
  expect_printed(p->vapour_kpa, 1.409, 3, "ea");
  expect_printed(p->sun.radiation_mj, 41.09, 2, "Ra");
  expect_printed(p->sun.daylight_hours, 16.1, 1, "N");
  expect_printed(p->solar_mj, 22.07, 2, "Rs");
  expect_printed(p->clear_sky_mj, 30.90, 2, "Rso");
  expect_printed(p->net_mj, 13.28, 2, "Rn");
  expect_printed(p->mm_per_day, 3.88, 2, "ETo");
}

TEST(PenmanMonteith, GivesExampleSeventeenOfItsParts) {
  PenmanMonteith p;  // Bangkok, April
  p.net_mj = 14.33;
  p.soil_heat_mj = 0.14;
  p.mean_celsius = 30.2;
  p.wind_m_s = 2;
  p.saturation_kpa = 4.42;
  p.vapour_kpa = 2.85;
  p.slope = 0.246;
  p.psychrometric = 0.0674;
  EXPECT_NEAR(penman_monteith_mm(p), 5.715, 0.006);  // printed 5.72 of rounded terms
}

TEST(Hargreaves, GivesThePublishedTestValue) {
  expect_printed(hargreaves_mm(38, 28, 35, 38.937), 6.10, 2, "published program's test");
}

TEST(Humidity, FallsBackFromBothExtremesToTheMeanToTheLow) {
  expect_printed(vapour_pressure_kpa(25, 18, {0.82, 0.54, {}}), 1.70, 2, "example 5");
  expect_printed(vapour_pressure_kpa(25, 18, {{}, {}, 0.68}), 1.78, 2, "example 5, RH mean");
  EXPECT_EQ(vapour_pressure_kpa(25, 18, {}), saturation_pressure_kpa(18));
  EXPECT_EQ(vapour_pressure_kpa(25, 18, {0.9, {}, {}}), 0.9 * saturation_pressure_kpa(18));
}

TEST(Wind, GivesExampleFourteen) {
  expect_printed(wind_at_two_metres(3.2, 10), 2.4, 1, "example 14");
  EXPECT_EQ(wind_at_two_metres(3.2, 2), 3.2);
}

TEST(Radiation, GivesExamplesTenAndEleven) {
  expect_printed(solar_radiation_mj(25.1, 7.1, 10.9), 14.45, 2, "example 10");
  expect_printed(net_long_radiation_mj(25.1, 19.1, 2.1, 14.5, 18.8), 3.5, 1, "example 11");
}

// ---- every example of the open file
// ---------------------------------------------------------------

using Inputs = std::map<std::string, double>;

Inputs inputs_of(const std::string& text) {
  Inputs inputs;
  for (const std::string& one : split(text, ';')) {
    const auto equals = one.find('=');
    inputs[one.substr(0, equals)] = number_from(one.substr(equals + 1)).value();
  }
  return inputs;
}

double example(const std::string& output, const Inputs& in) {
  const auto at = [&](const char* key) { return in.at(key); };
  const auto sun = [&] {
    const Angle latitude = in.contains("lat_rad")   ? Angle::radians(at("lat_rad"))
                           : in.contains("lat_deg") ? Angle::degrees(at("lat_deg"))
                                                    : Angle();
    return sun_of_day(static_cast<int>(at("doy")), latitude);
  };
  if (output == "pressure_kPa") return air_pressure_kpa(at("elevation_m"));
  if (output == "psychrometric_kPa_C") return psychrometric_kpa_per_c(at("pressure_kPa"));
  if (output == "e0_kPa") return saturation_pressure_kpa(at("T_C"));
  if (output == "es_kPa") return mean_saturation_pressure_kpa(at("Tmax"), at("Tmin"));
  if (output == "ea_kPa" && in.contains("RHmean"))
    return vapour_pressure_kpa(at("Tmax"), at("Tmin"), {{}, {}, at("RHmean") / 100});
  if (output == "ea_kPa")
    return vapour_pressure_kpa(at("Tmax"), at("Tmin"), {at("RHmax") / 100, at("RHmin") / 100, {}});
  if (output == "relative_distance") return sun().relative_distance;
  if (output == "declination_rad") return sun().declination;
  if (output == "sunset_angle_rad")  // the file gives the declination, no day
    return std::acos(-std::tan(at("lat_rad")) * std::tan(at("declination_rad")));
  if (output == "Ra_MJ_m2_d") return sun().radiation_mj;
  if (output == "daylight_h") return sun().daylight_hours;
  if (output == "Rs_MJ_m2_d")
    return solar_radiation_mj(sun().radiation_mj, at("n_h"), sun().daylight_hours);
  if (output == "Rnl_MJ_m2_d")
    return net_long_radiation_mj(at("Tmax"), at("Tmin"), at("ea"), at("Rs"), at("Rso"));
  DailyWeather w = uccle();
  w.wind_m_s = at("u2_m_s");
  w.wind_height_m = 2;
  w.solar_mj = at("Rs");
  return penman_monteith(w)->mm_per_day;
}

TEST(OpenData, EveryWorkedExampleComesOutToThePrintedDigits) {
  ROOTSTEAD_NEEDS_DATA(file, "weather/fao56_worked_examples.csv");
  std::ifstream in(file);
  std::string line;
  std::getline(in, line);
  int examples = 0;
  while (std::getline(in, line)) {
    const auto cells = split(line, ',');
    ASSERT_EQ(cells.size(), 4u) << line;
    const std::string printed = cells[3].substr(0, cells[3].find(' '));
    const auto point = printed.find('.');
    const int decimals = static_cast<int>(printed.size() - point - 1);
    expect_printed(example(cells[2], inputs_of(cells[1])), number_from(printed).value(), decimals,
                   line);
    ++examples;
  }
  EXPECT_EQ(examples, 17);
}

TEST(OpenData, TenYearsOfDeBiltComeOutToTheirRounding) {
  ROOTSTEAD_NEEDS_DATA(file, "weather/de_bilt_daily_2005_2014.csv");
  std::ifstream in(file);
  std::string line;
  std::getline(in, line);
  const auto header = split(line, ',');
  const auto column = [&](const char* name) {
    return static_cast<std::size_t>(std::find(header.begin(), header.end(), name) - header.begin());
  };
  const std::size_t mean = column("t_mean_c"), radiation = column("global_rad_j_cm2"),
                    published = column("makkink_et_mm");
  int days = 0;
  double squares = 0;
  while (std::getline(in, line)) {
    const auto cells = split(line, ',');
    const auto number = [&](std::size_t i) { return number_from(cells.at(i)).value(); };
    const double off = makkink_mm(number(mean), number(radiation)) - number(published);
    EXPECT_LE(std::abs(off), 0.05) << line;
    squares += off * off;
    ++days;
  }
  EXPECT_EQ(days, 3652);
  EXPECT_NEAR(std::sqrt(squares / days), 0.029, 0.0005);
}

// ---- what must hold for any weather
// ---------------------------------------------------------------

double between(double low, double high) {
  return low + (high - low) * *rc::gen::inRange(0, 10001) / 10000.0;
}

DailyWeather any_weather() {
  DailyWeather w;
  w.day_of_year = *rc::gen::inRange(1, 367);
  w.latitude = Angle::degrees(between(-55, 55));
  w.elevation_m = between(0, 2500);
  w.min_celsius = between(-5, 25);
  w.max_celsius = w.min_celsius + between(0, 18);
  w.humidity = {0.9, between(0.1, 0.9), {}};
  w.wind_m_s = between(0, 12);
  w.sunshine_h = between(0, 10);
  return w;
}

RC_GTEST_PROP(PenmanMonteithAlways, DrawsMoreWhereTheSunShinesLonger, ()) {
  DailyWeather w = any_weather();
  const double less = penman_monteith(w)->solar_mj;
  w.sunshine_h = *w.sunshine_h + between(0, 2);
  RC_ASSERT(penman_monteith(w)->solar_mj >= less);
}

RC_GTEST_PROP(PenmanMonteithAlways, DrawsMoreFromDrierAir, ()) {
  DailyWeather w = any_weather();
  w.solar_mj = between(5, 30);  // the sky's back radiation is left out of the comparison
  PenmanMonteith wet = penman_monteith(w).value();
  PenmanMonteith dry = wet;
  dry.vapour_kpa = wet.vapour_kpa * between(0, 1);
  RC_ASSERT(penman_monteith_mm(dry) >= penman_monteith_mm(wet) - 1e-12);
}

RC_GTEST_PROP(SunAlways, HasHalfADayAtTheEquatorAndMirrorsTheHemispheres, ()) {
  const int day = *rc::gen::inRange(1, 367);
  RC_ASSERT(std::abs(sun_of_day(day, Angle()).daylight_hours - 12) < 1e-9);
  const Angle latitude = Angle::degrees(between(-89, 89));
  const double both =
      sun_of_day(day, latitude).daylight_hours + sun_of_day(day, -latitude).daylight_hours;
  RC_ASSERT(std::abs(both - 24) < 1e-9);
}

RC_GTEST_PROP(SunAlways, SendsNoNegativeRadiation, ()) {
  const SunOfDay sun = sun_of_day(*rc::gen::inRange(1, 367), Angle::degrees(between(-90, 90)));
  RC_ASSERT(sun.radiation_mj >= 0);
  RC_ASSERT(sun.daylight_hours >= 0 && sun.daylight_hours <= 24);
  RC_ASSERT(sun.radiation_mj < 50);
}

// ---- wrong input
// ----------------------------------------------------------------------------------

template <class Change>
Code code_with(Change change) {
  DailyWeather w = uccle();
  change(w);
  const auto p = penman_monteith(w);
  return p.ok() ? Code::wrong_use : p.error().code;
}

TEST(PenmanMonteith, RefusesWeatherThatIsNone) {
  EXPECT_EQ(code_with([](DailyWeather& w) { w.day_of_year = 0; }), Code::value_invalid);
  EXPECT_EQ(code_with([](DailyWeather& w) { w.latitude = Angle::degrees(91); }),
            Code::value_invalid);
  EXPECT_EQ(code_with([](DailyWeather& w) { w.max_celsius = 11; }), Code::value_invalid);
  EXPECT_EQ(code_with([](DailyWeather& w) { w.max_celsius = 294.6; }), Code::value_invalid);
  EXPECT_EQ(code_with([](DailyWeather& w) { w.humidity.max = 84; }), Code::value_invalid);
  EXPECT_EQ(code_with([](DailyWeather& w) { w.wind_m_s = -1; }), Code::value_invalid);
  EXPECT_EQ(code_with([](DailyWeather& w) { w.wind_height_m = 0; }), Code::value_invalid);
  EXPECT_EQ(code_with([](DailyWeather& w) { w.sunshine_h = 25; }), Code::value_invalid);
  EXPECT_EQ(code_with([](DailyWeather& w) { w.elevation_m = std::nan(""); }), Code::value_invalid);
  EXPECT_EQ(code_with([](DailyWeather& w) { w.sunshine_h.reset(); }), Code::missing_measurement);
}

TEST(PenmanMonteith, HoldsThroughThePolarNight) {
  DailyWeather w = uccle();
  w.latitude = Angle::degrees(80);
  w.day_of_year = 355;
  w.sunshine_h = 0;
  const auto p = penman_monteith(w);
  ASSERT_TRUE(p.ok());
  EXPECT_EQ(p->sun.daylight_hours, 0);
  EXPECT_EQ(p->solar_mj, 0);
  EXPECT_TRUE(std::isfinite(p->mm_per_day));
}

}  // namespace
}  // namespace rootstead
