#include "engine/water/soil_water.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "engine/water/crown_demand.hpp"
#include "tests/support/shipped_tables.hpp"
#include "tests/support/site_builder.hpp"

namespace rootstead {
namespace {

const Tables& tables() {
  static const Tables shipped = test::shipped_tables();
  return shipped;
}

constexpr double kInchPerFoot = 1000.0 / 12;  // mm/m

void expect_row(std::string_view texture, double low, double high) {
  const auto row = available_water(texture, tables());
  ASSERT_TRUE(row) << texture;
  EXPECT_NEAR(row->mm_per_m.low, low * kInchPerFoot, 0.05) << texture;
  EXPECT_NEAR(row->mm_per_m.high, high * kInchPerFoot, 0.05) << texture;
  EXPECT_EQ(row->from.status, Status::published) << texture;
}

TEST(AvailableWater, HoldsTheRowsOfThePublishedTable) {  // University of California, in/ft
  expect_row("very coarse sand", 0.40, 0.75);
  expect_row("loamy sand", 0.75, 1.25);
  expect_row("Fine_Sandy_Loam", 1.25, 1.75);
  expect_row("silt loam", 1.50, 2.30);
  expect_row("sandy clay loam", 1.75, 2.50);
  expect_row("silty-clay", 1.60, 2.50);
}

TEST(AvailableWater, DoesNotPassAGuessForARow) {
  EXPECT_EQ(available_water(SoilTexture::silt, tables()).from.status, Status::assumption);
  EXPECT_EQ(available_water(SoilTexture::unknown, tables()).from.status, Status::assumption);
  EXPECT_EQ(available_water(SoilTexture::clay, tables()).from.status, Status::published);
  EXPECT_FALSE(available_water("peat", tables()));
  EXPECT_FALSE(available_water("", tables()));
}

TEST(AvailableWater, NamesTexturesThatAreAllFound) {
  for (const std::string& name : available_water_textures())
    EXPECT_TRUE(available_water(name, tables())) << name;
}

SoilLayer layer(double bottom, SoilTexture texture) {
  SoilLayer one;
  one.bottom = test::metres(bottom);
  one.texture = texture;
  return one;
}

TEST(AvailableWaterOfAProfile, IsLaidTogetherByThickness) {
  Soil soil;
  soil.layers = {layer(0.3, SoilTexture::sand), layer(0.9, SoilTexture::clay)};
  const double sand = available_water(SoilTexture::sand, tables()).mm_per_m.best;
  const double clay = available_water(SoilTexture::clay, tables()).mm_per_m.best;
  const auto half_metre = available_water(soil, Length::metres(0.6), tables());
  EXPECT_NEAR(half_metre.mm_per_m.best, (sand + clay) / 2, 1e-9);
  EXPECT_EQ(half_metre.texture, "sand, then clay");
  const auto top = available_water(soil, Length::metres(0.2), tables());
  EXPECT_EQ(top.texture, "sand");
  EXPECT_NEAR(top.mm_per_m.best, sand, 1e-9);
  // Below the last layer the texture of the site is taken: not known here.
  const auto deep = available_water(soil, Length::metres(1.8), tables());
  EXPECT_EQ(deep.from.status, Status::assumption);
}

TEST(SaxtonRawls, GivesThePublishedCheck) {
  // Sand 20 %, clay 20 %, organic matter 2.5 %: a published program's test holds .137, .321, .482.
  const auto w = saxton_rawls(0.2, 0.2, 0.025);
  ASSERT_TRUE(w.ok());
  EXPECT_NEAR(w->wilting, 0.137, 0.0005);
  EXPECT_NEAR(w->field_capacity, 0.321, 0.0005);
  EXPECT_NEAR(w->saturation, 0.482, 0.0005);
}

TEST(SaxtonRawls, RefusesWhatIsNoSoilOrOutsideItsDomain) {
  EXPECT_EQ(saxton_rawls(20, 20, 2.5).error().code, Code::value_invalid);
  EXPECT_EQ(saxton_rawls(0.7, 0.5, 0.02).error().code, Code::value_invalid);
  EXPECT_EQ(saxton_rawls(0.2, 0.65, 0.02).error().code, Code::outside_rule_domain);
  EXPECT_EQ(saxton_rawls(0.2, 0.2, 0.12).error().code, Code::outside_rule_domain);
}

TEST(AvailableWaterOfAProfile, GoesByParticlesWhereTheyAreKnown) {
  Soil soil;
  SoilLayer one = layer(1, SoilTexture::loam);
  one.sand = one.clay = 0.2;
  one.organic_matter = 0.025;
  soil.layers = {one};
  const auto w = available_water(soil, Length::metres(1), tables());
  EXPECT_NEAR(w.mm_per_m.best, 184.3, 0.3);  // 1000 (.32088 - .13654), by hand
  EXPECT_LT(w.mm_per_m.low, w.mm_per_m.best);
}

TEST(Depletion, GivesTheWorkedCases) {  // p of .50 at 7 and 3 mm a day
  EXPECT_NEAR(depletion_share(0.50, 7), 0.42, 1e-12);
  EXPECT_NEAR(depletion_share(0.50, 3), 0.58, 1e-12);
  EXPECT_EQ(depletion_share(0.70, 0), 0.8);
  EXPECT_EQ(depletion_share(0.15, 12), 0.1);
}

TEST(TotalAvailable, GivesTheWorkedCase) {  // .25, .12, 1 m: 130 mm, of which 65 readily
  EXPECT_NEAR(total_available_mm(0.25, 0.12, 1), 130, 1e-9);
  EXPECT_EQ(stress_factor(65, 130, 0.5), 1);
  EXPECT_NEAR(stress_factor(97.5, 130, 0.5), 0.5, 1e-12);
  EXPECT_EQ(stress_factor(130, 130, 0.5), 0);
  EXPECT_EQ(stress_factor(200, 130, 0.5), 0);
  EXPECT_EQ(stress_factor(0, 130, 0.5), 1);
}

TEST(CropRows, HoldTheRowsOfTablesTwelveAndTwentyTwo) {  // FAO-56
  const auto rows = crop_rows(tables());
  const auto row = [&](std::string_view name) {
    for (const CropRow& one : rows)
      if (one.name == name) return one;
    ADD_FAILURE() << name;
    return CropRow{};
  };
  EXPECT_EQ(row("conifers").depletion, 0.70);
  EXPECT_EQ(row("conifers").kc_middle, 1.0);
  EXPECT_EQ(row("palm trees").root_depth_m.low, 0.7);
  EXPECT_EQ(row("palm trees").kc_initial, 0.95);
  EXPECT_EQ(row("date palm").root_depth_m.high, 2.5);
  EXPECT_EQ(row("apples").kc_initial, 0.45);
  EXPECT_EQ(row("apples with cover").kc_middle, 1.20);
  EXPECT_EQ(row("walnut").kc_end, 0.65);
  EXPECT_FALSE(row("avocado").kc_initial);  // no row of Table 12 was read
  EXPECT_EQ(row("olive").depletion, 0.65);
  for (const CropRow& one : rows) EXPECT_EQ(one.from.status, Status::published) << one.name;
}

TEST(CrownDemand, GivesLindseyAndBassuksCase) {  // crown 6.1 m, index 4, pan 6 mm: 140 L
  const Area crown = circle_area(Length::metres(3.05));
  EXPECT_NEAR(lindsey_bassuk_litres(crown, 4, 6), 140, 0.5);
}

TEST(ReferenceDemand, IsThatOfTheMonthElseOfTheThirstiestElseAssumed) {
  Climate climate;
  EXPECT_TRUE(reference_demand(climate, 7, tables()).assumed);
  EXPECT_EQ(reference_demand(climate, 7, tables()).from.status, Status::assumption);
  climate.evapotranspiration = {0.5, 1, 1.5, 2.2, 3, 3.4, 3.5, 3.1, 2, 1.1, 0.6, 0.4};
  EXPECT_EQ(reference_demand(climate, 4, tables()).mm_per_day.best, 2.2);
  EXPECT_EQ(reference_demand(climate, {}, tables()).mm_per_day.best, 3.5);
  EXPECT_TRUE(reference_demand(climate, {}, tables()).what.starts_with("July"));
}

TEST(LandscapeCoefficient, MultipliesItsFactorsAndKeepsTheWeakestStatus) {
  const auto k = landscape_coefficient(SpeciesWater::moderate, tables());
  EXPECT_NEAR(k.product.low, 0.4 * 1.0 * 1.0, 1e-12);
  EXPECT_NEAR(k.product.high, 0.6 * 1.2 * 1.3, 1e-12);
  EXPECT_EQ(k.from.status, Status::memory);
  EXPECT_EQ(landscape_coefficient(SpeciesWater::unknown, tables()).from.status, Status::assumption);
}

double between(double low, double high) {
  return low + (high - low) * *rc::gen::inRange(0, 10001) / 10000.0;
}

RC_GTEST_PROP(SaxtonRawlsAlways, HoldsMoreWetThanDry, ()) {
  const double clay = between(0.05, 0.55);
  const double sand = between(0.05, 0.95) * (1 - clay);
  const auto w = saxton_rawls(sand, clay, between(0.005, 0.06));
  RC_ASSERT(w.ok());
  RC_ASSERT(w->wilting < w->field_capacity);
  RC_ASSERT(w->field_capacity < w->saturation);
}

RC_GTEST_PROP(StressAlways, GrowsWithDepletion, ()) {
  const double total = between(10, 300), share = between(0.1, 0.8);
  const double less = between(0, 300), more = less + between(0, 100);
  RC_ASSERT(stress_factor(more, total, share) <= stress_factor(less, total, share));
}

}  // namespace
}  // namespace rootstead
