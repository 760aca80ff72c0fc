#include "engine/geom/plan_grid.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numeric>

#include "engine/base/random.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"

namespace rootstead {
namespace {

int count(const std::vector<unsigned char>& cells) {
  return std::accumulate(cells.begin(), cells.end(), 0);
}
MultiPolygon rectangle(double x0, double y0, double x1, double y1) {
  return {{{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}, {}}};
}
const PlanGrid kTen{{0, 0}, 1, 10, 10};

TEST(PlanGrid, LiesRoundItsMiddleAndCoversTheReach) {
  for (const double reach : {0.0, 0.05, 0.1, 3.0, 7.31}) {
    const PlanGrid grid = PlanGrid::around({5, -2}, Length::metres(reach), Length::metres(0.2));
    ASSERT_EQ(grid.columns % 2, 1);
    const Point middle = grid.centre(grid.columns / 2, grid.rows / 2);
    EXPECT_NEAR(middle.x, 5, 1e-12);
    EXPECT_NEAR(middle.y, -2, 1e-12);
    EXPECT_LE(grid.corner.x, 5 - reach + 1e-12);
    EXPECT_GE(grid.corner.x + grid.columns * grid.cell, 5 + reach - 1e-12);
    EXPECT_GT(grid.corner.x, 5 - reach - 0.2 - 1e-12) << "and no more than a cell beyond";
  }
}

TEST(PlanGrid, AnAreaAlongTheSidesOfCellsTouchesThoseInsideOnly) {
  EXPECT_EQ(count(cells_touched(kTen, rectangle(2, 3, 5, 4))), 3);
  EXPECT_EQ(count(cells_inside(kTen, rectangle(2, 3, 5, 4))), 3);
}

TEST(PlanGrid, ASliverIsTouchedThoughNoCentreIsInside) {
  EXPECT_EQ(count(cells_touched(kTen, rectangle(2.1, 3.1, 5.2, 3.2))), 4);
  EXPECT_EQ(count(cells_inside(kTen, rectangle(2.1, 3.1, 5.2, 3.2))), 0);
}

TEST(PlanGrid, AHoleIsLeftOutAndItsEdgeIsTouched) {
  MultiPolygon frame = rectangle(0, 0, 10, 10);
  frame[0].holes.push_back(rectangle(2.5, 2.5, 7.5, 7.5)[0].outer);
  EXPECT_EQ(count(cells_touched(kTen, frame)), 100 - 16);
  EXPECT_EQ(count(cells_inside(kTen, rectangle(-50, -50, 50, 50))), 100);
  EXPECT_EQ(count(cells_touched(kTen, rectangle(20, 20, 30, 30))), 0);
}

TEST(PlanGrid, PointsThatAreNotFiniteAreLeftOut) {
  MultiPolygon odd = rectangle(2, 3, 5, 4);
  odd[0].outer.push_back({std::nan(""), 1});
  EXPECT_EQ(count(cells_touched(kTen, odd)), 3);
  EXPECT_EQ(count(cells_touched(kTen, {Polygon{}})), 0);
}

// Against overlay: a cell is touched where its square and the area have ground in common.
RC_GTEST_PROP(PlanGridProperty, CellsTouchedAreThoseWithGroundInCommon, ()) {
  RandomStream random(*rc::gen::arbitrary<std::uint64_t>(), "polygon");
  Ring ring;
  const int corners = 3 + static_cast<int>(random.next() % 6);
  for (int i = 0; i < corners; ++i) {
    const double angle = 6.283 * (i + 0.8 * random.uniform()) / corners;
    const double radius = random.uniform(0.3, 5);
    ring.push_back({5 + radius * std::cos(angle), 5 + radius * std::sin(angle)});
  }
  const MultiPolygon area = {{ring, {}}};
  const auto touched = cells_touched(kTen, area), inside = cells_inside(kTen, area);
  for (int row = 0; row < 10; ++row) {
    for (int column = 0; column < 10; ++column) {
      const MultiPolygon square = rectangle(column, row, column + 1, row + 1);
      const double common = area_of(intersection_of(area, square)).square_metres();
      const std::size_t cell = kTen.index(column, row);
      if (common > 1e-8) RC_ASSERT(touched[cell] == 1);
      if (common == 0) RC_ASSERT(touched[cell] == 0);
      RC_ASSERT((inside[cell] == 1) == contains(area, kTen.centre(column, row)));
    }
  }
}

// An unbroken thin wall leaves no gap: no two open cells on its two sides share a side.
RC_GTEST_PROP(PlanGridProperty, AThinWallLeavesNoGap, ()) {
  RandomStream random(*rc::gen::arbitrary<std::uint64_t>(), "wall");
  const double slope = random.uniform(-1, 1), offset = random.uniform(3, 7);
  const auto north = [&](double x) { return offset + slope * (x - 5); };
  const double thin = 1e-6;
  const MultiPolygon wall = {
      {{{-1, north(-1)}, {11, north(11)}, {11, north(11) + thin}, {-1, north(-1) + thin}}, {}}};
  const auto touched = cells_touched(kTen, wall);
  const auto side = [&](int column, int row) {
    const Point p = kTen.centre(column, row);
    return p.y > north(p.x);
  };
  for (int row = 0; row < 9; ++row) {
    for (int column = 0; column < 9; ++column) {
      if (touched[kTen.index(column, row)] == 1) continue;
      if (touched[kTen.index(column + 1, row)] == 0)
        RC_ASSERT(side(column, row) == side(column + 1, row));
      if (touched[kTen.index(column, row + 1)] == 0)
        RC_ASSERT(side(column, row) == side(column, row + 1));
    }
  }
}

}  // namespace
}  // namespace rootstead
