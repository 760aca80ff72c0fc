#include "engine/rules/redraw.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>

#include "engine/geom/circle_area.hpp"
#include "engine/geom/measure.hpp"
#include "tests/engine/rules/rule_builder.hpp"

namespace rootstead {
namespace {

using test::wall_from;

constexpr double kLong = 1000;

Length m(double value) {
  return Length::metres(value);
}

double area_of_outline(const MultiPolygon& outline) {
  double sum = 0;
  for (const Polygon& polygon : outline) sum += area_of(polygon).square_metres();
  return sum;
}

// Plane geometry: pi R^2 (1 - f(d/R)) = pi r^2.
TEST(EqualAreaRadius, AgreesWithTheClosedForms) {
  EXPECT_NEAR(equal_area_radius(m(6), m(3)).metres(), 6.8372, 5e-5);
  EXPECT_NEAR(equal_area_radius(m(6), m(1)).metres(), 7.8741, 5e-5);
  EXPECT_NEAR(equal_area_radius(m(6), m(0)).metres(), 6 * std::numbers::sqrt2, 1e-12);
  EXPECT_EQ(equal_area_radius(m(6), m(6)), m(6));
  EXPECT_EQ(equal_area_radius(m(6), m(7)), m(6));
}

RC_GTEST_PROP(EqualAreaRadius, KeepsTheAreaAndGrowsAsTheWallComesNearer, ()) {
  const double r = *rc::gen::inRange(1, 30000) / 1000.0;
  const double d = r * *rc::gen::inRange(0, 1000) / 1000.0;
  const Length radius = equal_area_radius(m(r), m(d));
  const double kept = (circle_area(radius) - segment_area(radius, m(d))).square_metres();
  RC_ASSERT(std::abs(kept / (std::numbers::pi * r * r) - 1) < 1e-12);
  RC_ASSERT(equal_area_radius(m(r), m(d * 0.99)) >= radius * (1 - 1e-15));
}

TEST(RedrawnAt, ALongWallGivesTheClosedForm) {
  const Redrawn redrawn = redrawn_at({{0, 0}, m(6)}, {wall_from({3, -kLong}, {3, kLong})});
  EXPECT_NEAR(redrawn.radius.metres(), equal_area_radius(m(6), m(3)).metres(), 1e-9);
  EXPECT_NEAR(redrawn.area.square_metres(), 36 * std::numbers::pi, 1e-8);
  EXPECT_NEAR(area_of_outline(redrawn.outline), 36 * std::numbers::pi, 0.02);
  EXPECT_EQ(redrawn.barriers, std::vector<std::string>{"wall"});
}

TEST(RedrawnAt, AWidthIsCountedFromTheNearFace) {
  Barrier wall = wall_from({3.5, -kLong}, {3.5, kLong});
  wall.width = test::metres(1);
  const Redrawn redrawn = redrawn_at({{0, 0}, m(6)}, {wall});
  EXPECT_NEAR(redrawn.radius.metres(), 6.8372, 5e-5);
}

TEST(RedrawnAt, AWallBeyondTheCircleChangesNothing) {
  const Redrawn redrawn = redrawn_at({{0, 0}, m(6)}, {wall_from({6.01, -kLong}, {6.01, kLong})});
  EXPECT_TRUE(redrawn.barriers.empty());
}

TEST(RedrawnAt, AShallowKerbStopsNoRoots) {
  Barrier kerb = wall_from({3, -kLong}, {3, kLong}, 0.3);
  kerb.kind = BarrierKind::kerb;
  EXPECT_FALSE(stops_roots(kerb));
  EXPECT_TRUE(redrawn_at({{0, 0}, m(6)}, {kerb}).barriers.empty());
}

TEST(RedrawnAt, AShortWallHidesOnlyItsShadow) {
  const Redrawn redrawn = redrawn_at({{0, 0}, m(6)}, {wall_from({3, -1}, {3, 1})});
  EXPECT_GT(redrawn.radius, m(6));
  EXPECT_LT(redrawn.radius, m(6.8372));
  // The shadow: a sector of twice atan(1/3), less the triangle before the wall.
  const double angle = 2 * std::atan2(1.0, 3.0), big = redrawn.radius.metres();
  const double hidden = angle / 2 * big * big - 3;
  EXPECT_NEAR(std::numbers::pi * big * big - hidden, 36 * std::numbers::pi, 1e-8);
}

TEST(RedrawnAt, AHouseHidesWhatStandsBehindIt) {
  Barrier house;
  house.id = "house";
  house.kind = BarrierKind::building;
  house.shape.areas = {{{{3, -1}, {5, -1}, {5, 1}, {3, 1}}, {}}};
  const Redrawn of_house = redrawn_at({{0, 0}, m(6)}, {house});
  const Redrawn of_wall = redrawn_at({{0, 0}, m(6)}, {wall_from({3, -1}, {3, 1})});
  EXPECT_NEAR(of_house.radius.metres(), of_wall.radius.metres(), 1e-9);
}

TEST(RedrawnAt, AStemInsideABuildingIsSaidAndNotRedrawn) {
  Barrier house;
  house.id = "house";
  house.kind = BarrierKind::building;
  house.shape.areas = {{{{-3, -1}, {5, -1}, {5, 1}, {-3, 1}}, {}}};
  const Redrawn redrawn = redrawn_at({{0, 0}, m(6)}, {house});
  EXPECT_EQ(redrawn.ignored, std::vector<std::string>{"house"});
  EXPECT_TRUE(redrawn.barriers.empty());
}

TEST(RedrawnAt, ATreeShutInIsNotGivenGroundWithoutEnd) {
  const std::vector<Barrier> street{wall_from({1, -kLong}, {1, kLong}),
                                    wall_from({-1, -kLong}, {-1, kLong})};
  const Redrawn redrawn = redrawn_at({{0, 0}, m(6)}, street);
  EXPECT_NEAR(redrawn.radius.metres(), 6 * kLargestStretch, 1e-9);
  EXPECT_LT(redrawn.area.square_metres(), 36 * std::numbers::pi);
}

TEST(RedrawnAt, ACornerAtTheStemNeedsTwiceTheRadius) {
  // Two walls at a right angle, a hand's breadth from the stem.
  const std::vector<Barrier> corner{wall_from({0.01, -kLong}, {0.01, kLong}),
                                    wall_from({-kLong, 0.01}, {kLong, 0.01})};
  const Redrawn redrawn = redrawn_at({{0, 0}, m(6)}, corner);
  EXPECT_NEAR(redrawn.radius.metres(), 12, 0.05);
}

RC_GTEST_PROP(RedrawnAt, TurningAndMovingTheSiteChangesNothing, ()) {
  const double angle = *rc::gen::inRange(0, 360) * std::numbers::pi / 180;
  const double x = *rc::gen::inRange(-500000, 500000), y = *rc::gen::inRange(0, 6000000);
  const double near = *rc::gen::inRange(5, 59) / 10.0;
  const auto turned = [&](double px, double py) {
    return Point{x + px * std::cos(angle) - py * std::sin(angle),
                 y + px * std::sin(angle) + py * std::cos(angle)};
  };
  const Barrier plain = wall_from({near, -4}, {near, 9});
  const Barrier moved = wall_from(turned(near, -4), turned(near, 9));
  const Redrawn a = redrawn_at({{0, 0}, m(6)}, {plain}), b = redrawn_at({{x, y}, m(6)}, {moved});
  RC_ASSERT(std::abs((a.radius - b.radius).metres()) < 1e-6);
}

RC_GTEST_PROP(RedrawnAt, TheAreaIsThatOfTheCircleOrLess, ()) {
  const auto coordinate = rc::gen::map(rc::gen::inRange(-120, 120), [](int v) { return v / 10.0; });
  std::vector<Barrier> walls;
  const int count = *rc::gen::inRange(1, 5);
  for (int i = 0; i < count; ++i) {
    walls.push_back(wall_from({*coordinate, *coordinate}, {*coordinate, *coordinate}));
  }
  const Redrawn redrawn = redrawn_at({{0, 0}, m(6)}, walls);
  if (redrawn.barriers.empty()) return;
  RC_ASSERT(redrawn.radius >= m(6) * (1 - 1e-12));
  RC_ASSERT(redrawn.radius <= m(6 * kLargestStretch) * (1 + 1e-12));
  RC_ASSERT(redrawn.area <= circle_area(m(6)) * (1 + 1e-9));
  RC_ASSERT(std::abs(area_of_outline(redrawn.outline) - redrawn.area.square_metres()) < 0.05);
}

}  // namespace
}  // namespace rootstead
