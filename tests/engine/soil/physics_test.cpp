// Stress, strength, density and air: values worked from the published formulas by an independent
// script, then properties.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "engine/soil/density.hpp"
#include "engine/soil/oxygen.hpp"
#include "engine/soil/strength.hpp"
#include "engine/soil/stress.hpp"
#include "tests/support/shipped_tables.hpp"

namespace rootstead {
namespace {

const Tables& tables() {
  static const Tables shipped = test::shipped_tables();
  return shipped;
}
Length m(double v) {
  return Length::metres(v);
}
Pressure kpa(double v) {
  return Pressure::kilopascals(v);
}

TEST(Stress, BelowAPointIsThatOfBoussinesqAndFroehlich) {
  EXPECT_NEAR(point_stress(10, m(0), m(0.5)).kilopascals(), 19.099, 5e-4);
  EXPECT_NEAR(point_stress(10, m(0.5), m(0.5)).kilopascals(), 3.376, 5e-4);
  EXPECT_NEAR(point_stress(10, m(0.25), m(0.5), 6).kilopascals(), 15.646, 5e-4);
}

TEST(Stress, BelowARectangleClosedAndIntegratedAgree) {
  EXPECT_NEAR(newmark_corner(1, 2), 0.19994, 5e-6);
  // The general integral at factor 3 is Newmark's; seen through a rectangle and a circle alike: a
  // square of the same area as a circle presses nearly the same at depth.
  for (const int nu : {4, 5, 6}) {
    const double side = std::sqrt(3.14159265358979 * 0.25 * 0.25);
    EXPECT_NEAR(rectangle_stress(kpa(100), m(side), m(side), m(0.5), nu).kilopascals(),
                circle_stress(kpa(100), m(0.25), m(0.5), nu).kilopascals(), 0.7);
    // Endless load: a quarter of the pressure under each corner.
    EXPECT_NEAR(corner_influence(m(1e4), m(1e4), m(1), nu), 0.25, 1e-3);
  }
  // Many point loads over the rectangle, for factor 5.
  double sum = 0;
  constexpr int kParts = 200;
  for (int i = 0; i < kParts; ++i)
    for (int j = 0; j < kParts; ++j) {
      const double x = 0.6 * (i + 0.5) / kParts, y = 1.2 * (j + 0.5) / kParts;
      sum += point_stress(1.0 / kParts / kParts, m(std::hypot(x, y)), m(0.3), 5).kilopascals();
    }
  EXPECT_NEAR(corner_influence(m(0.6), m(1.2), m(0.3), 5), sum * 0.6 * 1.2, 1e-5);
}

TEST(Stress, UnderATyreIsThatOfTheFit) {
  const TyreContact contact = tyre_contact(160, 160, 30, m(0.6), m(1.6));
  EXPECT_NEAR(contact.greatest.kilopascals(), 34.4 + 180.8 + 21.6, 1e-9);
  EXPECT_NEAR(contact.length.metres(), 0.47 + 0.2816, 1e-9);
  EXPECT_NEAR(contact.exponent, 2.1 * 0.96 * 0.96 + 2, 1e-9);
}

TEST(Strength, IsThatOfTheFormulas) {
  EXPECT_NEAR(schjonning_strength(1.46, 0.30, 2).kilopascals(), 117.90, 5e-3);
  EXPECT_EQ(schjonning_strength(0.9, 0.30, 2), Pressure());  // bracket below zero
  EXPECT_NEAR(severiano_strength(0.25, 33).kilopascals(), 194, 0.5);
}

TEST(Strength, GoesByTheLayerWhereItIsMeasured) {
  Soil soil;
  soil.texture = SoilTexture::clay;
  const Figure assumed = strength_of(soil, m(0.15), Moisture::wet, tables());
  EXPECT_EQ(assumed.value, 35);  // very wet clay, 30 to 40
  SoilLayer layer;
  layer.bottom = {0.4, LengthUnit::metre};
  layer.bulk_density = 1.46;
  layer.clay = 0.30;
  soil.layers = {layer};
  const Figure measured = strength_of(soil, m(0.15), Moisture::wet, tables());
  EXPECT_NEAR(measured.value, schjonning_strength(1.46, 0.30, 1.8).kilopascals(), 1e-9);
  EXPECT_EQ(measured.from.status, Status::assumption);                      // the suction is ours
  EXPECT_EQ(strength_of(soil, m(0.6), Moisture::wet, tables()).value, 35);  // below the layer
}

TEST(PressRisk, ChangesAtHalfAndAtElevenTenths) {
  EXPECT_EQ(press_risk(0.5, tables()), PressRisk::none_expected);
  EXPECT_EQ(press_risk(0.51, tables()), PressRisk::risk);
  EXPECT_EQ(press_risk(1.1, tables()), PressRisk::risk);
  EXPECT_EQ(press_risk(1.11, tables()), PressRisk::damage);
}

TEST(Passes, DoMostInTheFirstFew) {
  EXPECT_NEAR(share_after_passes(1, tables()), 0.50, 0.005);
  EXPECT_NEAR(share_after_passes(3, tables()), 0.88, 0.005);
  EXPECT_EQ(share_after_passes(0, tables()), 0);
}

TEST(DensityLimits, OfOurDefaultAreTheLowerOfTwoTablesAndSayWhich) {
  const auto clay = density_limits(TextureClass::clay, tables());
  ASSERT_TRUE(clay.ok());
  EXPECT_EQ(clay->watch, 1.40);  // harris, low end
  EXPECT_EQ(clay->stop, 1.47);   // nrcs restricts, below harris 1.55
  EXPECT_NE(clay->used.find("nrcs"), std::string::npos);
  const auto silt = density_limits(TextureClass::silt, tables());
  ASSERT_TRUE(silt.ok());
  EXPECT_EQ(silt->stop, 1.45);  // harris, high end, below nrcs 1.75
  EXPECT_NE(silt->used.find("harris"), std::string::npos);
  EXPECT_EQ(silt->from.status, Status::memory);  // the weaker of the two
}

TEST(DensityLimits, OfANamedTableAreThatTable) {
  const auto limits = density_limits(TextureClass::loam, tables(), "nrcs-short");
  ASSERT_TRUE(limits.ok());
  EXPECT_EQ(limits->stop, 1.65);
  EXPECT_EQ(limits->from.status, Status::published);
  EXPECT_EQ(density_limits(TextureClass::loam, tables(), "haris").error().code, Code::unknown_name);
  EXPECT_EQ(density_limits(TextureClass::silty_clay, tables(), "coder").error().code,
            Code::missing_measurement);
}

TEST(DensityLimits, ExistForEveryClassAndRise) {
  for (int i = 0; i < 12; ++i) {
    const auto limits = density_limits(static_cast<TextureClass>(i), tables());
    ASSERT_TRUE(limits.ok()) << i;
    EXPECT_LE(limits->watch, limits->stop) << i;
  }
}

TEST(DensityReadings, StandSideBySideAndDiffer) {
  const auto readings = density_readings(1.5, TextureClass::clay, tables());
  ASSERT_EQ(readings.size(), 5u);
  EXPECT_EQ(readings[0].verdict, DensityVerdict::stopped);   // nrcs-short: from 1.47
  EXPECT_EQ(readings[2].verdict, DensityVerdict::hindered);  // harris: 1.40 to 1.55
}

TEST(Oxygen, GivesTheWorkedProfiles) {
  const double d =
      kOxygenDiffusion * relative_diffusivity(DiffusionModel::millington_1961, 0.2, 0.5);
  const auto even = [&](double z) {
    return percent_oxygen(oxygen_even(kOxygenAbove, 10, m(0.5), d, m(z)));
  };
  EXPECT_NEAR(even(0), 20.95, 1e-9);
  EXPECT_NEAR(even(0.1), 18.86, 0.01);
  EXPECT_NEAR(even(0.5), 15.14, 0.01);
  EXPECT_EQ(even(0.5), even(0.9));  // nothing is used below
  const double wet =
      kOxygenDiffusion * relative_diffusivity(DiffusionModel::millington_1961, 0.1, 0.4);
  const auto none = anoxic_depth_even(kOxygenAbove, 10, m(0.5), wet);
  ASSERT_TRUE(none);
  EXPECT_LT(none->metres(), 0.2);  // anoxic at 0.2 m
  EXPECT_EQ(oxygen_even(kOxygenAbove, 10, m(0.5), wet, m(0.2)), 0);
}

// One layer marched is the even profile; fill marched over ground is the fill formula.
TEST(Oxygen, MarchedThroughLayersAgreesWithTheClosedForms) {
  const double d = 3e-7;
  const auto profile = march(kOxygenAbove, {{m(0.2), d, 20}, {m(0.3), d, 20}});
  EXPECT_NEAR(profile.oxygen[0], oxygen_even(kOxygenAbove, 10, m(0.5), d, m(0.2)), 1e-9);
  EXPECT_NEAR(profile.oxygen[1], oxygen_even(kOxygenAbove, 10, m(0.5), d, m(0.5)), 1e-9);
  const auto filled = march(kOxygenAbove, {{m(0.3), 2e-7, 5}, {m(0.5), d, 20}});
  EXPECT_NEAR(filled.oxygen[0], oxygen_below_fill(kOxygenAbove, 10, 5, 2e-7, m(0.3)), 1e-9);
  const auto starved = march(kOxygenAbove, {{m(0.5), 6e-8, 20}});
  const auto depth = anoxic_depth_even(kOxygenAbove, 10, m(0.5), 6e-8);
  ASSERT_TRUE(starved.anoxic_depth && depth);
  EXPECT_NEAR(starved.anoxic_depth->metres(), depth->metres(), 1e-12);
}

TEST(Oxygen, OfTheThickestFillIsTheWantedOxygen) {
  const double d = 2e-7, wanted = 15 * kOxygenPerPercent;
  const Length thickest = thickest_fill(kOxygenAbove, wanted, 10, 5, d);
  EXPECT_NEAR(oxygen_below_fill(kOxygenAbove, 10, 5, d, thickest), wanted, 1e-9);
}

// ---- properties ---------------------------------------------------------------------------------

double between(double low, double high) {
  return low + (high - low) * *rc::gen::inRange(0, 10001) / 10000.0;
}

RC_GTEST_PROP(StressProperty, FallsWithDepthAndNeverExceedsThePressure, ()) {
  const int nu = *rc::gen::inRange(3, 7);
  const Length a = m(between(0.05, 3)), b = m(between(0.05, 3)), z = m(between(0.02, 2));
  const Length deeper = z + m(between(0.001, 1));
  const Pressure p = kpa(between(1, 900));
  const Pressure upper = rectangle_stress(p, a, b, z, nu),
                 lower = rectangle_stress(p, a, b, deeper, nu);
  RC_ASSERT(lower <= upper * (1 + 1e-9));
  RC_ASSERT(upper <= p * (1 + 1e-7));
  RC_ASSERT(lower >= Pressure());
  RC_ASSERT(circle_stress(p, a, deeper, nu) <= circle_stress(p, a, z, nu) * (1 + 1e-12));
  RC_ASSERT(circle_stress(p, a, z, nu) <= p);
}

RC_GTEST_PROP(OxygenProperty, FallsWithDepthAndWithThickerFill, ()) {
  const double pores = between(0.3, 0.6), air = pores * between(0.1, 1);
  const double d =
      kOxygenDiffusion * relative_diffusivity(DiffusionModel::millington_1961, air, pores);
  const double use = between(1, 20), fill_use = between(0, 50);
  const Length z = m(between(0, 1)), deeper = z + m(between(0.001, 0.5));
  const Length rooting = m(between(0.1, 1));
  RC_ASSERT(oxygen_even(kOxygenAbove, use, rooting, d, deeper) <=
            oxygen_even(kOxygenAbove, use, rooting, d, z) + 1e-9);
  RC_ASSERT(oxygen_fading(kOxygenAbove, use, rooting, d, deeper) <=
            oxygen_fading(kOxygenAbove, use, rooting, d, z) + 1e-9);
  RC_ASSERT(oxygen_below_fill(kOxygenAbove, use, fill_use, d, deeper) <=
            oxygen_below_fill(kOxygenAbove, use, fill_use, d, z) + 1e-9);
  const auto profile = march(kOxygenAbove, {{deeper, d, use}, {rooting, d, fill_use}});
  RC_ASSERT(profile.oxygen[1] <= profile.oxygen[0]);
  RC_ASSERT(profile.oxygen[0] <= kOxygenAbove);
}

RC_GTEST_PROP(PassesProperty, NeverPressLess, ()) {
  const double passes = between(0, 50);
  RC_ASSERT(share_after_passes(passes + 1, tables()) >= share_after_passes(passes, tables()));
}

}  // namespace
}  // namespace rootstead
