#include "engine/geom/measure.hpp"

#include <algorithm>
#include <cmath>

#include "tests/engine/geom/random_shapes.hpp"

namespace rootstead {
namespace {

using test::Dice;
using test::rectangle;

TEST(Measure, TheAreaOfATriangleIsHalfBaseTimesHeight) {
  const Ring triangle = {{0, 0}, {4, 0}, {1, 3}};
  EXPECT_DOUBLE_EQ(signed_area(triangle), 6);
  EXPECT_DOUBLE_EQ(signed_area({triangle.rbegin(), triangle.rend()}), -6);
  EXPECT_EQ(signed_area({}), 0);
  EXPECT_EQ(signed_area({{1, 1}, {2, 2}}), 0);
}

TEST(Measure, AHoleIsTakenFromTheAreaInEitherOrientation) {
  Polygon frame = rectangle(0, 0, 10, 10);
  frame.holes.push_back(rectangle(2, 2, 4, 5).outer);
  EXPECT_DOUBLE_EQ(area_of(frame).square_metres(), 94);
  std::reverse(frame.holes[0].begin(), frame.holes[0].end());
  EXPECT_DOUBLE_EQ(area_of(frame).square_metres(), 94);
}

TEST(Measure, CoordinatesOfAMillionMetresCostNoDigitsOfAnArea) {
  const Polygon square = rectangle(1312345.5, 6876543.25, 1312346.5, 6876544.25);
  EXPECT_EQ(area_of(square).square_metres(), 1);
  const Point middle = centroid_of(square);
  EXPECT_DOUBLE_EQ(middle.x, 1312346);
  EXPECT_DOUBLE_EQ(middle.y, 6876543.75);
}

TEST(Measure, TheCentroidOfAFrameLeavesItsHoleOut) {
  Polygon frame = rectangle(0, 0, 10, 10);
  frame.holes.push_back(rectangle(5, 0, 10, 10).outer);
  EXPECT_NEAR(centroid_of(frame).x, 2.5, 1e-12);
  EXPECT_NEAR(centroid_of(frame).y, 5, 1e-12);
  EXPECT_NEAR(centroid_of({{{1, 1}, {3, 3}}, {}}).x, 2, 1e-12);  // no area: the mean
}

TEST(Measure, LengthsAndBoxesAreThoseOfThePoints) {
  EXPECT_DOUBLE_EQ(length_of({{0, 0}, {3, 4}, {3, 10}}).metres(), 11);
  EXPECT_EQ(length_of({{7, 7}}).metres(), 0);
  EXPECT_TRUE(box_of(Line{}).empty());
  const Box box = box_of(Line{{1, 9}, {-2, 4}, {5, 6}});
  EXPECT_EQ(box.min_x, -2);
  EXPECT_EQ(box.min_y, 4);
  EXPECT_EQ(box.max_x, 5);
  EXPECT_EQ(box.max_y, 9);
  EXPECT_EQ(joined(Box{}, box).max_y, 9);
  EXPECT_DOUBLE_EQ(distance(Point{8, 0}, box).metres(), 5);
  EXPECT_EQ(distance(Point{0, 5}, box).metres(), 0);
}

TEST(Measure, PointsOnTheBoundaryCountAsInside) {
  Polygon frame = rectangle(0, 0, 10, 10);
  frame.holes.push_back(rectangle(2, 2, 4, 4).outer);
  for (const Point& p : {Point{0, 0}, {10, 10}, {5, 0}, {0, 7}, {10, 3}, {1, 1}, {2, 3}, {4, 4}})
    EXPECT_TRUE(contains(frame, p)) << p.x << " " << p.y;
  for (const Point& p : {Point{-1, 0}, {11, 10}, {5, -1}, {3, 3}, {-1, 10}, {20, 0}})
    EXPECT_FALSE(contains(frame, p)) << p.x << " " << p.y;
  EXPECT_FALSE(contains(Polygon{}, {0, 0}));
  EXPECT_FALSE(contains(MultiPolygon{}, {0, 0}));
}

TEST(Measure, ARayThroughACornerCountsItOnce) {
  const Polygon diamond{{{2, 0}, {4, -2}, {6, 0}, {4, 2}}, {}};
  EXPECT_FALSE(contains(diamond, {0, 0}));
  EXPECT_FALSE(contains(diamond, {0, 2}));
  EXPECT_FALSE(contains(diamond, {0, -2}));
  EXPECT_TRUE(contains(diamond, {3, 0}));
}

TEST(Measure, AzimuthsRunClockwiseFromNorth) {
  EXPECT_NEAR(azimuth({0, 0}, {0, 5}).degrees(), 0, 1e-12);
  EXPECT_NEAR(azimuth({0, 0}, {5, 0}).degrees(), 90, 1e-12);
  EXPECT_NEAR(azimuth({0, 0}, {0, -5}).degrees(), 180, 1e-12);
  EXPECT_NEAR(azimuth({0, 0}, {-5, 0}).degrees(), 270, 1e-12);
  EXPECT_LT(azimuth({0, 0}, {-1e-30, 5}).degrees(), 360);
}

RC_GTEST_PROP(Measure, OffsetGoesTheDistanceInTheDirection, ()) {
  Dice dice(*rc::gen::arbitrary<std::uint32_t>());
  const Point from{dice.between(-100, 100), dice.between(-100, 100)};
  const double degrees = dice.between(0.001, 359.999), metres = dice.between(0.01, 50);
  const Point to = offset(from, Angle::degrees(degrees), Length::metres(metres));
  RC_ASSERT(std::abs(azimuth(from, to).degrees() - degrees) < 1e-8);
  RC_ASSERT(std::abs(distance(from, to).metres() - metres) < 1e-11);
}

}  // namespace
}  // namespace rootstead
