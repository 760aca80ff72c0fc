// Places along a line by chainage.
#include "engine/geom/along.hpp"

#include <gtest/gtest.h>

#include "tests/engine/geom/random_shapes.hpp"

namespace rootstead::test {
namespace {

const Line kCorner = {{0, 0}, {10, 0}, {10, 10}};

TEST(Along, RunsOnRoundACorner) {
  const auto on = inside(kCorner, {rectangle(8, -1, 12, 3)});
  ASSERT_EQ(on.size(), 1U);
  EXPECT_NEAR(on[0].first, 8, 1e-9);
  EXPECT_NEAR(on[0].second, 13, 1e-9);
  const auto round = inside(kCorner, Circle{{5, 0}, Length::metres(2)});
  ASSERT_EQ(round.size(), 1U);
  EXPECT_NEAR(round[0].first, 3, 1e-9);
  EXPECT_NEAR(round[0].second, 7, 1e-9);
}

TEST(Along, FindsPlacesBothWays) {
  EXPECT_NEAR(nearest_chainage(kCorner, {12, 4}), 14, 1e-9);
  EXPECT_NEAR(point_along(kCorner, 14).y, 4, 1e-9);
  EXPECT_EQ(part_of(kCorner, 5, 15).size(), 3U);
}

}  // namespace
}  // namespace rootstead::test
