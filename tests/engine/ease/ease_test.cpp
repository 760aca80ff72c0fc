// The smallest change against looking at every small step of it.
#include "engine/ease/ease.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <cstdlib>

#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/losses/losses.hpp"
#include "tests/support/loaded_tables.hpp"
#include "tests/support/site_builder.hpp"

namespace rootstead {
namespace {

using namespace rootstead::test;

EaseOptions quick(double range = 1.2) {
  EaseOptions options;
  options.how = {1, 0};
  options.range = Length::metres(range);
  options.other_methods = false;
  return options;
}

EaseAnswer eased(const Site& site, const EaseOptions& options) {
  auto answer = smallest_change(site, "W1", loaded_tables(), options);
  if (!answer) ADD_FAILURE() << answer.error().sentence();
  return std::move(answer).value();
}

const EasedWork* family(const EaseAnswer& answer, Change change) {
  for (const EasedWork& one : answer.families)
    if (one.change == change) return &one;
  return nullptr;
}

// A site of one or two trees and one work whose loss is limited.
struct Case {
  Site site;
  EaseOptions options;
};

Case case_of(std::uint64_t seed) {
  RandomStream random(seed, "ease");
  SiteBuilder builder;
  builder.tree("T1", {0, 0}, random.uniform(0.3, 0.7));
  if (seed % 3 == 0) builder.tree("T2", {random.uniform(6, 10), random.uniform(-3, 3)}, 0.4);
  const double near = random.uniform(1.5, 4);
  if (seed % 2 == 0)
    builder.trench("W1", {{-12, near}, {12, near + random.uniform(-1, 1)}}, random.uniform(0.5, 1),
                   1.0);
  else
    builder.pit("W1", rectangle(near, -3, near + 6, random.uniform(2, 5)),
                random.uniform(0.6, 1.5));
  builder.with_work([&](Work& work) { work.working_room = metres(0.4); });
  Case made{builder, quick()};
  made.site.settings.rules = {"bs5837-2012"};
  made.options.directions = made.site.works.front().shape.lines.empty() ? 4 : 0;
  made.options.finest = Length::metres(0.1);
  // Only the loss decides, so that the limit lies where the change is about.
  made.options.limits = {Concern::large, Concern::large, random.uniform(0.08, 0.25), {}};
  return made;
}

// Does the work pass where it is put instead?
class Trial {
 public:
  Trial(const Case& c)  // NOLINT
      : case_(c),
        appraiser_(std::move(Appraiser::start(c.site, c.site.works.front(), loaded_tables(),
                                              route_prices(loaded_tables()), {1, 0}))
                       .value()) {}
  bool passes(const Work& work) {
    const auto trees = appraiser_.assessed({work});
    for (std::size_t i = 0; i < trees.size(); ++i)
      if (rootstead::passes(appraiser_.without()[i], case_.options.limits) &&
          !rootstead::passes(trees[i], case_.options.limits))
        return false;
    return true;
  }

 private:
  const Case& case_;
  Appraiser appraiser_;
};

// The nearest step at which a move in any of the directions passes; infinite where none does.
double brute_move(const Case& c, Trial& trial, double step) {
  const Work& work = c.site.works.front();
  std::vector<Point> ways;
  if (work.shape.lines.empty()) ways = {{0, 1}, {1, 0}, {0, -1}, {-1, 0}};
  for (const Line& line : work.shape.lines) {
    const double dx = line.back().x - line.front().x, dy = line.back().y - line.front().y;
    const double length = std::hypot(dx, dy);
    for (const Point& way : {Point{dx, dy}, Point{-dx, -dy}, Point{dy, -dx}, Point{-dy, dx}})
      ways.push_back({way.x / length, way.y / length});
  }
  for (double by = step; by <= c.options.range.metres() + 1e-9; by += step)
    for (const Point& way : ways)
      if (trial.passes(moved(work, way.x * by, way.y * by))) return by;
  return HUGE_VAL;
}

// Of the brute search, m. ROOTSTEAD_FINE_STEPS asks for every two centimetres, which takes minutes.
const double kStep = std::getenv("ROOTSTEAD_FINE_STEPS") != nullptr ? 0.02 : 0.2;

struct Tally {
  int passed = 0, none = 0;
};

// Passing is no matter of "farther is better": what passes nearer than the answer by a whole step
// of the brute search, or where the answer says none, is a fault.
void expect_moves(const Case& c, Trial& trial, const EasedWork& move, std::uint64_t seed,
                  Tally& tally) {
  const double brute = brute_move(c, trial, kStep);
  if (move.passes) {
    ++tally.passed;
    EXPECT_LE(move.amount, brute + c.options.finest.metres()) << "seed " << seed;
    EXPECT_TRUE(trial.passes(move.works.front())) << "seed " << seed;
    return;
  }
  ++tally.none;
  EXPECT_EQ(brute, HUGE_VAL) << "seed " << seed;
  ASSERT_TRUE(move.bound) << "seed " << seed;
  EXPECT_GT(move.bound->loss.best, *c.options.limits.most_loss) << "seed " << seed;
}

// A nested change begins to pass where it is said to.
void expect_shallower(const Case& c, Trial& trial, const EasedWork& shallow, std::uint64_t seed) {
  const double depth = depth_of(c.site.works.front()).metres();
  const auto at = [&](double by) {
    Work made = c.site.works.front();
    made.depth = metres(depth - by);
    return trial.passes(made);
  };
  if (shallow.passes) {
    EXPECT_TRUE(at(shallow.amount)) << "seed " << seed;
    for (double by = 0; by < shallow.amount - 0.021; by += kStep)
      EXPECT_FALSE(at(by)) << "seed " << seed << ", shallower by " << by;
    return;
  }
  EXPECT_FALSE(at(depth - 0.1)) << "seed " << seed;
  ASSERT_TRUE(shallow.bound);
  EXPECT_GT(shallow.bound->loss.best, *c.options.limits.most_loss);
}

TEST(SmallestChange, AgreesWithEveryStepOnThirtySites) {
  Tally tally;
  for (std::uint64_t seed = 1; seed <= 30; ++seed) {
    const Case c = case_of(seed);
    const EaseAnswer answer = eased(c.site, c.options);
    if (answer.passes_as_drawn) {
      EXPECT_TRUE(Trial(c).passes(c.site.works.front()));
      continue;
    }
    const EasedWork* move = family(answer, Change::moved);
    const EasedWork* shallow = family(answer, Change::shallower);
    ASSERT_TRUE(move != nullptr && shallow != nullptr);
    Trial trial(c);
    expect_moves(c, trial, *move, seed, tally);
    expect_shallower(c, trial, *shallow, seed);
  }
  EXPECT_GE(tally.passed, 5);
  EXPECT_GE(tally.none, 2);
  std::printf("moves: %d pass, %d proved to have none\n", tally.passed, tally.none);
}

TEST(SmallestChange, CutsTheCornerOfABuilding) {
  Site site = SiteBuilder()
                  .tree("T1", {0, 0}, 0.6)
                  .area("W1", WorkKind::building, rectangle(2, 2, 14, 12), 1.0);
  EaseOptions options = quick(8);
  options.limits = {Concern::large, Concern::large, 0.10, {}};
  const EaseAnswer answer = eased(site, options);
  ASSERT_FALSE(answer.passes_as_drawn);
  const EasedWork* back = family(answer, Change::held_back);
  ASSERT_NE(back, nullptr);
  ASSERT_TRUE(back->passes);
  EXPECT_GE(distance_between(Point{0, 0}, footprint(back->works.front())).metres(),
            std::hypot(2, 2) + back->amount - 0.01);
  EXPECT_LT(area_of(footprint(back->works.front())).square_metres(), 120);
  EXPECT_GT(area_of(footprint(back->works.front())).square_metres(), 20);
}

TEST(SmallestChange, LeavesOutTreesThatFailWithoutTheWork) {
  Site site = SiteBuilder()
                  .tree("T1", {0, 0}, 0.6)
                  .trench("W1", {{-12, 3}, {12, 3}}, 0.6, 1.0)
                  .pit("W2", rectangle(-8, -8, 8, -0.8), 1.5);
  EaseOptions options = quick();
  options.limits = {Concern::large, Concern::large, 0.10, {}};
  const EaseAnswer answer = eased(site, options);
  ASSERT_EQ(answer.fail_without.size(), 1U);
  EXPECT_EQ(answer.fail_without.front().tree, "T1");
  EXPECT_GT(answer.fail_without.front().loss.best, 0.10);
  EXPECT_TRUE(answer.passes_as_drawn);  // for all other trees: there are none
  EXPECT_TRUE(answer.families.empty());
}

TEST(SmallestChange, HealthAndStabilityHaveEachTheirOwnLimit) {
  Site site = SiteBuilder().tree("T1", {0, 0}, 0.5).trench("W1", {{-12, 1.2}, {12, 1.2}}, 0.5, 1.0);
  EaseOptions health = quick(6), stability = quick(6);
  health.directions = stability.directions = 0;  // across and along
  health.finest = stability.finest = Length::metres(0.1);
  health.limits = {Concern::small, Concern::large, {}, {}};
  stability.limits = {Concern::large, Concern::small, {}, {}};
  const EasedWork* a = nullptr;
  const EaseAnswer for_health = eased(site, health), for_stability = eased(site, stability);
  a = family(for_health, Change::moved);
  const EasedWork* b = family(for_stability, Change::moved);
  ASSERT_TRUE(a != nullptr && b != nullptr && b->passes);
  // Anchorage is done with sooner than the fine roots.
  if (a->passes) {
    EXPECT_GT(a->amount, b->amount);
  }
}

TEST(SmallestChange, OtherMethodsAreTried) {
  Site site = SiteBuilder().tree("T1", {0, 0}, 0.5).trench("W1", {{-14, 2}, {14, 2}}, 0.6, 1.2);
  EaseOptions options = quick(1);
  options.other_methods = true;
  options.limits = {Concern::large, Concern::large, 0.05, {}};
  const EaseAnswer answer = eased(site, options);
  bool bored = false;
  for (const EasedWork& one : answer.families)
    bored = bored || (one.change == Change::method && one.passes &&
                      one.works.front().kind == WorkKind::bore);
  EXPECT_TRUE(bored);
}

TEST(SmallestChange, SaysWhatCannotBeAsked) {
  Site site = SiteBuilder().tree("T1", {0, 0}, 0.5).trench("W1", {{-12, 2}, {12, 2}}, 0.5, 1.0);
  const auto code = [&](const std::string& id) {
    return smallest_change(site, id, loaded_tables(), quick()).error().code;
  };
  EXPECT_EQ(code("W9"), Code::unknown_name);
  site.works.front().state = WorkState::existing;
  EXPECT_EQ(code("W1"), Code::outside_rule_domain);
}

// What is common to all places of a move is within each of them.
TEST(ShrunkForMoves, LiesInEveryPlaceOfTheWork) {
  for (std::uint64_t seed = 1; seed <= 30; ++seed) {
    const Case c = case_of(seed);
    const Work& work = c.site.works.front();
    const double by = 0.2;
    const MultiPolygon common = footprint(shrunk_for_moves(work, by), true);
    for (int i = 0; i < 8; ++i) {
      const double a = i * 0.785;
      const MultiPolygon place = footprint(moved(work, by * std::sin(a), by * std::cos(a)), true);
      EXPECT_LT(area_of(difference_of(common, place)).square_metres(), 0.01) << "seed " << seed;
    }
  }
}

}  // namespace
}  // namespace rootstead
