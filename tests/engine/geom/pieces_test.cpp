#include "engine/geom/pieces.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "tests/engine/geom/random_shapes.hpp"

namespace rootstead {
namespace {

double wider_side(const Polygon& piece) {
  const Box box = box_of(piece.outer);
  return std::max(box.max_x - box.min_x, box.max_y - box.min_y);
}

TEST(Pieces, APolygonWithinTheLimitsIsItsOwnOnlyPiece) {
  const Polygon square = test::rectangle(0, 0, 9, 9);
  EXPECT_EQ(pieces_of(square, {.most_corners = 4}), MultiPolygon{square});
  EXPECT_TRUE(pieces_of({}, {.most_corners = 4}).empty());
}

TEST(Pieces, ALongPolygonIsCutUntilNoPieceIsWider) {
  const MultiPolygon pieces = pieces_of(test::rectangle(0, 0, 1'000, 3), {48, Length::metres(256)});
  EXPECT_EQ(pieces.size(), 4u);
  for (const Polygon& piece : pieces) EXPECT_LE(wider_side(piece), 256);
}

TEST(Pieces, ManyCornersAreSharedOutAndNothingIsLostOrTwice) {
  const Polygon disc = polygon_of(Circle{{3, 5}, Length::metres(40)}, 4'000);
  const MultiPolygon pieces = pieces_of(disc, {.most_corners = 100});
  EXPECT_GT(pieces.size(), 40u);
  for (const Polygon& piece : pieces) EXPECT_LE(piece.outer.size(), 100u);
  const double whole = area_of(disc).square_metres();
  EXPECT_NEAR(area_of(pieces).square_metres(), whole, 1e-9 * whole);
  std::vector<MultiPolygon> parts;
  for (const Polygon& piece : pieces) parts.push_back({piece});
  EXPECT_NEAR(area_of(union_of(parts)).square_metres(), whole, 1e-9 * whole);
}

// A crowd of corners in less than a metre would be cut for ever.
TEST(Pieces, ACrowdOfCornersInLittleRoomStaysTogether) {
  const Polygon disc = polygon_of(Circle{{0, 0}, Length::metres(0.4)}, 4'000);
  EXPECT_EQ(pieces_of(disc, {.most_corners = 100}).size(), 1u);
}

}  // namespace
}  // namespace rootstead
