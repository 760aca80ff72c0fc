// Two states of one project: what moved, who is better or worse off, which limits are newly passed.
#include "engine/revisions/compare.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "engine/geom/measure.hpp"
#include "tests/support/loaded_tables.hpp"
#include "tests/support/site_builder.hpp"

namespace rootstead {
namespace {

using namespace rootstead::test;

struct Stood {
  Site site;
  Assessment assessment;
  ProjectState state() const { return {&site, &assessment}; }
};

Stood stood(Site site, int draws = 60) {
  if (site.settings.rules.empty()) site.settings.rules = {"bs5837-2012"};
  AssessOptions options;
  options.simulation = {3, draws};
  options.threads = 2;
  auto assessed = assess(site, loaded_tables(), options);
  EXPECT_TRUE(assessed) << (assessed ? "" : assessed.error().sentence());
  return {std::move(site), std::move(assessed).value()};
}

// A trench north of one tree, `away` metres off; another tree far from everything.
SiteBuilder trench_at(double away) {
  return SiteBuilder()
      .tree("T1", {0, 0}, 0.5)
      .tree("T2", {200, 0}, 0.5)
      .trench("W1", {{-20, away}, {20, away}}, 0.6, 1.2);
}

const ThingChange* thing(const Comparison& comparison, const std::string& id) {
  for (const ThingChange& one : comparison.things)
    if (one.id == id) return &one;
  return nullptr;
}
const TreeChange* tree(const Comparison& comparison, const std::string& id) {
  for (const TreeChange& one : comparison.trees)
    if (one.tree == id) return &one;
  return nullptr;
}
std::vector<std::string> fields(const ThingChange& change) {
  std::vector<std::string> lines;
  for (const FieldChange& f : change.fields)
    lines.push_back(f.field + ": " + f.before + " > " + f.after);
  return lines;
}

TEST(Compare, TellsHowFarAWorkMovedAndTheGroundThatOnlyOneStateTakes) {
  const Stood a = stood(trench_at(8)), b = stood(trench_at(3));
  const Comparison changes = compare(a.state(), b.state());
  ASSERT_EQ(changes.things.size(), 1U);
  const ThingChange& moved = changes.things[0];
  EXPECT_EQ(moved.sort, ChangedSort::work);
  EXPECT_EQ(moved.how, ChangedHow::changed);
  ASSERT_TRUE(moved.moved);
  EXPECT_NEAR(moved.moved->metres(), 5, 1e-9);
  EXPECT_TRUE(moved.fields.empty());
  EXPECT_NEAR(area_of(moved.ground).square_metres(), 2 * 40 * 0.6, 1e-6);
}

TEST(Compare, ALineDrawnFromItsOtherEndLiesWhereItLay) {
  Site turned_round = trench_at(8);
  std::reverse(turned_round.works[0].shape.lines[0].begin(),
               turned_round.works[0].shape.lines[0].end());
  const Stood a = stood(trench_at(8)), b = stood(turned_round);
  EXPECT_EQ(thing(compare(a.state(), b.state()), "W1"), nullptr);
}

TEST(Compare, ALongerTrenchChangesTheGroundOfItsNewEndOnly) {
  Site longer = trench_at(8);
  longer.works[0].shape.lines[0].back() = {30, 8};
  const Stood a = stood(trench_at(8)), b = stood(longer);
  const ThingChange* change = nullptr;
  const Comparison changes = compare(a.state(), b.state());
  change = thing(changes, "W1");
  ASSERT_NE(change, nullptr);
  EXPECT_NEAR(change->moved->metres(), 10, 1e-9);
  EXPECT_NEAR(area_of(change->ground).square_metres(), 10 * 0.6, 1e-6);
}

TEST(Compare, TreesAreBetterOrWorseInHealthAndStabilityApart) {
  const Stood far = stood(trench_at(12)), near = stood(trench_at(2));
  const Comparison changes = compare(far.state(), near.state());
  const TreeChange* one = tree(changes, "T1");
  ASSERT_NE(one, nullptr);
  EXPECT_EQ(one->health.trend, Trend::worse);
  EXPECT_EQ(one->stability.trend, Trend::worse);
  EXPECT_GT(one->health.after->best, one->health.before->best);
  EXPECT_LT(one->stability.after->best, one->stability.before->best);
  EXPECT_EQ(tree(changes, "T2"), nullptr);
  EXPECT_EQ(changes.trees_same, 1U);
  EXPECT_EQ(tree(compare(near.state(), far.state()), "T1")->health.trend, Trend::better);
}

TEST(Compare, LimitsNewlyPassedAndNoLongerPassedAreTold) {
  const Stood far = stood(trench_at(30)), near = stood(trench_at(1.5));
  const Comparison worse = compare(far.state(), near.state());
  ASSERT_FALSE(worse.limits.empty());
  for (const LimitChange& limit : worse.limits) {
    EXPECT_TRUE(limit.newly_passed);
    EXPECT_EQ(limit.tree, "T1");
    EXPECT_TRUE(limit.before && limit.after);
  }
  const Comparison better = compare(near.state(), far.state());
  ASSERT_EQ(better.limits.size(), worse.limits.size());
  EXPECT_FALSE(better.limits[0].newly_passed);
}

TEST(Compare, FieldsAreToldInOneSystemOfUnits) {
  Site deeper = trench_at(8);
  deeper.works[0].depth = metres(1.8);
  deeper.works[0].width = millimetres(600);  // the same, written otherwise
  deeper.works[0].method = DigMethod::air;
  const Stood a = stood(trench_at(8)), b = stood(deeper);
  const Comparison changes = compare(a.state(), b.state());
  ASSERT_EQ(changes.things.size(), 1U);
  EXPECT_EQ(fields(changes.things[0]),
            (std::vector<std::string>{"method: machine > air", "depth: 1.20 m > 1.80 m"}));
  EXPECT_FALSE(changes.things[0].moved);
  EXPECT_NEAR(area_of(changes.things[0].ground).square_metres(), 40 * 0.6, 1e-6);
  const Comparison us = compare(a.state(), b.state(), UnitSystem::us_customary);
  EXPECT_EQ(fields(us.things[0])[1], "depth: 3.9 ft > 5.9 ft");
}

TEST(Compare, ALengthThatReadsAlikeIsToldAsItWasWritten) {
  Site little = trench_at(8);
  little.works[0].depth = millimetres(1201);
  const Stood a = stood(trench_at(8)), b = stood(little);
  EXPECT_EQ(fields(*thing(compare(a.state(), b.state()), "W1")),
            (std::vector<std::string>{"depth: 1.2 m > 1201 mm"}));
}

TEST(Compare, ThingsAddedAndRemovedAreTold) {
  Site other = trench_at(8).pit("W2", rectangle(30, 0, 34, 4), 1).palm("P1", {40, 40});
  other.trees.erase(other.trees.begin() + 1);
  const Stood a = stood(trench_at(8)), b = stood(other);
  const Comparison changes = compare(a.state(), b.state());
  ASSERT_EQ(changes.things.size(), 3U);
  EXPECT_EQ(thing(changes, "W2")->how, ChangedHow::added);
  EXPECT_NEAR(area_of(thing(changes, "W2")->ground).square_metres(), 16, 1e-9);
  EXPECT_EQ(thing(changes, "P1")->how, ChangedHow::added);
  EXPECT_EQ(thing(changes, "T2")->how, ChangedHow::removed);
  EXPECT_FALSE(tree(changes, "T2")->after);
  EXPECT_EQ(tree(changes, "T2")->health.trend, Trend::unknown);
  EXPECT_FALSE(tree(changes, "P1")->before);
}

TEST(Compare, WhatHoldsForTheWholeSiteIsTold) {
  Site other = trench_at(8);
  other.soil.texture = SoilTexture::clay;
  other.wind.standard = Wind::Standard::en1991;
  other.boundary = rectangle(-50, -50, 50, 50);
  other.settings.rules = {"bs5837-2012", "as4970-2009"};
  other.settings.revision = "B";  // says nothing of the site
  const Stood a = stood(trench_at(8)), b = stood(other);
  const Comparison changes = compare(a.state(), b.state());
  std::vector<std::string> names;
  for (const ThingChange& one : changes.things)
    if (one.sort == ChangedSort::project) names.push_back(one.id);
  EXPECT_EQ(names, (std::vector<std::string>{"choices", "soil", "wind", "boundary"}));
}

// 2 x 1.2533 x (high - low) / 2.5631 / sqrt(n), of two alike: times the root of two.
TEST(Noise, IsTwiceTheStandardErrorOfTheDifferenceOfTwoMedians) {
  const Range wide{0.1, 0.3, 0.5};
  EXPECT_NEAR(noise_of(wide, 1000, wide, 1000), 0.0174944, 1e-6);
  EXPECT_NEAR(noise_of(wide, 250, wide, 250), 2 * 0.0174944, 1e-6);
  EXPECT_EQ(noise_of({}, 1000, {}, 1000), 0);
}

TEST(Noise, HoldsBackWhatTheLotAloneCouldMake) {
  Stood a = stood(trench_at(2), 40);
  Stood b = a;
  Range& range = b.assessment.trees[0].roots->all;
  const double noise = noise_of(range, 40, range, 40);
  ASSERT_GT(noise, kLeastDifference);
  range.best += 0.9 * noise;
  EXPECT_TRUE(compare(a.state(), b.state()).trees.empty());
  range.best += 0.2 * noise;
  EXPECT_EQ(tree(compare(a.state(), b.state()), "T1")->health.trend, Trend::worse);
}

// ---- laws, on random sites

Site changed_somehow(Site site, std::uint64_t seed) {
  RandomStream random(seed, "changes");
  for (Work& work : site.works) {
    if (random.uniform() < 0.4) work.depth = metres(random.uniform(0.1, 2));
    if (random.uniform() < 0.4)
      move_shape(work.shape, [&](Point p) { return Point{p.x + 3, p.y - 2}; });
  }
  if (site.works.size() > 2) site.works.erase(site.works.begin() + 1);
  site.works.push_back(random_work(random, "N1", {20, 20}));
  site.trees.erase(site.trees.begin());
  return site;
}

Trend reversed(Trend trend) {
  if (trend == Trend::better) return Trend::worse;
  return trend == Trend::worse ? Trend::better : trend;
}

class Law : public ::testing::TestWithParam<std::uint64_t> {};

TEST_P(Law, AStateDiffersInNothingFromItself) {
  const Stood a = stood(random_site(GetParam(), 8, 5, 50), 20);
  const Comparison none = compare(a.state(), a.state());
  EXPECT_TRUE(none.empty());
  EXPECT_EQ(none.trees_same, 8U);
}

TEST_P(Law, TheOtherWayRoundSwapsTheSidesAndNothingElse) {
  const Site site = random_site(GetParam(), 8, 5, 50);
  const Stood a = stood(site, 20), b = stood(changed_somehow(site, GetParam()), 20);
  const Comparison there = compare(a.state(), b.state()), back = compare(b.state(), a.state());
  ASSERT_EQ(there.things.size(), back.things.size());
  EXPECT_EQ(there.trees_same, back.trees_same);
  for (const ThingChange& one : there.things) {
    const ThingChange* other = thing(back, one.id);
    ASSERT_NE(other, nullptr) << one.id;
    EXPECT_EQ(one.how == ChangedHow::added, other->how == ChangedHow::removed);
    EXPECT_EQ(one.moved, other->moved);
    EXPECT_NEAR(area_of(one.ground).square_metres(), area_of(other->ground).square_metres(), 1e-6);
    ASSERT_EQ(one.fields.size(), other->fields.size());
    for (std::size_t i = 0; i < one.fields.size(); ++i) {
      EXPECT_EQ(one.fields[i].before, other->fields[i].after);
      EXPECT_EQ(one.fields[i].after, other->fields[i].before);
    }
  }
  ASSERT_EQ(there.trees.size(), back.trees.size());
  for (const TreeChange& one : there.trees) {
    const TreeChange* other = tree(back, one.tree);
    ASSERT_NE(other, nullptr) << one.tree;
    EXPECT_EQ(one.health.trend, reversed(other->health.trend));
    EXPECT_EQ(one.stability.trend, reversed(other->stability.trend));
    EXPECT_EQ(one.before, other->after);
    EXPECT_EQ(one.health.before, other->health.after);
  }
  EXPECT_EQ(there.limits.size(), back.limits.size());
}

// Every tree of either state is told of or counted, once.
TEST_P(Law, EveryTreeIsToldOfOrCountedAsTheSame) {
  const Site site = random_site(GetParam(), 8, 5, 50);
  const Stood a = stood(site, 20), b = stood(changed_somehow(site, GetParam()), 20);
  const Comparison changes = compare(a.state(), b.state());
  EXPECT_EQ(changes.trees.size() + changes.trees_same, 8U);
}

INSTANTIATE_TEST_SUITE_P(Seeds, Law, ::testing::Range<std::uint64_t>(1, 5));

}  // namespace
}  // namespace rootstead
