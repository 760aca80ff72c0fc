#include "engine/roots/ground_map.hpp"

#include <gtest/gtest.h>

#include <cmath>

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

}  // namespace
}  // namespace rootstead
