// The ground that works and barriers take, with upright sides.
#include "engine/site/block.hpp"

#include <gtest/gtest.h>

#include "engine/geom/measure.hpp"
#include "tests/support/site_builder.hpp"

namespace rootstead::test {
namespace {

TEST(Block, OfATrenchGoesFromTheGroundToItsDepth) {
  const Site site = SiteBuilder().trench("W1", {{0, 0}, {10, 0}}, 0.6, 0.9);
  const auto blocks = blocks_of(site.works[0]);
  ASSERT_EQ(blocks.size(), 1U);
  EXPECT_NEAR(area_of(blocks[0].areas).square_metres(), 6, 1e-9);
  EXPECT_EQ(blocks[0].top, 0);
  EXPECT_NEAR(blocks[0].bottom, 0.9, 1e-12);
}

TEST(Block, OfAFillStandsAboveTheGround) {
  const Site site = SiteBuilder().area("W1", WorkKind::fill, rectangle(0, 0, 2, 2), 0.4);
  EXPECT_NEAR(blocks_of(site.works[0])[0].top, -0.4, 1e-12);
  EXPECT_EQ(blocks_of(site.works[0])[0].bottom, 0);
}

TEST(Block, OfABoreIsItsPitsAndThePipeBeneath) {
  Work bore;
  bore.kind = WorkKind::bore;
  bore.shape.lines = {{{0, 0}, {20, 0}}};
  bore.depth = metres(1.5);
  bore.bore_diameter = metres(0.4);
  bore.bore_pits = rectangle(-1, -1, 0, 1);
  const auto blocks = blocks_of(bore);
  ASSERT_EQ(blocks.size(), 2U);
  EXPECT_FALSE(blocks[0].pipe);
  EXPECT_NEAR(blocks[0].bottom, 1.9, 1e-12);
  EXPECT_TRUE(blocks[1].pipe);
  EXPECT_NEAR(blocks[1].top, 1.5, 1e-12);
  EXPECT_NEAR(blocks[1].bottom, 1.9, 1e-12);
  EXPECT_NEAR(area_of(blocks[1].areas).square_metres(), 8, 1e-9);
}

TEST(Block, OfAWallIsAsThickAsEntered) {
  Barrier wall;
  EXPECT_TRUE(blocks_of(wall).empty());
  wall.shape.lines = {{{0, 0}, {10, 0}}};
  EXPECT_NEAR(area_of(blocks_of(wall)[0].areas).square_metres(), 2, 1e-9);
  wall.width = metres(0.5);
  wall.depth = metres(0.7);
  EXPECT_NEAR(area_of(blocks_of(wall)[0].areas).square_metres(), 5, 1e-9);
  EXPECT_NEAR(blocks_of(wall)[0].bottom, 0.7, 1e-12);
}

}  // namespace
}  // namespace rootstead::test
