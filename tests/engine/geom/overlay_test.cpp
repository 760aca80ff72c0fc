#include "engine/geom/overlay.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <thread>

#include "engine/geom/measure.hpp"
#include "tests/engine/geom/random_shapes.hpp"

namespace rootstead {
namespace {

using std::numbers::pi;
using test::Dice;
using test::rectangle;

double m2(const MultiPolygon& area) {
  return area_of(area).square_metres();
}

TEST(Overlay, TheUnionOfOverlappingSquaresCountsNothingTwice) {
  const MultiPolygon both = union_of({{rectangle(0, 0, 2, 2)}, {rectangle(1, 1, 3, 3)}});
  EXPECT_EQ(both.size(), 1u);
  EXPECT_NEAR(m2(both), 7, 1e-12);
  EXPECT_NEAR(m2(intersection_of({rectangle(0, 0, 2, 2)}, {rectangle(1, 1, 3, 3)})), 1, 1e-12);
  EXPECT_NEAR(m2(difference_of({rectangle(0, 0, 2, 2)}, {rectangle(1, 1, 3, 3)})), 3, 1e-12);
}

TEST(Overlay, RingsComeBackOpenOuterCounterClockwiseAndHolesClockwise) {
  const MultiPolygon frame = difference_of({rectangle(0, 0, 9, 9)}, {rectangle(2, 2, 4, 4)});
  ASSERT_EQ(frame.size(), 1u);
  ASSERT_EQ(frame[0].holes.size(), 1u);
  EXPECT_EQ(frame[0].outer.size(), 4u);
  EXPECT_NE(frame[0].outer.front(), frame[0].outer.back());
  EXPECT_GT(signed_area(frame[0].outer), 0);
  EXPECT_LT(signed_area(frame[0].holes[0]), 0);
}

TEST(Overlay, NothingInIsNothingOut) {
  const MultiPolygon square = {rectangle(0, 0, 2, 2)};
  EXPECT_TRUE(union_of({}).empty());
  EXPECT_TRUE(union_of({{}, {}}).empty());
  EXPECT_TRUE(union_of({{Polygon{}}}).empty());
  EXPECT_TRUE(intersection_of(square, {}).empty());
  EXPECT_TRUE(intersection_of({}, square).empty());
  EXPECT_TRUE(intersection_of(square, {rectangle(5, 5, 6, 6)}).empty());
  EXPECT_TRUE(intersection_of(square, {rectangle(2, 0, 4, 2)}).empty());  // they share an edge only
  EXPECT_TRUE(difference_of({}, square).empty());
  EXPECT_NEAR(m2(difference_of(square, {})), 4, 1e-12);
  EXPECT_TRUE(grown({}, Length::metres(1)).empty());
  EXPECT_TRUE(corridor({}, Length::metres(1)).empty());
}

TEST(Overlay, BadPolygonsAreRepairedOrVanish) {
  const Polygon bow_tie{{{0, 0}, {2, 2}, {2, 0}, {0, 2}}, {}};
  EXPECT_FALSE(is_valid({bow_tie}));
  EXPECT_NEAR(m2(union_of({{bow_tie}})), 2, 1e-12);
  const Polygon line{{{0, 0}, {1, 1}, {2, 2}}, {}};
  EXPECT_FALSE(is_valid({line}));
  EXPECT_TRUE(union_of({{line}}).empty());
  EXPECT_TRUE(union_of({{{{{1, 1}, {1, 1}, {2, 2}}, {}}}}).empty());
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const double inf = std::numeric_limits<double>::infinity();
  const Polygon broken{{{0, 0}, {nan, 1}, {2, 0}, {2, 2}, {inf, inf}, {0, 2}}, {}};
  EXPECT_FALSE(is_valid({broken}));
  EXPECT_NEAR(m2(union_of({{broken}})), 4, 1e-12);
  Polygon hole_outside = rectangle(0, 0, 2, 2);
  hole_outside.holes.push_back(rectangle(5, 5, 6, 6).outer);
  EXPECT_FALSE(is_valid({hole_outside}));
  EXPECT_GE(m2(union_of({{hole_outside}})), 4 - 1e-12);
}

TEST(Overlay, PolygonsThatOverlapWithinOneAreaAreJoinedFirst) {
  const MultiPolygon doubled = {rectangle(0, 0, 2, 2), rectangle(1, 0, 3, 2)};
  EXPECT_FALSE(is_valid(doubled));
  EXPECT_NEAR(m2(intersection_of(doubled, {rectangle(-9, -9, 9, 9)})), 6, 1e-12);
  EXPECT_NEAR(m2(difference_of(doubled, {rectangle(0, 0, 1, 2)})), 4, 1e-12);
}

TEST(Overlay, ValidPolygonsAreSaidToBe) {
  EXPECT_TRUE(is_valid({}));
  EXPECT_TRUE(is_valid({rectangle(0, 0, 2, 2), rectangle(3, 0, 4, 2)}));
}

TEST(Overlay, CoordinatesOfAMillionMetresCostNoDigits) {
  const double x = 1312345.678, y = 6876543.211;
  const MultiPolygon a = {rectangle(x, y, x + 10, y + 10)};
  const MultiPolygon b = {rectangle(x + 5, y + 5, x + 15, y + 15)};
  EXPECT_NEAR(m2(union_of({a, b})), 175, 1e-6);
}

// --- corridors ---

TEST(Corridor, OfAStraightLineHasTwiceTheHalfWidthTimesTheLength) {
  EXPECT_NEAR(m2(corridor({{3, 4}, {33, 44}}, Length::metres(0.3))), 2 * 0.3 * 50, 1e-10);
  EXPECT_NEAR(m2(corridor({{0, 0}, {10, 0}, {25, 0}}, Length::metres(0.3))), 15, 1e-10);
}

TEST(Corridor, OfARightAngleIsMitred) {
  // Two arms of 10 m, 1 m wide: 2 x 10 x 1, overlap and corner square cancel out.
  EXPECT_NEAR(m2(corridor({{0, 0}, {10, 0}, {10, 10}}, Length::metres(0.5))), 20, 1e-10);
  const Box box = box_of(corridor({{0, 0}, {10, 0}, {10, 10}}, Length::metres(0.5)));
  EXPECT_NEAR(box.max_x, 10.5, 1e-12);
  EXPECT_NEAR(box.min_y, -0.5, 1e-12);
  EXPECT_NEAR(box.min_x, 0, 1e-12);  // flat end
}

TEST(Corridor, CutsAVerySharpCornerAcross) {
  const double sharp = m2(corridor({{0, 0}, {10, 0}, {0, 0.5}}, Length::metres(0.5)));
  const Box box = box_of(corridor({{0, 0}, {10, 0}, {0, 0.5}}, Length::metres(0.5)));
  EXPECT_LT(box.max_x, 10.6);  // the full mitre would end 20 m further on
  EXPECT_GT(sharp, 10);
  EXPECT_NEAR(m2(corridor({{0, 0}, {10, 0}, {0, 0}}, Length::metres(0.5))), 10, 1e-10);
}

TEST(Corridor, OfAClosedLineIsARing) {
  const Line square = {{0, 0}, {10, 0}, {10, 10}, {0, 10}, {0, 0}};
  const MultiPolygon ring = corridor(square, Length::metres(0.5));
  ASSERT_EQ(ring.size(), 1u);
  EXPECT_EQ(ring[0].holes.size(), 1u);
  EXPECT_NEAR(m2(ring), 11 * 11 - 9 * 9, 1e-10);
}

TEST(Corridor, NeedsALengthAndAWidth) {
  EXPECT_TRUE(corridor({{1, 1}}, Length::metres(1)).empty());
  EXPECT_TRUE(corridor({{1, 1}, {1, 1}}, Length::metres(1)).empty());
  EXPECT_TRUE(corridor({{1, 1}, {2, 2}}, Length()).empty());
  EXPECT_TRUE(corridor({{1, 1}, {2, 2}}, Length::metres(-1)).empty());
}

Line any_line(Dice& dice) {
  Line line;
  const int points = dice.whole(2, 8);
  for (int i = 0; i < points; ++i) line.push_back({dice.between(0, 60), dice.between(0, 60)});
  return line;
}

RC_GTEST_PROP(Corridor, AWiderOneHoldsTheNarrowerOne, ()) {
  Dice dice(*rc::gen::arbitrary<std::uint32_t>());
  const Line line = any_line(dice);
  const double width = dice.between(0.05, 2);
  const MultiPolygon narrow = corridor(line, Length::metres(width));
  const MultiPolygon wide = corridor(line, Length::metres(width * 1.1));
  RC_ASSERT(m2(difference_of(narrow, wide)) < 1e-9);
}

RC_GTEST_PROP(Corridor, HoldsEveryPointBesideTheLineAndIsValid, ()) {
  Dice dice(*rc::gen::arbitrary<std::uint32_t>());
  const Line line = any_line(dice);
  const MultiPolygon area = corridor(line, Length::metres(1));
  RC_ASSERT(is_valid(area));
  for (std::size_t i = 1; i < line.size(); ++i) {
    const Angle along = azimuth(line[i - 1], line[i]);
    const Length way = distance(line[i - 1], line[i]) * dice.between(0.01, 0.99);
    const Point on = offset(line[i - 1], along, way);
    RC_ASSERT(contains(area, on));
    const Angle aside = along + Angle::degrees(90);
    RC_ASSERT(contains(area, offset(on, aside, Length::metres(0.999))));
    RC_ASSERT(contains(area, offset(on, aside, Length::metres(-0.999))));
  }
}

// --- growth ---

TEST(Grown, ASquareGrowsByItsSidesAndRoundCorners) {
  const double exact = 16 + 4 * 4 * 0.5 + pi * 0.25;
  const double area = m2(grown({rectangle(0, 0, 4, 4)}, Length::metres(0.5)));
  EXPECT_LE(area, exact);
  EXPECT_NEAR(area, exact, pi * 0.25 * 4.1e-4);
}

TEST(Grown, AShrunkenSquareKeepsItsCorners) {
  EXPECT_NEAR(m2(grown({rectangle(0, 0, 4, 4)}, Length::metres(-0.5))), 9, 1e-12);
  EXPECT_TRUE(grown({rectangle(0, 0, 4, 4)}, Length::metres(-3)).empty());
}

TEST(Grown, ByNothingIsTheSameArea) {
  EXPECT_NEAR(m2(grown({rectangle(0, 0, 4, 4)}, Length())), 16, 1e-12);
}

// --- distance ---

TEST(Distance, ToAnAreaIsToItsNearestEdgeAndNilInside) {
  Polygon yard = rectangle(3, -5, 9, 5);
  yard.holes.push_back(rectangle(5, -1, 7, 1).outer);
  EXPECT_NEAR(distance_between(Point{0, 0}, MultiPolygon{yard}).metres(), 3, 1e-12);
  EXPECT_NEAR(distance_between(Point{0, 9}, MultiPolygon{yard}).metres(), 5, 1e-12);
  EXPECT_EQ(distance_between(Point{4, 0}, MultiPolygon{yard}).metres(), 0);
  EXPECT_EQ(distance_between(Point{3, 0}, MultiPolygon{yard}).metres(), 0);
  EXPECT_NEAR(distance_between(Point{6.2, 0}, MultiPolygon{yard}).metres(), 0.8, 1e-12);
  EXPECT_TRUE(std::isinf(distance_between(Point{0, 0}, MultiPolygon{}).metres()));
}

TEST(Distance, ToALineIsToItsNearestPoint) {
  EXPECT_NEAR(distance_between(Point{0, 3}, Line{{-5, 0}, {5, 0}}).metres(), 3, 1e-12);
  EXPECT_NEAR(distance_between(Point{8, 4}, Line{{-5, 0}, {5, 0}}).metres(), 5, 1e-12);
  EXPECT_NEAR(distance_between(Point{3, 4}, Line{{0, 0}}).metres(), 5, 1e-12);
  EXPECT_TRUE(std::isinf(distance_between(Point{0, 0}, Line{}).metres()));
}

// --- properties ---

RC_GTEST_PROP(Overlay, UnionAndIntersectionAddUpToTheParts, ()) {
  Dice dice(*rc::gen::arbitrary<std::uint32_t>());
  const MultiPolygon a = {test::star_polygon(dice, {5e5, 2e5}, 10)};
  const MultiPolygon b = {test::star_polygon(dice, {5e5 + dice.between(-9, 9), 2e5}, 7)};
  const double sum = m2(union_of({a, b})) + m2(intersection_of(a, b));
  RC_ASSERT(std::abs(sum - m2(a) - m2(b)) < 1e-6);
  RC_ASSERT(std::abs(m2(difference_of(a, b)) + m2(intersection_of(a, b)) - m2(a)) < 1e-6);
}

RC_GTEST_PROP(Overlay, AnyHeapOfPointsIsTakenWithoutComplaint, ()) {
  // A coarse grid makes crossings, spikes and repeated points frequent.
  const int count = *rc::gen::inRange(0, 30);
  const auto points = *rc::gen::container<std::vector<std::pair<int, int>>>(
      static_cast<std::size_t>(count),
      rc::gen::pair(rc::gen::inRange(0, 6), rc::gen::inRange(0, 6)));
  Polygon heap;
  for (const auto& [x, y] : points)
    heap.outer.push_back({static_cast<double>(x), static_cast<double>(y)});
  const MultiPolygon clean = union_of({{heap}});
  RC_ASSERT(is_valid(clean));
  RC_ASSERT(m2(clean) <= 36 + 1e-9);
  RC_ASSERT(m2(grown({heap}, Length::metres(0.2))) >= m2(clean));
}

TEST(Overlay, ManyThreadsGetTheSameAnswer) {
  Dice dice = test::announced_dice(77);
  std::vector<MultiPolygon> parts;
  for (int i = 0; i < 40; ++i)
    parts.push_back({test::star_polygon(dice, {dice.between(0, 40), dice.between(0, 40)}, 8)});
  const MultiPolygon alone = union_of(parts);
  std::vector<MultiPolygon> found(4);
  std::vector<std::thread> threads;
  for (MultiPolygon& result : found) {
    threads.emplace_back([&result, &parts] {
      for (int i = 0; i < 5; ++i) result = union_of(parts);
    });
  }
  for (std::thread& thread : threads) thread.join();
  for (const MultiPolygon& result : found) EXPECT_EQ(result, alone);
}

}  // namespace
}  // namespace rootstead
