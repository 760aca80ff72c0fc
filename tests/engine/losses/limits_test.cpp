#include <gtest/gtest.h>

#include "tests/engine/losses/zone_fixture.hpp"

namespace rootstead {
namespace {

using namespace rootstead::test;
using Measure = LimitDefinition::Measure;

Site straight_cut(double diameter, double at) {
  return SiteBuilder().tree("T1", {0, 0}, diameter).pit("W1", ground_north_of(at), 1);
}

// ---- published values ---------------------------------------------------------------------------

TEST(Limits, TheTenPercentLineOfAs4970) {
  // AS 4970-2009, 3.3.2 and 3.3.3: less than 10 % is minor, more is major; 10 % itself is ours.
  const auto major = limit(Measure::area_share, 0.10);
  const Zone zone = circle_zone({0, 0}, 6);
  const LimitResult minor_cut = checked(major, zone, straight_cut(0.5, 4.5));
  EXPECT_NEAR(minor_cut.value, 0.07215, 5e-6);
  EXPECT_FALSE(minor_cut.passed_over);
  const LimitResult major_cut = checked(major, zone, straight_cut(0.5, 3.0));
  EXPECT_NEAR(major_cut.value, 0.19550, 5e-6);
  EXPECT_TRUE(major_cut.passed_over);
}

TEST(Limits, ANarrowPitInsideTheStructuralZoneIsAnEntryHoweverSmallItsArea) {
  // AS 4970-2009, 3.3.3 and 3.3.5: D at the base 0.6 m gives 2.6704 m; the pit comes to 2.5 m.
  const Site site =
      SiteBuilder().tree("T1", {0, 0}, 0.5).pit("W1", rectangle(-0.3, 2.5, 0.3, 8.2), 1);
  EXPECT_TRUE(checked(limit(Measure::any_entry, 0), circle_zone({0, 0}, 2.6704), site).passed_over);
  const LimitResult share = checked(limit(Measure::area_share, 0.10), circle_zone({0, 0}, 6), site);
  EXPECT_LT(share.value, 0.04);
  EXPECT_FALSE(share.passed_over);
}

TEST(Limits, NewSurfacingIsAShareOfTheGroundThatIsBareToday) {
  // BS 5837:2012 7.4.2.3: 20 % of the bare part, 16.619 m2 of 83.097 m2 here, not of the whole.
  LimitDefinition surfacing = limit(Measure::unsurfaced_share, 0.20);
  surfacing.kinds = {WorkKind::paving};
  surfacing.inclusive = false;
  const auto paved = [&](double area) {
    return checked(surfacing, circle_zone({0, 0}, 6),
                   SiteBuilder()
                       .tree("T1", {0, 0}, 0.5)
                       .surface("S1", rectangle(-3, -5, 3, 0))
                       .paving("W1", rectangle(-area / 8, 0, area / 8, 4)));
  };
  EXPECT_FALSE(paved(16.61).passed_over);
  EXPECT_TRUE(paved(16.63).passed_over);
  EXPECT_NEAR(paved(16.61).value, 16.61 / 83.0973, 1e-6);
}

TEST(Limits, PortlandFailsTheHalfRadiusWhileItPassesTheQuarter) {
  // Portland 11.60: at most 25 % of the area and never nearer than half the radius; 12 in, zone
  // 12 ft. A straight cut at 6 ft takes 19.550 % and meets both, at 5 ft 24.263 % and fails one.
  constexpr double kFoot = 0.3048;
  LimitDefinition quarter = limit(Measure::area_share, 0.25);
  LimitDefinition half = limit(Measure::nearest_approach, 0.5);
  quarter.inclusive = half.inclusive = false;
  const Zone zone = circle_zone({0, 0}, 12 * kFoot);
  const Site at_six = straight_cut(kFoot, 6 * kFoot), at_five = straight_cut(kFoot, 5 * kFoot);
  EXPECT_NEAR(checked(quarter, zone, at_six).value, 0.19550, 5e-6);
  EXPECT_FALSE(checked(quarter, zone, at_six).passed_over);
  EXPECT_FALSE(checked(half, zone, at_six).passed_over);
  EXPECT_NEAR(checked(quarter, zone, at_five).value, 0.24263, 5e-6);
  EXPECT_FALSE(checked(quarter, zone, at_five).passed_over);
  EXPECT_TRUE(checked(half, zone, at_five).passed_over);
  EXPECT_NEAR(checked(half, zone, at_five).value, 5.0 / 12, 1e-9);
}

TEST(Limits, AustinKeepsHalfOfTheZone) {
  // Austin: at least 50 % of the zone undisturbed. A cut through the stem takes exactly half.
  LimitDefinition half = limit(Measure::area_share, 0.5);
  half.inclusive = false;
  const Zone zone = circle_zone({0, 0}, 6);
  EXPECT_FALSE(checked(half, zone, straight_cut(0.5, 0)).passed_over);
  EXPECT_TRUE(checked(half, zone, straight_cut(0.5, -0.01)).passed_over);
}

TEST(Limits, LeonCountyCountsTheRadius) {
  // Leon County 10-4.363: at least 75 % of the radius is protected; utilities may come to 60 %.
  LimitDefinition works = limit(Measure::nearest_approach, 0.75);
  LimitDefinition utilities = limit(Measure::nearest_approach, 0.60);
  works.inclusive = utilities.inclusive = false;
  constexpr double kFoot = 0.3048;
  const Zone zone = circle_zone({0, 0}, 20 * kFoot);
  EXPECT_FALSE(checked(works, zone, straight_cut(0.5, 15 * kFoot)).passed_over);
  EXPECT_TRUE(checked(works, zone, straight_cut(0.5, 14.9 * kFoot)).passed_over);
  EXPECT_FALSE(checked(utilities, zone, straight_cut(0.5, 12 * kFoot)).passed_over);
  EXPECT_TRUE(checked(utilities, zone, straight_cut(0.5, 11.9 * kFoot)).passed_over);
}

TEST(Limits, AustinAllowsFourInchesOfCutInsideHalfTheZone) {
  // Austin, from memory: no cut or fill over 4 in within half the zone.
  LimitDefinition level = limit(Measure::level_change, 0);
  level.depth = {4, LengthUnit::inch};
  level.within = 0.5;
  level.inclusive = false;
  const auto filled = [&](double from, double inches) {
    return checked(level, circle_zone({0, 0}, 6),
                   SiteBuilder()
                       .tree("T1", {0, 0}, 0.5)
                       .area("W1", WorkKind::fill, ground_north_of(from), inches * 0.0254));
  };
  EXPECT_FALSE(filled(2, 4).passed_over);
  EXPECT_TRUE(filled(2, 4.1).passed_over);
  EXPECT_FALSE(filled(3.01, 12).passed_over);  // outside half the radius
  EXPECT_NEAR(filled(2, 12).value, 0.3048, 1e-12);
}

// ---- what counts --------------------------------------------------------------------------------

TEST(Limits, ReachingTheThresholdCountsOnlyWhereTheRuleSaysSo) {
  LimitDefinition quarter = limit(Measure::area_share, 0.25);
  const Zone zone = outline_zone({0, 0}, rectangle(-2, -2, 2, 2), 16);
  const Site site = SiteBuilder().tree("T1", {0, 0}, 0.5).pit("W1", rectangle(1, -9, 9, 9), 1);
  EXPECT_TRUE(checked(quarter, zone, site).passed_over);
  quarter.inclusive = false;
  EXPECT_FALSE(checked(quarter, zone, site).passed_over);
}

TEST(Limits, OnlyTheKindsALimitNamesCount) {
  LimitDefinition fill_only = limit(Measure::area_share, 0.05);
  fill_only.kinds = {WorkKind::fill};
  const Site site = SiteBuilder()
                        .tree("T1", {0, 0}, 0.5)
                        .pit("W1", ground_north_of(3), 1)
                        .area("W2", WorkKind::fill, rectangle(-2, -3, 2, -2), 0.3)
                        .area("W3", WorkKind::fill, rectangle(-1, -3, 3, -2), 0.3);
  const LimitResult result = checked(fill_only, circle_zone({0, 0}, 6), site);
  EXPECT_NEAR(result.value, 5 / 113.0973, 1e-7);  // the two fills overlap: 5 m2, not 8
  EXPECT_EQ(result.works, (std::vector<std::string>{"W2", "W3"}));
}

TEST(Limits, WorksAreNamedLargestFirst) {
  const Site site = SiteBuilder()
                        .tree("T1", {0, 0}, 0.5)
                        .pit("W1", rectangle(1, 1, 2, 2), 1)
                        .pit("W2", rectangle(-4, -3, -1, -1), 1)
                        .pit("W3", rectangle(1, -3, 3, -2), 1);
  EXPECT_EQ(checked(limit(Measure::area_share, 0.1), circle_zone({0, 0}, 6), site).works,
            (std::vector<std::string>{"W2", "W3", "W1"}));
}

TEST(Limits, ExistingWorksPassNoLimit) {
  const Site site = SiteBuilder()
                        .tree("T1", {0, 0}, 0.5)
                        .pit("W1", ground_north_of(1), 1)
                        .with_work([](Work& work) { work.state = WorkState::existing; });
  for (const Measure measure :
       {Measure::area_share, Measure::any_entry, Measure::nearest_approach, Measure::trench_side,
        Measure::level_change, Measure::unsurfaced_share, Measure::nearest_distance}) {
    LimitDefinition any = limit(measure, 0.01);
    any.depth = metres(0.5);
    EXPECT_FALSE(checked(any, circle_zone({0, 0}, 6), site).passed_over) << to_text(measure);
  }
}

TEST(Limits, NothingNearPassesNoLimit) {
  const Site site = straight_cut(0.5, 100);
  for (const Measure measure :
       {Measure::area_share, Measure::any_entry, Measure::nearest_approach, Measure::trench_side,
        Measure::level_change, Measure::unsurfaced_share, Measure::nearest_distance}) {
    LimitDefinition any = limit(measure, measure == Measure::nearest_approach ? 0.5 : 0.0);
    any.depth = metres(0.5);
    const LimitResult result = checked(any, circle_zone({0, 0}, 6), site);
    EXPECT_FALSE(result.passed_over) << to_text(measure);
    EXPECT_TRUE(result.works.empty()) << to_text(measure);
  }
}

TEST(Limits, TheTrenchSideCountsWhatLiesBehindTheTrench) {
  const Site site =
      SiteBuilder().tree("T1", {0, 0}, 0.5).trench("W1", {{-50, 3.3}, {50, 3.3}}, 0.6, 1);
  EXPECT_NEAR(checked(limit(Measure::trench_side, 0.1), circle_zone({0, 0}, 6), site).value,
              0.19550, 5e-6);
}

TEST(Limits, FromBarkTheTrunkIsNotCounted) {
  LimitDefinition far_enough = limit(Measure::nearest_distance, 0);
  far_enough.depth = metres(1.0);
  far_enough.inclusive = false;
  Zone zone = circle_zone({0, 0}, 1.25);
  zone.diameter = Length::metres(0.5);
  const Site site = straight_cut(0.5, 1.2);
  EXPECT_FALSE(checked(far_enough, zone, site).passed_over);
  const LimitResult bark = checked(far_enough, zone, site, ZoneCentre::bark);
  EXPECT_TRUE(bark.passed_over);
  EXPECT_NEAR(bark.value, 0.95, 1e-9);
}

TEST(Limits, ALeastDistanceMayReachBeyondItsZone) {
  LimitDefinition far_enough = limit(Measure::nearest_distance, 0);
  far_enough.depth = metres(4.0);
  const LimitResult result = checked(far_enough, circle_zone({0, 0}, 2), straight_cut(0.5, 3));
  EXPECT_TRUE(result.passed_over);
  EXPECT_NEAR(result.value, 3, 1e-9);
}

TEST(Limits, EveryResultCarriesItsTrail) {
  LimitDefinition share = limit(Measure::area_share, 0.1);
  share.triggers = "show that the tree stays viable";
  share.from = {"as4970-2009", "3.3.3", Status::published};
  const LimitResult result = checked(share, circle_zone({0, 0}, 6), straight_cut(0.5, 3));
  EXPECT_EQ(result.figure.name, "test-rule.root-zone.limit");
  EXPECT_EQ(result.figure.from, share.from);
  EXPECT_EQ(result.figure.value, result.value);
  EXPECT_FALSE(result.figure.formula.empty());
  ASSERT_GE(result.figure.inputs.size(), 3u);
  EXPECT_EQ(result.figure.inputs[0].value, "22.111 m2");
  EXPECT_EQ(result.figure.inputs[1].value, "113.097 m2");
  EXPECT_EQ(result.triggers, share.triggers);
}

}  // namespace
}  // namespace rootstead
