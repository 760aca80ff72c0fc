// Balls, weights and recovery beside the values that are printed or computed by hand.
#include "engine/transplant/ball.hpp"

#include <gtest/gtest.h>

#include "engine/transplant/recovery.hpp"
#include "engine/transplant/weights.hpp"
#include "tests/engine/transplant/transplant_support.hpp"

namespace rootstead {
namespace {

using test::kFoot;
using test::kInch;
using test::kPound;
using test::tables;

Length inches(double value) {
  return Length::metres(value * kInch);
}
Length feet(double value) {
  return Length::metres(value * kFoot);
}
Density pounds_per_cubic_foot(double value) {
  return Density::kilograms_per_cubic_metre(value * kPound / (kFoot * kFoot * kFoot));
}
double in_inches(const Figure& figure) {
  return figure.value / kInch;
}
double in_pounds(const Figure& figure) {
  return figure.value / kPound;
}

double table_ball(const char* table, Length size, bool collected = false) {
  const auto ball = ball_diameter(table, size, collected);
  EXPECT_TRUE(ball.ok());
  return ball.ok() ? in_inches(*ball) : 0;
}

TEST(Ball, IsThatOfTheNamedTable) {
  // ANSI Z60.1, recalled: 2 in 24 in, 3 in 32 in, 4 in 42 in, 8 in 80 in.
  EXPECT_NEAR(table_ball("ansi-z60-shade", inches(2)), 24, 1e-9);
  EXPECT_NEAR(table_ball("ansi-z60-shade", inches(3)), 32, 1e-9);
  EXPECT_NEAR(table_ball("ansi-z60-shade", inches(8)), 80, 1e-9);
  // The simplified public table: 3 in 31 in.
  EXPECT_NEAR(table_ball("simple", inches(3)), 31, 1e-9);
  // A nursery's conifers: 7 to 8 ft, 32 in.
  EXPECT_NEAR(table_ball("nursery-conifer", feet(7.5)), 32, 1e-9);
  EXPECT_EQ(ball_diameter("ansi-z60-shade", inches(3), false)->from.status, Status::memory);
  EXPECT_EQ(ball_diameter("simple", inches(3), false)->from.status, Status::published);
}

TEST(Ball, OfCollectedStockIsOneSizeLarger) {
  EXPECT_NEAR(table_ball("ansi-z60-shade", inches(2), true), 28, 1e-9);
}

TEST(Ball, IsRefusedWhereTheTableEnds) {
  const auto ball = ball_diameter("ansi-z60-shade", inches(8.1), false);
  ASSERT_FALSE(ball.ok());
  EXPECT_EQ(ball.error().code, Code::outside_rule_domain);
  EXPECT_NE(ball.error().sentence().find("specialist"), std::string::npos);
  EXPECT_FALSE(ball_diameter("ansi-z60-shade", inches(8), true).ok());
  EXPECT_EQ(ball_diameter("home-made", inches(2), false).error().code, Code::unknown_name);
}

TEST(Ball, HasALeastDepth) {
  // 18, 24, 36 in: 13.5, 15.8, 21.6 in (uf-ball-depth).
  EXPECT_NEAR(in_inches(ball_depth(inches(18), tables())), 13.5, 0.05);
  EXPECT_NEAR(in_inches(ball_depth(inches(24), tables())), 15.8, 0.05);
  EXPECT_NEAR(in_inches(ball_depth(inches(36), tables())), 21.6, 0.05);
  EXPECT_EQ(ball_depth(inches(36), tables()).from.status, Status::published);
  EXPECT_EQ(ball_depth(inches(60), tables()).from.status, Status::assumption);
}

TEST(BallWeight, IsThatOfACutCone) {
  // By hand: V = pi h / 3 (R2 + R r + r2), r = 0.6 R, 110 lb/ft3.
  const std::pair<double, double> expected[] = {{24, 298},  {32, 642},  {36, 914},
                                                {42, 1452}, {48, 2167}, {60, 4233}};
  for (const auto& [diameter, pounds] : expected) {
    const Length d = inches(diameter);
    const Length h = Length::metres(ball_depth(d, tables()).value);
    const Figure weight = ball_weight_cone(d, h, pounds_per_cubic_foot(110), tables());
    EXPECT_NEAR(in_pounds(weight), pounds, 0.6) << diameter;
    const Figure spread = ball_weight_cone(d, h, {}, tables());
    EXPECT_NEAR(in_pounds(spread), pounds, 0.6) << diameter;
    EXPECT_NEAR(spread.range->high / spread.range->low, 125.0 / 95, 1e-3);
  }
}

TEST(BallWeight, IsThatOfTheShortRule) {
  const std::pair<double, double> expected[] = {{24, 387}, {28, 615}, {32, 834}, {36, 1188}};
  for (const auto& [diameter, pounds] : expected) {
    const Length d = inches(diameter);
    const Length h = Length::metres(ball_depth(d, tables()).value);
    EXPECT_NEAR(in_pounds(ball_weight_short_rule(d, h, pounds_per_cubic_foot(110), tables())),
                pounds, 0.6);
  }
}

TEST(BallWeight, IsAlsoThatOfTheSoilsATreeMoverPrints) {
  const Length d = inches(36), h = inches(21.6);
  const Figure weight = ball_weight_practice(d, h, tables());
  EXPECT_NEAR(weight.range->high,
              ball_weight_cone(d, h, Density::kilograms_per_cubic_metre(2000), tables()).value,
              1e-9);
  EXPECT_NEAR(weight.range->low / weight.range->high, 0.65, 1e-9);
}

TEST(BallWeight, HasPublishedOnesBeside) {
  EXPECT_NEAR(in_pounds(*ball_weight_published(inches(36))), 1150, 1e-6);
  EXPECT_NEAR(ball_weight_published(inches(32))->range->high / kPound, 750, 1e-6);
  EXPECT_FALSE(ball_weight_published(inches(20)));
  EXPECT_FALSE(ball_weight_published(inches(41)));
}

TEST(PalmWeights, AreThoseOfCylinders) {
  // 36 in across, 12 and 24 in deep, 110 lb/ft3: 778 and 1555 lb. Trunks of 60 lb/ft3.
  const Density moist = pounds_per_cubic_foot(110), trunk = pounds_per_cubic_foot(60);
  EXPECT_NEAR(in_pounds(ball_weight_cylinder(inches(36), inches(12), moist, tables())), 778, 0.6);
  EXPECT_NEAR(in_pounds(ball_weight_cylinder(inches(36), inches(24), moist, tables())), 1555, 0.6);
  EXPECT_NEAR(in_pounds(palm_trunk_weight(inches(12), feet(20), trunk, tables())), 942, 0.6);
  EXPECT_NEAR(in_pounds(palm_trunk_weight(inches(20), feet(20), trunk, tables())), 2618, 0.6);
}

TEST(StemWeight, IsThatOfACutCone) {
  EXPECT_NEAR(in_pounds(stem_weight(inches(16), inches(8), feet(25), pounds_per_cubic_foot(60),
                                    false, tables())),
              1222, 0.6);
}

TEST(LiftingGear, TakesTheHighEnd) {
  const Figure load = lifting_load(Mass::kilograms(1000), tables());
  EXPECT_EQ(load.range->low, 1250);
  EXPECT_EQ(load.range->high, 1500);
  EXPECT_EQ(sling_strength(Mass::kilograms(1500), tables()).value, 7500);
}

TEST(Recovery, GoesByZoneAndCalliper) {
  // 4 in: 12, 24, 48 months in zones 9 to 11, 7 to 8, 2 to 6 (uf-establishment).
  const Range calliper{4 * kInch, 4 * kInch, 4 * kInch};
  EXPECT_NEAR(establishment(calliper, 10, tables())->value, 12, 1e-9);
  EXPECT_NEAR(establishment(calliper, 8, tables())->value, 24, 1e-9);
  EXPECT_NEAR(establishment(calliper, 5, tables())->value, 48, 1e-9);
  EXPECT_FALSE(establishment(calliper, 12, tables()).ok());
}

TEST(CalliperOfATree, IsMeasuredLowOrStretched) {
  const Tree low = test::nursery_tree("Acer rubrum", GrowthForm::broadleaf, 0.08, 4);
  EXPECT_TRUE(calliper_of(low, tables())->measured);
  EXPECT_EQ(calliper_of(low, tables())->metres, (Range{0.08, 0.08, 0.08}));
  const auto high = calliper_of(test::oak_from_seed(0.1, 6), tables());
  EXPECT_FALSE(high->measured);
  EXPECT_LT(high->metres.low, high->metres.high);
  EXPECT_EQ(high->figure.from.status, Status::assumption);
}

TEST(CalliperOfATree, IsRefusedForPalms) {
  const auto refused = calliper_of(test::grown_palm("Phoenix canariensis", 0.6, 9), tables());
  ASSERT_FALSE(refused.ok());
  EXPECT_NE(refused.error().sentence().find("does not follow calliper"), std::string::npos);
  // A palm that the survey calls a broadleaf is still one.
  Tree mistaken = test::nursery_tree("Sabal palmetto", GrowthForm::broadleaf, 0.3, 6);
  EXPECT_FALSE(calliper_of(mistaken, tables()).ok());
}

}  // namespace
}  // namespace rootstead
