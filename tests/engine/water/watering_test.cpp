#include "engine/water/watering.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

#include "tests/support/shipped_tables.hpp"
#include "tests/support/site_builder.hpp"

namespace rootstead {
namespace {

const Tables& tables() {
  static const Tables shipped = test::shipped_tables();
  return shipped;
}

constexpr double kFoot = 0.3048, kInch = 0.0254;

Site oak_site() {
  Site site = test::SiteBuilder().tree("T1", {0, 0}, 0.5).site();
  site.soil.texture = SoilTexture::loam;
  site.soil.drainage = Drainage::free;
  site.climate.evapotranspiration.assign(12, 4.0);
  site.climate.source = "invented";
  return site;
}

WaterAfterLoss loss_of(double share) {
  WaterAfterLoss loss;
  loss.share_lost = {share, share, share};
  loss.root_radius = Length::metres(8);
  loss.root_depth = Length::metres(0.45);
  return loss;
}

WaterAdvice after_loss(const Site& site, const WaterAfterLoss& loss) {
  return watering_after_loss(site.trees.front(), loss, site, tables());
}

bool has_note(const WaterAdvice& advice, NoteCode code) {
  return std::any_of(advice.notes.begin(), advice.notes.end(),
                     [&](const Note& note) { return note.code == code; });
}

const Figure& figure(const WaterAdvice& advice, std::string_view name) {
  for (const Figure& one : advice.figures)
    if (one.name == name) return one;
  static const Figure none;
  ADD_FAILURE() << "no figure " << name;
  return none;
}

bool says(const WaterAdvice& advice, std::string_view words) {
  return std::any_of(
      advice.prescriptions.begin(), advice.prescriptions.end(),
      [&](const Prescription& one) { return one.text.find(words) != std::string::npos; });
}

// ---- worked by hand
// -------------------------------------------------------------------------------

TEST(AfterLoss, GivesTheWorkedCase) {
  // Available 2 in/ft, 1.5 ft deep, 10 ft round, half of it usable; 0.25 in a day on a crown of
  // 20 ft at K_L 0.6: 29.38 gal a day, 293.8 gal of store: 10.0 days; 6.5 days after 35 % of loss.
  Tables hand = test::with(tables(), "water.available.loam", 2000.0 / 12);
  hand = test::with(hand, "water.depletion_allowed", 0.5);
  hand = test::with(hand, "water.application_efficiency", 0.7);
  hand = test::with(hand, "water.species_factor.unknown", 0.6);
  hand = test::with(hand, "water.density_factor", 1);
  hand = test::with(hand, "water.microclimate_factor", 1);
  Site site = oak_site();
  site.climate.evapotranspiration.assign(12, 0.25 * 25.4);
  site.trees.front().crown = test::SiteBuilder::round_crown(10 * kFoot);
  WaterAfterLoss loss = loss_of(0.35);
  loss.root_radius = Length::metres(10 * kFoot);
  loss.root_depth = Length::metres(1.5 * kFoot);
  const auto advice = watering_after_loss(site.trees.front(), loss, site, hand);
  ASSERT_TRUE(advice.amounts);
  EXPECT_NEAR(figure(advice, "water.demand").value / kLitresPerGallon, 29.38, 0.005);
  EXPECT_NEAR(figure(advice, "water.reservoir").value / kLitresPerGallon, 587.5 * 0.65, 0.1);
  EXPECT_NEAR(advice.amounts->days_between.best, 6.5, 0.005);
  EXPECT_NEAR(advice.amounts->litres_per_week.best / kLitresPerGallon, 7 * 41.97, 0.05);
}

TEST(AfterLoss, GivesNoRoundWhereTheGroundHoldsForWeeks) {
  const auto first = [](double root_radius) {
    const Site site = oak_site();
    WaterAfterLoss loss = loss_of(0.35);
    loss.root_radius = Length::metres(root_radius);
    const auto advice = watering_after_loss(site.trees.front(), loss, site, tables());
    EXPECT_TRUE(advice.amounts);
    return std::pair{advice.amounts->days_between.best, advice.prescriptions.front().text};
  };
  const double longest = tables().parameter("water.longest_round").best;
  bool some_short = false, some_long = false;
  for (const double radius : {1.0, 2.0, 4.0, 8.0, 16.0, 32.0}) {
    const auto [days, text] = first(radius);
    const bool is_long = days > longest;
    (is_long ? some_long : some_short) = true;
    EXPECT_EQ(text.find("in portions of") == std::string::npos, is_long) << days << ": " << text;
    EXPECT_EQ(text.find("as long without rain") != std::string::npos, is_long) << text;
  }
  EXPECT_TRUE(some_short && some_long);
}

TEST(AfterMove, GivesTwoToThreeGallonsAnInch) {  // University of Florida: 3 in, 6 to 9 gal
  const auto litres =
      litres_per_calliper(Length::metres(3 * kInch), GrowthForm::broadleaf, false, tables());
  ASSERT_TRUE(litres.ok());
  EXPECT_NEAR(litres->low, 22.7, 0.05);
  EXPECT_NEAR(litres->high, 34.1, 0.05);
}

TEST(Ball, HoldsTheWorkedCase) {  // a cone of 36 in, 21.6 in deep, at 2 in/ft: 10.4 gal
  const double litres =
      ball_water_litres(Length::metres(36 * kInch), Length::metres(21.6 * kInch), 0.6, 2000.0 / 12);
  EXPECT_NEAR(litres / kLitresPerGallon, 10.4, 0.05);
}

// ---- palms
// ----------------------------------------------------------------------------------------

TEST(Palms, HaveNoGallonsAnInch) {
  for (const GrowthForm form : {GrowthForm::palm, GrowthForm::other_monocot}) {
    const auto young = litres_per_calliper(Length::metres(0.3), form, false, tables());
    ASSERT_FALSE(young.ok());
    EXPECT_EQ(young.error().code, Code::outside_rule_domain);
    EXPECT_NE(young.error().sentence().find("palm"), std::string::npos);
    EXPECT_FALSE(litres_per_stem_week(Length::metres(0.3), form, tables()).ok());
  }
}

Site palm_site() {
  Site site = test::SiteBuilder().palm("P1", {0, 0}).site();
  site.soil.texture = SoilTexture::sand;
  return site;
}

WaterAfterMove small_ball() {
  WaterAfterMove move;
  move.ball_diameter = Length::metres(0.9);
  move.ball_depth = Length::metres(0.6);
  return move;
}

TEST(Palms, AreWateredTheSameWhateverTheirStem) {
  Site thin = palm_site(), thick = palm_site(), none = palm_site();
  thick.trees.front().stems.front().size = test::metres(0.9);
  none.trees.front().stems.clear();
  for (const Site& site : {thick, none}) {
    const auto a = watering_after_move(thin.trees.front(), small_ball(), thin, tables());
    const auto b = watering_after_move(site.trees.front(), small_ball(), site, tables());
    ASSERT_TRUE(a.amounts && b.amounts);
    EXPECT_EQ(a.amounts->litres_per_event, b.amounts->litres_per_event);
    EXPECT_EQ(a.amounts->days_between, b.amounts->days_between);
    EXPECT_TRUE(has_note(b, NoteCode::water_no_stem_rule));
    const auto c = after_loss(thin, loss_of(0.3)), d = after_loss(site, loss_of(0.3));
    EXPECT_EQ(c.amounts->litres_per_week, d.amounts->litres_per_week);
    for (const Figure& one : d.figures) EXPECT_NE(one.name, "water.practice-week");
  }
}

TEST(Palms, KnownByTheirSpeciesAloneHaveNoStemRuleEither) {
  Site site = palm_site();
  site.trees.front().form = GrowthForm::unknown;
  site.trees.front().botanical_name = "Roystonea regia";
  const auto advice = watering_after_move(site.trees.front(), small_ball(), site, tables());
  EXPECT_TRUE(has_note(advice, NoteCode::water_no_stem_rule));
  EXPECT_TRUE(says(advice, "never soggy"));
}

TEST(Palms, WithoutACrownGetTheBallAndNoAmounts) {
  Site site = palm_site();
  site.trees.front().crown.reset();
  const auto advice = watering_after_move(site.trees.front(), small_ball(), site, tables());
  EXPECT_FALSE(advice.amounts);
  EXPECT_TRUE(has_note(advice, NoteCode::water_crown_missing));
  EXPECT_GT(figure(advice, "water.reservoir").value, 0);
  EXPECT_FALSE(advice.prescriptions.empty());
  EXPECT_FALSE(after_loss(site, loss_of(0.3)).amounts);
}

// ---- schedules
// ------------------------------------------------------------------------------------

TEST(AfterMove, FollowsThePublishedScheduleByTrunk) {
  Site site = oak_site();
  site.trees.front().stems.front().size = {2, LengthUnit::inch};
  const auto small = watering_after_move(site.trees.front(), small_ball(), site, tables());
  ASSERT_EQ(small.stages.size(), 3u);
  EXPECT_EQ(small.stages[0].days_between, 1);
  EXPECT_EQ(small.stages[0].weeks_to->best, 2);
  EXPECT_EQ(small.stages[1].days_between, 2);
  EXPECT_EQ(small.stages[2].days_between, 7);
  EXPECT_FALSE(small.stages[2].weeks_to);
  site.trees.front().stems.front().size = {4, LengthUnit::inch};
  const auto large = watering_after_move(site.trees.front(), small_ball(), site, tables());
  ASSERT_EQ(large.stages.size(), 2u);
  EXPECT_EQ(large.stages[0].days_between, 2);
  EXPECT_NEAR(large.stages[0].weeks_to->high, 5 * 365.25 / 84, 1e-9);
  EXPECT_TRUE(says(large, "every other day"));
}

TEST(AfterMove, GivesLessWhereItIsCool) {
  Site site = oak_site();
  site.trees.front().stems.front().size = {3, LengthUnit::inch};
  const auto warm = watering_after_move(site.trees.front(), small_ball(), site, tables());
  site.climate.hardiness_zone = 5;
  const auto cool = watering_after_move(site.trees.front(), small_ball(), site, tables());
  EXPECT_LT(cool.amounts->litres_per_event.best, warm.amounts->litres_per_event.best);
}

TEST(AfterMove, SaysWhereTheBallCannotHoldADay) {
  Site site = oak_site();  // a crown of 5 m on a ball of 0.9 m
  const auto advice = watering_after_move(site.trees.front(), small_ball(), site, tables());
  EXPECT_TRUE(has_note(advice, NoteCode::water_not_held));
  EXPECT_LT(figure(advice, "water.ball-lasts").value, 1);
}

// ---- care
// -----------------------------------------------------------------------------------------

TEST(Care, WarnsOfDrowningOnlyInHeavyGround) {
  Site site = oak_site();
  EXPECT_FALSE(says(after_loss(site, loss_of(0.3)), "Do not drown"));
  site.soil.drainage = Drainage::poor;
  EXPECT_TRUE(says(after_loss(site, loss_of(0.3)), "Do not drown"));
  site.soil.drainage = Drainage::free;
  site.soil.texture = SoilTexture::clay;
  EXPECT_TRUE(says(after_loss(site, loss_of(0.3)), "Do not drown"));
  EXPECT_TRUE(
      says(watering_after_move(site.trees.front(), small_ball(), site, tables()), "Do not drown"));
}

TEST(Care, SaysNothingIsNeededWhereNothingWasLost) {
  const auto advice = after_loss(oak_site(), loss_of(0));
  EXPECT_FALSE(advice.amounts);
  EXPECT_TRUE(advice.prescriptions.empty());
  EXPECT_TRUE(has_note(advice, NoteCode::water_not_needed));
}

TEST(Words, KeepToOneSystemOfUnits) {
  Site site = oak_site();
  const auto metric = after_loss(site, loss_of(0.4));
  site.settings.units = UnitSystem::us_customary;
  const auto us = after_loss(site, loss_of(0.4));
  for (const Prescription& one : metric.prescriptions) {
    EXPECT_EQ(one.text.find(" gal"), std::string::npos) << one.text;
    EXPECT_EQ(one.text.find(" ft"), std::string::npos) << one.text;
  }
  EXPECT_TRUE(says(us, " gal a week"));
  for (const Prescription& one : us.prescriptions)
    EXPECT_EQ(one.text.find(" mm"), std::string::npos) << one.text;
}

TEST(Statuses, AreNeverBetterThanWhatTheyRestOn) {
  const auto advice = after_loss(oak_site(), loss_of(0.4));
  EXPECT_EQ(figure(advice, "water.week").from.status, Status::assumption);
  EXPECT_EQ(figure(advice, "water.practice-week").from.status, Status::common_practice);
  for (const Figure& one : advice.figures) {
    EXPECT_NE(tables().source(one.from.source), nullptr) << one.name;
    EXPECT_FALSE(one.formula.empty()) << one.name;
    ASSERT_TRUE(one.range) << one.name;
    EXPECT_LE(one.range->low, one.range->best) << one.name;
    EXPECT_LE(one.range->best, one.range->high) << one.name;
  }
  for (const Prescription& one : advice.prescriptions) {
    EXPECT_EQ(one.topic, "irrigation");
    EXPECT_EQ(one.tree, "T1");
    EXPECT_NE(tables().source(one.from.source), nullptr) << one.text;
    EXPECT_TRUE(one.text.ends_with('.')) << one.text;
    EXPECT_EQ(one.text.find("safe"), std::string::npos) << one.text;
  }
}

TEST(ClimateOfTheSite, IsAssumedWithANoteWhereItIsNotNamed) {
  Site site = oak_site();
  EXPECT_FALSE(has_note(after_loss(site, loss_of(0.4)), NoteCode::water_demand_assumed));
  const auto known = after_loss(site, loss_of(0.4)).amounts->litres_per_week;
  site.climate = {};
  const auto advice = after_loss(site, loss_of(0.4));
  EXPECT_TRUE(has_note(advice, NoteCode::water_demand_assumed));
  const auto& guessed = advice.amounts->litres_per_week;
  EXPECT_LT(guessed.low, known.low);
  EXPECT_GT(guessed.high, known.high);
}

TEST(Ground, IsNoDeeperThanRockOrWater) {
  Site site = oak_site();
  WaterAfterLoss loss = loss_of(0.4);
  loss.root_depth = Length::metres(0.9);
  const double deep = after_loss(site, loss).amounts->days_between.best;
  site.soil.water_table = test::metres(0.3);
  EXPECT_NEAR(after_loss(site, loss).amounts->days_between.best, deep / 3, 1e-9);
}

// ---- what must hold always
// ------------------------------------------------------------------------

double between(double low, double high) {
  return low + (high - low) * *rc::gen::inRange(0, 10001) / 10000.0;
}

Site any_site() {
  Site site = test::SiteBuilder().tree("T1", {0, 0}, between(0.1, 1.2)).site();
  site.soil.texture = *rc::gen::element(SoilTexture::unknown, SoilTexture::sand, SoilTexture::loam,
                                        SoilTexture::silt, SoilTexture::clay);
  site.climate.evapotranspiration.assign(12, between(0.2, 9));
  return site;
}

WaterAfterLoss any_loss() {
  WaterAfterLoss loss;
  const double low = between(0.03, 0.6);
  loss.share_lost = {low, low + between(0, 0.1), low + 0.1 + between(0, 0.2)};
  loss.root_radius = Length::metres(between(1, 20));
  return loss;
}

bool no_more(const Range& a, const Range& b) {
  const double room = 1 + 1e-12;
  return a.low <= b.low * room && a.best <= b.best * room && a.high <= b.high * room;
}

// The demand of the crown stays; the store shrinks: the same water a week, in smaller portions,
// more often.
RC_GTEST_PROP(MoreRootLossAlways, LeavesTheWeekAndShortensTheInterval, ()) {
  const Site site = any_site();
  const WaterAfterLoss less = any_loss();
  WaterAfterLoss more = less;
  const double by = between(0, 0.09);
  for (double* end : {&more.share_lost.low, &more.share_lost.best, &more.share_lost.high})
    *end += by;
  const auto a = after_loss(site, less).amounts, b = after_loss(site, more).amounts;
  RC_ASSERT(a && b);
  RC_ASSERT(b->litres_per_week == a->litres_per_week);
  RC_ASSERT(no_more(b->days_between, a->days_between));
  RC_ASSERT(no_more(b->litres_per_event, a->litres_per_event));
}

RC_GTEST_PROP(MoreEvapotranspirationAlways, NeverAsksForLess, ()) {
  Site site = any_site();
  const WaterAfterLoss loss = any_loss();
  const auto a = after_loss(site, loss).amounts;
  for (double& month : site.climate.evapotranspiration) month += between(0, 5);
  const auto b = after_loss(site, loss).amounts;
  RC_ASSERT(a && b);
  RC_ASSERT(no_more(a->litres_per_week, b->litres_per_week));
  RC_ASSERT(no_more(b->days_between, a->days_between));
  RC_ASSERT(b->litres_per_event == a->litres_per_event);  // the store is what it is
}

RC_GTEST_PROP(AmountsAlways, AgreeWithEachOther, ()) {
  const auto advice = after_loss(any_site(), any_loss());
  const WaterAmounts& a = advice.amounts.value();
  const double week = a.litres_per_event.best / a.days_between.best * 7;
  RC_ASSERT(std::abs(week - a.litres_per_week.best) <= 1e-9 * a.litres_per_week.best);
  RC_ASSERT(a.litres_per_week.low <= a.litres_per_week.best);
  RC_ASSERT(a.litres_per_week.best <= a.litres_per_week.high);
}

RC_GTEST_PROP(AWiderCrownAlways, DrinksMore, ()) {
  Site site = any_site();
  const WaterAfterLoss loss = any_loss();
  const auto a = after_loss(site, loss).amounts;
  for (EnteredLength& radius : site.trees.front().crown->radius) radius.value *= 1.1;
  const auto b = after_loss(site, loss).amounts;
  RC_ASSERT(a->litres_per_week.best < b->litres_per_week.best);
}

RC_GTEST_PROP(AfterMoveAlways, AThickerTrunkIsGivenMoreAtATime, ()) {
  Site site = any_site();
  Stem& stem = site.trees.front().stems.front();
  stem.size = {between(0.5, 12), LengthUnit::inch};
  const auto a = watering_after_move(site.trees.front(), small_ball(), site, tables());
  stem.size.value *= 1 + between(0.01, 1);
  const auto b = watering_after_move(site.trees.front(), small_ball(), site, tables());
  RC_ASSERT(a.amounts->litres_per_event.best < b.amounts->litres_per_event.best);
}

TEST(WholeLoss, LeavesNoStoreAndNoNonsense) {
  const auto advice = after_loss(oak_site(), loss_of(1));
  ASSERT_TRUE(advice.amounts);
  EXPECT_EQ(advice.amounts->days_between.best, 0);
  EXPECT_FALSE(advice.amounts->rain_mm_per_week);
  EXPECT_TRUE(has_note(advice, NoteCode::water_not_held));
  for (const Prescription& one : advice.prescriptions) {
    EXPECT_EQ(one.text.find("nan"), std::string::npos) << one.text;
    EXPECT_EQ(one.text.find("inf"), std::string::npos) << one.text;
  }
}

}  // namespace
}  // namespace rootstead
