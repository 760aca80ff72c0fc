// Roots that a work passes through are severed, with all that grows from them.
#include "engine/losses/severed_roots.hpp"

#include <gtest/gtest.h>

#include "tests/support/site_builder.hpp"

namespace rootstead::test {
namespace {

RootPiece piece(Place3 from, Place3 to, int parent) {
  RootPiece one;
  one.from = from;
  one.to = to;
  one.parent = parent;
  return one;
}

// A lateral at 0.4 m from the stem at the origin eastwards, with a branch and a sinker beyond 5 m,
// and a lateral westwards.
RootSystem four_roots() {
  RootSystem roots;
  roots.pieces = {piece({0, 0, 0.4}, {3, 0, 0.4}, -1), piece({3, 0, 0.4}, {6, 0, 0.4}, 0),
                  piece({6, 0, 0.4}, {7, 1, 0.3}, 1), piece({6, 0, 0.4}, {6, 0, 1.2}, 1),
                  piece({0, 0, 0.4}, {-6, 0, 0.4}, -1)};
  return roots;
}

using Severed = std::vector<bool>;

TEST(SeveredRoots, EndAtATrenchWithAllBeyondIt) {
  const Site site = SiteBuilder().trench("W1", {{5, -3}, {5, 3}}, 0.6, 0.9);
  EXPECT_EQ(severed_pieces(four_roots(), site), (Severed{false, true, true, true, false}));
}

TEST(SeveredRoots, PassBelowAShallowTrench) {
  const Site site = SiteBuilder().trench("W1", {{5, -3}, {5, 3}}, 0.6, 0.3);
  EXPECT_EQ(severed_pieces(four_roots(), site), Severed(5, false));
}

TEST(SeveredRoots, OfAnUprightRootOnlyWhereItStandsInTheWork) {
  const Site site = SiteBuilder().pit("W1", rectangle(5.9, -0.5, 6.5, -0.0), 0.9);
  const Severed severed = severed_pieces(four_roots(), site);
  EXPECT_FALSE(severed[0]);
  EXPECT_TRUE(severed[3]);
  EXPECT_FALSE(severed[4]);
}

TEST(SeveredRoots, StayWhereAWorkStandsAlreadyOrOnlyPresses) {
  const Site there =
      SiteBuilder().trench("W1", {{5, -3}, {5, 3}}, 0.6, 0.9).with_work([](Work& work) {
        work.state = WorkState::existing;
      });
  EXPECT_EQ(severed_pieces(four_roots(), there), Severed(5, false));
  const Site pressed = SiteBuilder().area("W1", WorkKind::traffic, rectangle(2, -3, 8, 3), 0);
  EXPECT_EQ(severed_pieces(four_roots(), pressed), Severed(5, false));
}

}  // namespace
}  // namespace rootstead::test
