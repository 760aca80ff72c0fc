// Roots beside walls, kerbs and paving: what they may and may not do, and what works take of them.
#include <gtest/gtest.h>

#include <cmath>

#include "engine/roots/root_model.hpp"
#include "tests/support/round_a_stem.hpp"
#include "tests/support/shipped_tables.hpp"

namespace rootstead {
namespace {

using test::metres;
using test::square;
using test::strip;
using test::tree_at;

constexpr RootSimulation kCentral{1, 0};
constexpr double kDeep = 3;  // m, deeper than any root
const Point kStem{500000, 180000};

const Tables& tables() {
  static const Tables shipped = test::shipped_tables();
  return shipped;
}

Barrier wall(Line line, double depth, double width = 0.2) {
  Barrier barrier;
  barrier.id = "wall";
  barrier.kind = BarrierKind::wall;
  barrier.shape.lines = {std::move(line)};
  barrier.width = metres(width);
  barrier.depth = metres(depth);
  return barrier;
}

Point from_stem(double x, double y) {
  return {kStem.x + x, kStem.y + y};
}

// A wall north of the stem, from west to east.
Barrier wall_north(double away, double half_length, double depth) {
  return wall({from_stem(-half_length, away), from_stem(half_length, away)}, depth);
}

struct Standing {
  explicit Standing(std::vector<Barrier> barriers = {}, double diameter = 0.4) {
    tree = tree_at(kStem, diameter, "Fagus sylvatica");
    site.barriers = std::move(barriers);
    model = std::move(root_model(tree, site, tables())).value();
  }
  double loss(const MultiPolygon& area, double depth = kDeep,
              const RootSimulation& how = kCentral) const {
    return model->loss({{"W", area, Length::metres(depth), GroundTaking::Effect::severs, {}}}, how)
        .all.best;
  }
  double under(const MultiPolygon& area) const {  // share of roots beneath, none severed
    return model->loss({{"W", area, {}, GroundTaking::Effect::presses, Range{1, 1, 1}}}, kCentral)
        .all.best;
  }
  Tree tree;
  Site site;
  std::unique_ptr<RootModel> model;
};

MultiPolygon ground_north(double from) {
  return strip(kStem, 0, from, 100);
}

TEST(HinderedRoots, OfATreeInOpenGroundAreThoseOfOpenGround) {
  // A wall beyond the reach of every root changes nothing, to the last bit.
  EXPECT_EQ(Standing({wall_north(95, 40, kDeep)}).loss(ground_north(3)),
            Standing().loss(ground_north(3)));
}

TEST(HinderedRoots, DoNotGrowThroughAWallDeeperThanTheyAre) {
  const Standing enclosed({wall_north(3, 60, kDeep)});
  EXPECT_LT(enclosed.under(ground_north(3.4)), 1e-9);
  EXPECT_GT(Standing().under(ground_north(3.4)), 0.1);
}

TEST(HinderedRoots, AreAllStillThere) {
  for (const double half_length : {2.0, 5.0, 60.0})
    EXPECT_NEAR(Standing({wall_north(3, half_length, kDeep)}).under(square(kStem, 90)), 1, 1e-9);
}

TEST(HinderedRoots, AreDenserOnTheSideThatIsLeft) {
  const auto south = strip(kStem, 180, 2, 100);
  EXPECT_GT(Standing({wall_north(2, 60, kDeep)}).under(south), 1.15 * Standing().under(south));
}

TEST(HinderedRoots, GrowRoundTheEndOfAWallAndAreFewerBehindIt) {
  const auto behind = square(from_stem(0, 4.5), 1);
  const double open = Standing().under(behind);
  const double hindered = Standing({wall_north(3, 4, kDeep)}).under(behind);
  EXPECT_GT(hindered, 0.001);
  EXPECT_LT(hindered, 0.8 * open);
}

TEST(HinderedRoots, PassBelowAShallowKerbButFewer) {
  const auto beyond = ground_north(3.4);
  const double open = Standing().under(beyond);
  const double kerb = Standing({wall_north(3, 60, 0.3)}).under(beyond);
  EXPECT_LT(kerb, 0.8 * open);
  EXPECT_GT(kerb, 0.02 * open);
}

TEST(HinderedRoots, BehindAWallAreLostWhereTheirWayRoundItIsCut) {
  // The wall turns the roots round its eastern end; the trench stands only there, far from the
  // ground behind the wall, and takes it all the same.
  const Barrier barrier = wall({from_stem(-60, 3), from_stem(3, 3)}, kDeep);
  const Standing turned({barrier});
  const auto behind = square(from_stem(-3, 5), 1.2);
  ASSERT_GT(turned.under(behind), 0.001);
  const auto gate = test::strip(kStem, 90, 1, 1.4, 60);  // north to south, east of the stem
  const double gate_alone = turned.loss(gate);
  const auto both =
      turned.model->loss({{"G", gate, Length::metres(kDeep), GroundTaking::Effect::severs, {}},
                          {"B", behind, {}, GroundTaking::Effect::presses, Range{1, 1, 1}}},
                         kCentral);
  EXPECT_NEAR(both.all.best, gate_alone, 0.003);
}

TEST(HinderedRoots, SayWhatTurnsThemAside) {
  const RootEstimate estimate = Standing({wall_north(3, 60, 1)}).model->estimate({1, 50});
  ASSERT_EQ(estimate.hindrances.size(), 1U);
  EXPECT_NE(estimate.hindrances[0].find("wall"), std::string::npos);
  EXPECT_TRUE(Standing().model->estimate({1, 50}).hindrances.empty());
}

TEST(HinderedRoots, OfAStreetTreeAreOneSided) {
  Standing street;
  Surface road;
  road.id = "road";
  road.area = strip(kStem, 90, 1.5, 12);
  street.site.surfaces = {road};
  const auto road_side = strip(kStem, 90, 2, 8, 8), lawn_side = strip(kStem, 270, 2, 8, 8);
  EXPECT_LT(street.under(road_side), 0.7 * street.under(lawn_side));
}

TEST(RootPicture, BesideAWallHoldsAllRootsOnItsOpenSide) {
  const Standing enclosed({wall_north(2, 60, kDeep)});
  const double cell = 0.1;
  double sum = 0, beyond = 0;
  for (double x = -20; x < 20; x += cell)
    for (double y = -20; y < 20; y += cell) {
      const double here =
          enclosed.model->plan_density(from_stem(x + cell / 2, y + cell / 2)) * cell * cell;
      sum += here;
      if (y > 2.3) beyond += here;
    }
  EXPECT_NEAR(sum, 1, 0.02);
  EXPECT_EQ(beyond, 0);
}

// ---- properties on random ground ----------------------------------------------------------------

std::vector<Barrier> random_walls(RandomStream& random) {
  std::vector<Barrier> walls;
  for (int i = 0; i < 3; ++i) {
    const Point a = from_stem(random.uniform(-9, 9), random.uniform(-9, 9));
    const Point b{a.x + random.uniform(-8, 8), a.y + random.uniform(-8, 8)};
    walls.push_back(wall({a, b}, random.uniform() < 0.5 ? kDeep : random.uniform(0.2, 0.8)));
    walls.back().id += std::to_string(i);
  }
  return walls;
}

GroundTaking random_taking(RandomStream& random, std::string id) {
  return {std::move(id),
          strip(kStem, random.uniform(0, 360), random.uniform(1.2, 4), random.uniform(4.2, 5),
                random.uniform(1, 10)),
          Length::metres(random.uniform(0.3, 1.5)),
          GroundTaking::Effect::severs,
          {}};
}

// Each on sites of its own; a failing one names its seed.
class HinderedRootsProperty : public ::testing::TestWithParam<std::uint64_t> {
 protected:
  RandomStream random{GetParam(), "hindered"};
};
INSTANTIATE_TEST_SUITE_P(Seeds, HinderedRootsProperty, ::testing::Range<std::uint64_t>(1, 9));

double sum_alone(const RootLoss& loss) {
  double sum = 0;
  for (const auto& by : loss.by_work) sum += by.alone.best;
  return sum;
}

TEST_P(HinderedRootsProperty, AreNeverLostMoreThanOnceNorLessForMoreWork) {
  const Standing standing(random_walls(random));
  std::vector<GroundTaking> takings;
  double before = 0;
  for (int i = 0; i < 3; ++i) {
    takings.push_back(random_taking(random, "W" + std::to_string(i)));
    const RootLoss loss = standing.model->loss(takings, {1, 20});
    EXPECT_GE(loss.all.low, 0);
    EXPECT_LE(loss.all.high, 1);
    EXPECT_GE(loss.all.best, before - 1e-12);
    before = loss.all.best;
  }
  const RootLoss central = standing.model->loss(takings, kCentral);
  EXPECT_LE(central.all.best, sum_alone(central) + 1e-9);
  takings.front().depth += Length::metres(0.2);
  EXPECT_GE(standing.model->loss(takings, kCentral).all.best, central.all.best - 1e-12);
}

TEST_P(HinderedRootsProperty, HoldAllTheirRootsWhateverStandsInTheGround) {
  EXPECT_NEAR(Standing(random_walls(random)).under(square(kStem, 90)), 1, 1e-9);
}

TEST_P(HinderedRootsProperty, AreTheSameWhereTheSiteIsMoved) {
  const std::vector<Barrier> walls = random_walls(random);
  const Standing here(walls);
  const GroundTaking taking = random_taking(random, "W");
  Standing there(walls);
  const double dx = 1024, dy = -512;
  there.tree.position->at = from_stem(dx, dy);
  for (Barrier& barrier : there.site.barriers)
    for (Point& p : barrier.shape.lines.front()) p = {p.x + dx, p.y + dy};
  GroundTaking moved = taking;
  for (Point& p : moved.area.front().outer) p = {p.x + dx, p.y + dy};
  EXPECT_NEAR(here.model->loss({taking}, kCentral).all.best,
              there.model->loss({moved}, kCentral).all.best, 1e-3);
}

}  // namespace
}  // namespace rootstead
