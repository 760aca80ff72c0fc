#include "engine/screening/ring_area.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "engine/geom/circle_area.hpp"
#include "engine/geom/measure.hpp"
#include "tests/support/site_builder.hpp"

namespace rootstead {
namespace {

constexpr double kPi = std::numbers::pi;

double common(const Point& centre, double radius, const Ring& ring) {
  return common_area(Circle{centre, Length::metres(radius)}, Polygon{ring, {}}).square_metres();
}

Ring turned(const Ring& ring, double angle) {
  Ring made;
  const double c = std::cos(angle), s = std::sin(angle);
  for (const Point& p : ring) made.push_back({c * p.x - s * p.y, s * p.x + c * p.y});
  return made;
}

TEST(RingArea, ClosedForms) {
  const auto square = [](double x0, double y0, double x1, double y1) {
    return test::rectangle(x0, y0, x1, y1)[0].outer;
  };
  EXPECT_NEAR(area_in_circle({0, 0}, 5, square(-50, -50, 50, 50)), 25 * kPi, 1e-13);
  EXPECT_EQ(area_in_circle({0, 0}, 5, square(6, -50, 50, 50)), 0);
  EXPECT_EQ(area_in_circle({0, 0}, 5, square(-1, -2, 1, 2)), 8);
  EXPECT_NEAR(area_in_circle({0, 0}, 5, square(-50, 0, 50, 50)), 12.5 * kPi, 1e-13);
  EXPECT_NEAR(area_in_circle({0, 0}, 5, square(0, 0, 50, 50)), 6.25 * kPi, 1e-13);
  EXPECT_NEAR(area_in_circle({0, 0}, 5, square(5, -1, 6, 1)), 0, 1e-13);
  EXPECT_NEAR(area_in_circle({0, 0}, std::sqrt(2.0), square(-1, -1, 1, 1)), 4, 1e-13);
}

// A ring that goes round the circle nearly twice its own way and never meets it.
TEST(RingArea, AHorseshoeRoundTheCircleIsOutside) {
  const Ring horseshoe{{-9, -9}, {9, -9},  {9, 9},  {1, 9},  {1, 8},  {8, 8},
                       {8, -8},  {-8, -8}, {-8, 8}, {-1, 8}, {-1, 9}, {-9, 9}};
  EXPECT_EQ(area_in_circle({0, 0}, 5, horseshoe), 0);
}

// Edges on the very line through the centre, at every angle: where a corner lies behind the place
// at which the ring left the circle, rounding must not cost or give a turn.
TEST(RingArea, EdgesThroughTheCentreCostNoTurn) {
  const Ring half{{-50, 0}, {-20, 0}, {37, 0}, {50, 0}, {50, 3}, {-50, 3}};
  const double expected = common({0, 0}, 5, half);
  for (int i = 0; i < 3600; ++i) {
    const Ring ring = turned(half, i * kPi / 1800);
    ASSERT_NEAR(area_in_circle({0, 0}, 5, ring), expected, 1e-12) << i;
    const Ring back(ring.rbegin(), ring.rend());
    ASSERT_NEAR(area_in_circle({0, 0}, 5, back), expected, 1e-12) << i;
  }
}

RC_GTEST_PROP(RingArea, IsCommonArea, ()) {
  RandomStream random(static_cast<std::uint64_t>(*rc::gen::inRange(0, 1'000'000)), "ring");
  for (int i = 0; i < 20; ++i) {
    const double scale = std::pow(10, random.uniform(-1, 2));
    const int corners = 3 + static_cast<int>(random.uniform() * 20);
    const Point at{random.uniform(-15, 15), random.uniform(-15, 15)};
    Ring ring = test::random_patch(random, at, scale, corners).outer;
    if (i % 3 == 0)  // corners on round numbers meet the circle and the axes exactly
      for (Point& p : ring) p = {std::round(p.x), std::round(p.y)};
    if (i % 2 == 0) std::reverse(ring.begin(), ring.end());
    const double radius = i % 3 == 0 ? std::round(random.uniform(1, 15)) : random.uniform(0.5, 15);
    const double slack = 1e-11 * kPi * radius * radius;
    RC_ASSERT(std::abs(area_in_circle({0, 0}, radius, ring) - common({0, 0}, radius, ring)) <=
              slack);
  }
}

}  // namespace
}  // namespace rootstead
