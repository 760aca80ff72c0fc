#include "engine/geom/eikonal.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/geom/measure.hpp"

namespace rootstead {
namespace {

TEST(TravelDistance, InOpenGroundIsTheStraightDistance) {
  const PlanGrid grid = PlanGrid::around({10, 20}, Length::metres(6), Length::metres(0.2));
  const TravelMap map = travel_from({10, 20}, grid, std::vector<double>(grid.count(), 1));
  for (int row = 0; row < grid.rows; ++row)
    for (int column = 0; column < grid.columns; ++column) {
      const Point centre = grid.centre(column, row);
      EXPECT_NEAR(map.times()[grid.index(column, row)], distance({10, 20}, centre).metres(), 1e-9);
    }
  EXPECT_NEAR(map.at({13.05, 24.02}), std::hypot(3.05, 4.02), 1e-9);
  const Line way = map.way_back({13.05, 24.02});
  ASSERT_GE(way.size(), 2u);
  EXPECT_EQ(way.back(), (Point{10, 20}));
  EXPECT_NEAR(length_of(way).metres(), std::hypot(3.05, 4.02), 1e-3);
}

}  // namespace
}  // namespace rootstead
