#include "engine/rules/crown_zone.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>

#include "engine/geom/measure.hpp"

namespace rootstead {
namespace {

TEST(GrownCrown, OfARoundCrownIsACircle) {
  const GrownCrown crown{{5, 5, 5, 5}, 1.5};
  EXPECT_TRUE(crown.is_circle());
  EXPECT_NEAR(crown.area().square_metres(), std::numbers::pi * 6.5 * 6.5, 1e-10);  // DIN: 132.732
}

// An ellipse with half axes 5 and 3 has the perimeter 25.52699886 (complete elliptic integral of
// the second kind, Abramowitz and Stegun 17.3.3).
TEST(GrownCrown, GrowsByTheSteinerFormula) {
  const GrownCrown crown{{3, 5, 3, 5}, 2};
  EXPECT_NEAR(crown.area().square_metres(),
              std::numbers::pi * 15 + 25.526998863398124 * 2 + std::numbers::pi * 4, 1e-9);
}

TEST(GrownCrown, OfAOneSidedCrownIsStillClosed) {
  const GrownCrown crown{{4, 6, 4, 0}, 1};  // nothing to the west
  EXPECT_FALSE(crown.is_circle());
  EXPECT_NEAR(area_of(crown.outline({0, 0}, 400)).square_metres(), crown.area().square_metres(),
              1e-3);
}

TEST(GrownCrown, WithoutAnyRadiusIsTheOffsetAlone) {
  const GrownCrown crown{{0, 0, 0, 0}, 2};
  EXPECT_NEAR(crown.area().square_metres(), std::numbers::pi * 4, 1e-12);
}

RC_GTEST_PROP(GrownCrown, OutlineApproachesTheAreaFromBelowAndStaysWithinReach, ()) {
  const auto length = rc::gen::map(rc::gen::inRange(0, 150), [](int v) { return v / 10.0; });
  const GrownCrown crown{{*length, *length, *length, *length}, *length};
  const Polygon outline = crown.outline({100, 200});
  const double exact = crown.area().square_metres(), drawn = area_of(outline).square_metres();
  RC_ASSERT(drawn <= exact * (1 + 1e-12) + 1e-12);
  // A crown to one side only, hardly grown, is drawn worst: 6e-4 too small.
  RC_ASSERT(drawn >= exact * (1 - 1e-3) - 1e-9);
  for (const Point& point : outline.outer) {
    const double away = std::hypot(point.x - 100, point.y - 200);
    RC_ASSERT(away <= crown.reach().metres() + 1e-9);
    RC_ASSERT(away >= crown.nearest().metres() - 1e-9);
  }
}

}  // namespace
}  // namespace rootstead
