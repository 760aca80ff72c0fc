#include "engine/roots/ground_map.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "engine/base/random.hpp"
#include "tests/support/shipped_tables.hpp"
#include "tests/support/site_builder.hpp"

namespace rootstead {
namespace {

using test::metres;
using test::SiteBuilder;

const Tables& tables() {
  static const Tables kTables = test::shipped_tables();
  return kTables;
}

Barrier wall_across(double x, double depth, BarrierKind kind = BarrierKind::wall) {
  Barrier barrier;
  barrier.id = "B1";
  barrier.kind = kind;
  barrier.shape.lines = {{{x, -100}, {x, 100}}};
  barrier.depth = metres(depth);
  return barrier;
}

struct Travelled {
  GroundMap ground;
  std::vector<TravelMap> travel;
  double at(const Point& point, double depth) const {
    for (std::size_t i = 0; i < ground.layers.size(); ++i)
      if (depth < ground.layers[i].bottom) return travel[i].at(point);
    return travel.back().at(point);
  }
};

Travelled travelled(const Site& site, double leak = 0) {
  GroundMap ground = ground_round(site.trees.front(), site, tables(), Length::metres(8),
                                  Length::metres(0.2), leak);
  auto travel = root_travel(ground, site.trees.front().position->at);
  return {std::move(ground), std::move(travel)};
}

Site site_with(Barrier barrier) {
  Site site = SiteBuilder().tree("T1", {0, 0}, 0.5);
  site.barriers.push_back(std::move(barrier));
  return site;
}

TEST(GroundMap, WithNothingInReachIsOpenAndTravelIsTheStraightDistance) {
  const Travelled open = travelled(site_with(wall_across(30, 1)));
  EXPECT_TRUE(open.ground.open());
  ASSERT_EQ(open.ground.layers.size(), 1u);
  EXPECT_NEAR(open.at({3, 4}, 0.2), 5, 1e-12);
}

TEST(GroundMap, AKerbSlowsRootsButDoesNotStopThem) {
  const Travelled kerb = travelled(site_with(wall_across(3, 0.3, BarrierKind::kerb)));
  ASSERT_EQ(kerb.ground.layers.size(), 2u);
  EXPECT_DOUBLE_EQ(kerb.ground.layers[0].bottom, 0.3);
  for (const double depth : {0.1, 0.6}) {
    EXPECT_GT(kerb.at({5, 0}, depth), 5.2) << depth;
    EXPECT_LT(kerb.at({5, 0}, depth), 9) << depth;
    EXPECT_NEAR(kerb.at({2, 0}, depth), 2, 1e-9) << depth;
  }
  EXPECT_GT(kerb.at({5, 0}, 0.1), kerb.at({5, 0}, 0.6));
}

TEST(GroundMap, AWallAsDeepAsTheRootsWithNoWayRoundStopsThem) {
  const Travelled wall = travelled(site_with(wall_across(3, 2)));
  EXPECT_TRUE(std::isinf(wall.at({5, 0}, 0.1)));
  EXPECT_TRUE(std::isinf(wall.at({5, 0}, 1.2)));
  EXPECT_NEAR(wall.at({-5, 0}, 0.1), 5, 1e-9);
}

TEST(GroundMap, AShallowerWallLetsRootsUnder) {
  const Travelled wall = travelled(site_with(wall_across(3, 0.6)));
  EXPECT_TRUE(std::isfinite(wall.at({5, 0}, 0.1)));
  EXPECT_TRUE(std::isinf(wall.at({3, 0}, 0.1))) << "inside the wall itself nothing passes";
}

TEST(GroundMap, TakesFeetAsItTakesMetres) {
  Barrier metric = wall_across(3, 0.6096);
  Barrier feet = metric;
  feet.depth = EnteredLength{2, LengthUnit::foot};
  metric.width = metres(0.3048);
  feet.width = EnteredLength{12, LengthUnit::inch};
  const Travelled one = travelled(site_with(metric)), other = travelled(site_with(feet));
  ASSERT_EQ(one.ground.layers.size(), other.ground.layers.size());
  EXPECT_NEAR(one.at({5, 1}, 0.1), other.at({5, 1}, 0.1), 1e-9);
  EXPECT_NEAR(one.ground.layers[0].bottom, 0.6096, 1e-12);
}

TEST(GroundMap, ARootBarrierLeaksTheSameWhateverTheCell) {
  const Site site = site_with(wall_across(3, 2, BarrierKind::root_barrier));
  for (const double cell : {0.1, 0.2}) {
    const Tree& tree = site.trees.front();
    const GroundMap ground =
        ground_round(tree, site, tables(), Length::metres(6), Length::metres(cell));
    const double time = root_travel(ground, tree.position->at).front().at({5, 0});
    // 0.2 m at 0.05 for each cell the sheet touches: one, or two where it lies on their border.
    EXPECT_GT(time, 5 + 0.2 / 0.05 - 0.5) << cell;
    EXPECT_LT(time, 5 + 2 * 0.2 / 0.05 + 0.5) << cell;
  }
}

TEST(GroundMap, PavingSlowsRootsAndThinsThemButAStemInItKeepsAnOpening) {
  Site site = SiteBuilder().tree("T1", {0, 0}, 0.5).surface("S1", test::rectangle(-9, -9, 9, 9));
  const Travelled street = travelled(site);
  EXPECT_TRUE(street.ground.stem_covered);
  ASSERT_EQ(street.ground.layers.size(), 1u);
  const double opening = tables().parameter("barriers.stem_opening").best + 0.25;
  const double speed = tables().parameter("barriers.pavement_speed").best;
  EXPECT_NEAR(street.at({5, 0}, 0.1), opening + (5 - opening) / speed, 0.3);
  EXPECT_NEAR(street.at({0.4, 0}, 0.1), 0.4, 1e-9);
  const auto& grid = street.ground.grid;
  const auto& rooting = street.ground.layers[0].rooting;
  EXPECT_EQ(rooting[grid.index(grid.columns / 2, grid.rows / 2)], 1);
  EXPECT_EQ(rooting.front(), tables().parameter("barriers.pavement_rooting").best);

  site.surfaces.front().permeable = true;
  EXPECT_LT(travelled(site).at({5, 0}, 0.1), street.at({5, 0}, 0.1));
}

TEST(GroundMap, AThickPavementIsARoad) {
  const auto with_depth = [](double depth) {
    Site site = SiteBuilder().tree("T1", {0, 0}, 0.5).paving("W1", test::rectangle(2, -9, 9, 9));
    site.works.front().state = WorkState::existing;
    site.works.front().depth = metres(depth);
    return travelled(site).at({5, 0}, 0.1);
  };
  EXPECT_NEAR(with_depth(0.2), 2 + 3 / 0.5, 0.3);
  EXPECT_NEAR(with_depth(0.6), 2 + 3 / 0.15, 1.5);
}

TEST(GroundMap, AnExistingTrenchStopsRootsToItsDepthAndAProposedOneDoesNot) {
  Site site = SiteBuilder().tree("T1", {0, 0}, 0.5).trench("W1", {{3, -99}, {3, 99}}, 0.4, 0.6);
  EXPECT_TRUE(travelled(site).ground.open());
  site.works.front().state = WorkState::existing;
  const Travelled cut = travelled(site);
  ASSERT_EQ(cut.ground.layers.size(), 2u);
  EXPECT_NEAR(cut.at({5, 0}, 1.0), 5, 1e-9) << "below it the ground is as it was";
  EXPECT_NEAR(cut.at({5, 0}, 0.1), 5 + 0.3, 0.05) << "and roots come up behind it";
  EXPECT_TRUE(std::isinf(cut.at({3, 0}, 0.1)));
}

TEST(GroundMap, AShallowSoilMakesAShallowWallABarrierForAll) {
  Site site = site_with(wall_across(3, 0.6));
  site.soil.rooting_depth = metres(0.5);
  const Travelled wall = travelled(site);
  EXPECT_EQ(wall.ground.layers.size(), 1u);
  EXPECT_TRUE(std::isinf(wall.at({5, 0}, 0.1)));
}

TEST(GroundMap, UndersidesATenthApartAreOneAndThereAreFourLayersAtMost) {
  Site site = site_with(wall_across(3, 0.55));
  site.barriers.push_back(wall_across(-3, 0.6));
  EXPECT_EQ(travelled(site).ground.layers.size(), 2u);
  EXPECT_DOUBLE_EQ(travelled(site).ground.layers[0].bottom, 0.6) << "the deeper stands for both";
  for (const double depth : {0.2, 0.35, 0.8, 1.0, 1.2, 1.35})
    site.barriers.push_back(wall_across(5, depth));
  const GroundMap ground = travelled(site).ground;
  EXPECT_EQ(ground.layers.size(), 4u);
  EXPECT_TRUE(std::isinf(ground.layers.back().bottom));
}

TEST(GroundMap, LeakMovesHalfOpenGroundWithinItsRange) {
  const Site site = site_with(wall_across(3, 0.4, BarrierKind::kerb));
  const auto at = [&](double leak) { return travelled(site, leak).at({5, 0}, 0.1); };
  EXPECT_LT(at(1), at(0));
  EXPECT_LT(at(0), at(-1));
  EXPECT_EQ(at(-1), at(-7)) << "no further than the range";
}

TEST(GroundMap, NamesWhatItMet) {
  Barrier wall = wall_across(3, 1);
  wall.name = "garden wall";
  EXPECT_EQ(travelled(site_with(wall)).ground.barriers,
            std::vector<std::string>{"B1 (garden wall)"});
}

TEST(GroundMap, IgnoresWhatHasNoShape) {
  Barrier nothing;
  nothing.id = "B1";
  EXPECT_TRUE(travelled(site_with(nothing)).ground.open());
  nothing.shape.lines = {{{3, 3}}};
  EXPECT_TRUE(travelled(site_with(nothing)).ground.open()) << "a line of one point";
}

Barrier random_wall(RandomStream& random, double depth) {
  Barrier wall = wall_across(0, depth);
  Point at{random.uniform(-6, 6), random.uniform(-6, 6)};
  wall.shape.lines = {{at}};
  for (int i = 0; i < 3; ++i) {
    at = {at.x + random.uniform(-4, 4), at.y + random.uniform(-4, 4)};
    wall.shape.lines.front().push_back(at);
  }
  return wall;
}

// Depths of a small set, so that no new wall moves the cuts between layers.
double never_falls(std::uint64_t seed, const std::vector<double>& depths) {
  RandomStream random(seed, "walls");
  Site site = SiteBuilder().tree("T1", {0, 0}, 0.5);
  for (const double depth : depths) site.barriers.push_back(random_wall(random, depth));
  Travelled before = travelled(site);
  double fallen = 0;
  for (int i = 0; i < 3; ++i) {
    site.barriers.push_back(random_wall(random, depths[random.next() % depths.size()]));
    Travelled after = travelled(site);
    for (const double depth : {0.1, 0.5, 1.0}) {
      for (int k = 0; k < 200; ++k) {
        const Point p{random.uniform(-8, 8), random.uniform(-8, 8)};
        const double was = before.at(p, depth), is = after.at(p, depth);
        if (std::isfinite(is)) fallen = std::max(fallen, was - is);
      }
    }
    before = std::move(after);
  }
  return fallen;
}

// The centres' times never fall at all; between them values are interpolated, which beside a new
// wall may take other centres.
RC_GTEST_PROP(GroundMapProperty, AnotherWallNeverShortensTheWay, ()) {
  RC_ASSERT(never_falls(*rc::gen::arbitrary<std::uint64_t>(), {2.0}) < 0.2);
}
RC_GTEST_PROP(GroundMapProperty, NorDoesOneThatRootsPassUnderByMoreThanACrossing, ()) {
  const double crossing = 0.2 / tables().parameter("barriers.below_speed").best;
  RC_ASSERT(never_falls(*rc::gen::arbitrary<std::uint64_t>(), {0.3, 0.8}) < crossing);
}

}  // namespace
}  // namespace rootstead
