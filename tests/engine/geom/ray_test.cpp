#include "engine/geom/ray.hpp"

#include <cmath>

#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "tests/engine/geom/random_shapes.hpp"

namespace rootstead {
namespace {

using Intervals = std::vector<std::pair<double, double>>;
using test::Dice;
using test::rectangle;

const Angle kNorth = Angle::degrees(0);
const Angle kEast = Angle::degrees(90);

void expect_intervals(const Intervals& found, const Intervals& expected) {
  ASSERT_EQ(found.size(), expected.size());
  for (std::size_t i = 0; i < found.size(); ++i) {
    EXPECT_NEAR(found[i].first, expected[i].first, 1e-12);
    EXPECT_NEAR(found[i].second, expected[i].second, 1e-12);
  }
}

TEST(Ray, RunsThroughATrenchFromSideToSide) {
  expect_intervals(ray_crossings({0, 0}, kEast, 12, {rectangle(3, -50, 3.6, 50)}), {{3, 3.6}});
  EXPECT_TRUE(ray_crossings({0, 0}, kNorth, 12, {rectangle(3, -50, 3.6, 50)}).empty());
}

TEST(Ray, IsCutOffAtItsReach) {
  expect_intervals(ray_crossings({0, 0}, kEast, 3.2, {rectangle(3, -50, 3.6, 50)}), {{3, 3.2}});
  EXPECT_TRUE(ray_crossings({0, 0}, kEast, 2, {rectangle(3, -50, 3.6, 50)}).empty());
}

TEST(Ray, StartsInsideAtZeroAndDoesNotLookBack) {
  expect_intervals(ray_crossings({0, 0}, kEast, 12, {rectangle(-5, -5, 2, 5)}), {{0, 2}});
  EXPECT_TRUE(ray_crossings({0, 0}, kEast, 12, {rectangle(-5, -5, -2, 5)}).empty());
}

TEST(Ray, SeesAHole) {
  Polygon yard = rectangle(1, -5, 9, 5);
  yard.holes.push_back(rectangle(3, -1, 4, 1).outer);
  expect_intervals(ray_crossings({0, 0}, kEast, 20, {yard}), {{1, 3}, {4, 9}});
}

TEST(Ray, MergesPolygonsThatTouchOrOverlap) {
  const MultiPolygon two = {rectangle(1, -1, 3, 1), rectangle(3, -1, 4, 1)};
  expect_intervals(ray_crossings({0, 0}, kEast, 20, two), {{1, 4}});
  const MultiPolygon over = {rectangle(1, -1, 3, 1), rectangle(2, -1, 4, 1)};
  expect_intervals(ray_crossings({0, 0}, kEast, 20, over), {{1, 4}});
}

TEST(Ray, ThroughACornerCountsOnceAndATouchNotAtAll) {
  const Polygon diamond{{{2, 0}, {4, -2}, {6, 0}, {4, 2}}, {}};
  expect_intervals(ray_crossings({0, 0}, kEast, 20, {diamond}), {{2, 6}});
  EXPECT_TRUE(ray_crossings({0, 2}, kEast, 20, {diamond}).empty());
  EXPECT_TRUE(ray_crossings({0, -2}, kEast, 20, {diamond}).empty());
}

TEST(Ray, AlongAnEdgeSeesTheWholeEdgeOrNothingOfIt) {
  for (const Polygon& beside : {rectangle(1, -2, 3, 0), rectangle(1, 0, 3, 2)}) {
    const Intervals found = ray_crossings({0, 0}, kEast, 20, {beside});
    if (!found.empty()) expect_intervals(found, {{1, 3}});
  }
}

TEST(Ray, MeetsNothingInAnEmptyArea) {
  EXPECT_TRUE(ray_crossings({0, 0}, kEast, 20, {}).empty());
  EXPECT_TRUE(ray_crossings({0, 0}, kEast, 20, {Polygon{}}).empty());
  EXPECT_TRUE(ray_crossings({0, 0}, kEast, 0, {rectangle(-1, -1, 1, 1)}).empty());
}

RC_GTEST_PROP(Ray, PointsOnItAreInsideExactlyWhereItSaysSo, ()) {
  Dice dice(*rc::gen::arbitrary<std::uint32_t>());
  const MultiPolygon area = {test::star_polygon(dice, {5e5 + 5, 2e5}, 8),
                             test::star_polygon(dice, {5e5 - 4, 2e5 + 6}, 5)};
  const Point origin{5e5 + dice.between(-8, 8), 2e5 + dice.between(-8, 8)};
  const Angle direction = Angle::degrees(dice.between(0, 360));
  const Intervals found = ray_crossings(origin, direction, 15, area);
  for (int i = 0; i < 50; ++i) {
    const double s = dice.between(0, 15);
    double clear = 1;  // distance to the nearest end of an interval
    bool inside = false;
    for (const auto& [enter, leave] : found) {
      clear = std::min({clear, std::abs(s - enter), std::abs(s - leave)});
      inside = inside || (enter <= s && s <= leave);
    }
    if (clear < 1e-7) continue;
    RC_ASSERT(inside == contains(area, offset(origin, direction, Length::metres(s))));
  }
}

RC_GTEST_PROP(Ray, RaysAllRoundAddUpToTheArea, ()) {
  // The area seen from a point: sum of (leave^2 - enter^2) / 2 over directions.
  Dice dice(*rc::gen::arbitrary<std::uint32_t>());
  const MultiPolygon area = {test::star_polygon(dice, {4, 1}, 8)};
  constexpr int kRays = 1080;
  double sum = 0;
  for (int i = 0; i < kRays; ++i) {
    const Angle direction = Angle::degrees((i + 0.5) * 360.0 / kRays);
    for (const auto& [enter, leave] : ray_crossings({0, 0}, direction, 100, area))
      sum += (leave * leave - enter * enter) / 2 * 2 * std::numbers::pi / kRays;
  }
  RC_ASSERT(std::abs(sum - area_of(area).square_metres()) < 0.03 * area_of(area).square_metres());
}

}  // namespace
}  // namespace rootstead
