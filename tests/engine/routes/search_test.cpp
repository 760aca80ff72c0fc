// Fields whose cheapest way is known by geometry or by a sum: within 2 % of it.
#include "engine/routes/search.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

#include "engine/base/random.hpp"
#include "engine/geom/measure.hpp"

namespace rootstead {
namespace {

constexpr double kWithin = 0.02;
constexpr double kHalfPi = 1.5707963267948966;

// Money 1 a metre dug, 2 by hand, 3 bored, nothing for bends and changes.
RoutePrices plain() {
  RoutePrices prices;
  prices.open = 1, prices.hand = 2, prices.bore = 3;
  return prices;
}

// 40 by 30 metres, by a function of the place that gives the cost of a metre dug.
struct Ground {
  double cell = 0.25;
  RoutePrices prices = plain();
  template <class Open>
  CostField with(const Open& open) const {
    return with(
        open, [](const Point&) { return kNoWay; }, [](const Point&) { return kNoWay; });
  }
  template <class Open, class Hand, class Bore>
  CostField with(const Open& open, const Hand& hand, const Bore& bore) const {
    const PlanGrid grid{{0, 0}, cell, static_cast<int>(40 / cell), static_cast<int>(30 / cell)};
    std::vector<float> a, b, c;
    for (int row = 0; row < grid.rows; ++row)
      for (int column = 0; column < grid.columns; ++column) {
        const Point at = grid.centre(column, row);
        a.push_back(static_cast<float>(open(at)));
        b.push_back(static_cast<float>(hand(at)));
        c.push_back(static_cast<float>(bore(at)));
      }
    return {grid, a, b, c, prices};
  }
};

struct Found {
  RouteWay way;
  double cost = HUGE_VAL;
};
Found found(const CostField& field, const Point& from, const Point& to,
            const SearchOptions& options = {}) {
  const auto way = lattice_way(field, from, to, options.allowed);
  if (!way) return {};
  const RouteWay smooth = smoothed(way->way, field, options);
  return {smooth, cost_of(smooth, field, options)};
}

double length(double x0, double y0, double x1, double y1) {
  return std::hypot(x1 - x0, y1 - y0);
}

void expect_within(double cost, double known, const char* what) {
  EXPECT_LE(cost, known * (1 + kWithin)) << what;
  EXPECT_GE(cost, known * (1 - kWithin)) << what;
}

TEST(RouteSearch, IsStraightOverOpenGround) {
  const CostField field = Ground().with([](const Point&) { return 1.0; });
  // 1 to 4: any angle, where a staircase of eight directions is up to 8 % longer.
  const Point from{2, 3};
  for (const Point& to : {Point{37, 3.1}, Point{30, 17}, Point{12, 27}, Point{35, 21}}) {
    const Found one = found(field, from, to);
    expect_within(one.cost, length(from.x, from.y, to.x, to.y), "straight");
    EXPECT_EQ(line_of(one.way).size(), 2U);
  }
}

TEST(RouteSearch, GoesRoundAWallByTheTautString) {
  // 5 to 7: a wall from below up to a height; the string touches its upper corners.
  for (const double top : {12.0, 18.0, 24.0}) {
    const CostField field = Ground().with([&](const Point& at) {
      return at.x > 19 && at.x < 21 && at.y < top ? static_cast<double>(kNoWay) : 1.0;
    });
    const double known = length(4, 8, 19, top) + 2 + length(21, top, 36, 8);
    expect_within(found(field, {4, 8}, {36, 8}).cost, known, "round a wall");
  }
}

TEST(RouteSearch, PassesBetweenTwoTreesWhereThatIsNotDearer) {
  // 8 and 9: two discs of dear ground with a gap between them, on the straight line and beside it.
  for (const double off : {0.0, 3.0}) {
    const double radius = 4;
    const auto dear = [&](const Point& at) {
      const bool in = std::hypot(at.x - 20, at.y - 15 - off - 5) < radius ||
                      std::hypot(at.x - 20, at.y - 15 - off + 5) < radius;
      return in ? 50.0 : 1.0;
    };
    const Found one = found(Ground().with(dear), {2, 15}, {38, 15});
    // The gap is two metres wide; the taut string touches the disc whose side it passes.
    double known = 36;
    if (off > 1) {
      // Tangents from both ends to the lower disc, whose centre lies `off` - 5 above the line, and
      // the arc between them.
      const double height = off - 5 + radius;  // of the disc's top above the line
      ASSERT_GT(height, 0);
      const double d = std::hypot(18, off - 5), tangent = std::sqrt(d * d - radius * radius);
      const double lift = std::asin(radius / d) - std::atan2(5 - off, 18);
      known = 2 * tangent + radius * 2 * lift;
    }
    expect_within(one.cost, known, "between two trees");
  }
}

TEST(RouteSearch, BendsAtTheEdgeOfDearerGround) {
  // 10 and 11: two halves, the way over the edge by the law of sines: found by a fine scan.
  for (const double dear : {2.0, 4.0}) {
    const CostField field = Ground().with([&](const Point& at) { return at.y < 15 ? 1.0 : dear; });
    const Point from{4, 5}, to{36, 25};
    double known = HUGE_VAL;
    for (double x = 4; x <= 36; x += 0.001)
      known = std::min(known, length(from.x, from.y, x, 15) + dear * length(x, 15, to.x, to.y));
    expect_within(found(field, from, to).cost, known, "over an edge");
  }
}

TEST(RouteSearch, FollowsACheapStripWhereItPays) {
  // 12: a strip of half the price along the foot; in and out at 60 degrees by the law of sines.
  Ground ground;
  ground.prices.open = 0.5;
  const CostField field = ground.with([](const Point& at) { return at.y < 4 ? 0.5 : 1.0; });
  const double known =
      2 * (8 / std::cos(std::asin(0.5))) + 0.5 * (32 - 2 * 8 * std::tan(std::asin(0.5)));
  expect_within(found(field, {4, 12}, {36, 12}).cost, known, "along a strip");
}

// A belt of dear ground across the whole field, that only a bore passes cheaply.
Found belt(double dear, double pit, double& known) {
  Ground ground;
  ground.prices.pit = pit;
  const CostField field =
      ground.with([&](const Point& at) { return at.x > 14 && at.x < 26 ? dear : 1.0; },
                  [](const Point&) { return kNoWay; }, [](const Point&) { return 3.0; });
  const double dug = 24 + 12 * dear, bored = 24 + 12 * 3 + 2 * pit;
  known = std::min(dug, bored);
  return found(field, {2, 15}, {38, 15});
}

TEST(RouteSearch, BoresExactlyWhereItPays) {
  // 13 to 16: the pits make it pay or not.
  double known = 0;
  Found one = belt(10, 20, known);
  expect_within(one.cost, known, "a bore that pays");
  EXPECT_EQ(pits_of(one.way), 2);
  one = belt(10, 60, known);
  expect_within(one.cost, known, "pits too dear");
  EXPECT_EQ(pits_of(one.way), 0);
  one = belt(4, 5, known);
  expect_within(one.cost, known, "just pays");
  EXPECT_EQ(pits_of(one.way), 2);
  one = belt(4, 7, known);
  expect_within(one.cost, known, "just does not");
  EXPECT_EQ(pits_of(one.way), 0);
}

TEST(RouteSearch, DigsByHandExactlyWhereItPays) {
  // 17 and 18: by hand through a belt in which machines cost more.
  for (const double change : {3.0, 30.0}) {
    Ground ground;
    ground.prices.change = change;
    const CostField field =
        ground.with([](const Point& at) { return at.x > 14 && at.x < 26 ? 5.0 : 1.0; },
                    [](const Point&) { return 2.0; }, [](const Point&) { return kNoWay; });
    const double known = std::min({24 + 12 * 5.0, 24 + 12 * 2 + 2 * change, 36 * 2.0});
    expect_within(found(field, {2, 15}, {38, 15}).cost, known, "by hand");
  }
}

TEST(RouteSearch, CountsBends) {
  // 19: bends are dear enough that a bent way round a slightly dearer patch does not pay.
  Ground ground;
  ground.prices.bend = 20;
  const auto patch = [](const Point& at) {
    return std::hypot(at.x - 20, at.y - 15) < 3 ? 4.0 : 1.0;
  };
  const CostField field = ground.with(patch);
  const Found one = found(field, {2, 15}, {38, 15});
  expect_within(one.cost, 36 + 6 * 3, "straight through");
  EXPECT_EQ(bends_of(line_of(one.way), 5), 0);
}

TEST(RouteSearch, TurnsIntoAStripAcrossFromACorner) {
  // 20: a quarter-circle of free ground round a blocked corner block: the string round two corners.
  const CostField field = Ground().with([](const Point& at) {
    return at.x > 10 && at.x < 30 && at.y > 6 && at.y < 24 ? static_cast<double>(kNoWay) : 1.0;
  });
  const double over = length(4, 14, 10, 24) + 20 + length(30, 24, 36, 18);
  const double under = length(4, 14, 10, 6) + 20 + length(30, 6, 36, 18);
  expect_within(found(field, {4, 14}, {36, 18}).cost, std::min(over, under), "round a block");
}

TEST(RouteSearch, SaysWhereThereIsNoWay) {
  const CostField field = Ground().with(
      [](const Point& at) { return at.x > 19 && at.x < 21 ? static_cast<double>(kNoWay) : 1.0; });
  EXPECT_FALSE(lattice_way(field, {4, 8}, {36, 8}, {true, true, true}));
}

TEST(RouteSearch, NothingSlipsBetweenTwoBlockedCellsThatTouchAtACorner) {
  Ground ground;
  ground.cell = 1;
  const CostField field = ground.with([](const Point& at) {
    return std::floor(at.x) == std::floor(at.y) + 5 ? static_cast<double>(kNoWay) : 1.0;
  });
  EXPECT_FALSE(lattice_way(field, {4, 20}, {30, 4}, {true, true, true}));
}

TEST(Rounded, KeepsTheRadiusAndTheEnds) {
  const Line line = {{0, 0}, {10, 0}, {10, 10}};
  const auto arc = rounded(line, 3);
  ASSERT_TRUE(arc);
  EXPECT_EQ(arc->front(), line.front());
  EXPECT_EQ(arc->back(), line.back());
  for (std::size_t i = 1; i + 1 < arc->size(); ++i)
    EXPECT_NEAR(std::hypot((*arc)[i].x - 7, (*arc)[i].y - 3), 3, 1e-9);
  // 20 m less two tangents of 3 m, and a quarter of the circle in chords.
  EXPECT_NEAR(length_of(*arc).metres(), 14 + 3 * kHalfPi, 0.01);
  EXPECT_FALSE(rounded(line, 11));
}

// Random ground of patches, the cost of each at least the least price.
CostField patched(std::uint64_t seed, double more_at, double more) {
  RandomStream random(seed, "patches");
  std::vector<std::pair<Point, double>> patches;
  for (int i = 0; i < 12; ++i)
    patches.push_back({{random.uniform(0, 40), random.uniform(0, 30)}, random.uniform(1, 6)});
  Ground ground;
  ground.cell = 1;
  return ground.with([&](const Point& at) {
    double cost = 1;
    for (const auto& [centre, radius] : patches)
      if (std::hypot(at.x - centre.x, at.y - centre.y) < radius) cost += 2;
    if (std::hypot(at.x - more_at, at.y - 15) < 5) cost += more;
    return cost;
  });
}

// The lattice is an exact search, so these are laws of it.
RC_GTEST_PROP(RouteSearch, DearerGroundNeverMakesTheLatticeCheaper, ()) {
  const auto seed = *rc::gen::inRange<std::uint64_t>(0, 1000);
  const double where = *rc::gen::inRange(5, 35), more = *rc::gen::inRange(0, 9);
  const CostField plain_field = patched(seed, where, 0), dear = patched(seed, where, more);
  const AllowedMethods dug = {true, false, false};
  const auto before = lattice_way(plain_field, {1, 15}, {39, 15}, dug);
  const auto after = lattice_way(dear, {1, 15}, {39, 15}, dug);
  RC_ASSERT(before && after);
  RC_ASSERT(after->cost >= before->cost);
}

RC_GTEST_PROP(RouteSearch, SmoothingNeverMakesDearer, ()) {
  const auto seed = *rc::gen::inRange<std::uint64_t>(0, 1000);
  const CostField field = patched(seed, 20, 4);
  const auto way = lattice_way(field, {1, 15}, {39, 15}, {true, true, true});
  RC_ASSERT(way.has_value());
  RC_ASSERT(cost_of(smoothed(way->way, field, {}), field, {}) <=
            cost_of(way->way, field, {}) * (1 + 1e-9));
}

}  // namespace
}  // namespace rootstead
