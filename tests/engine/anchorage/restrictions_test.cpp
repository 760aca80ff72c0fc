// Walls, kerbs and earlier cuts: what stood before the works, and what they leave of it.
#include "engine/anchorage/restrictions.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>

#include "tests/support/round_a_stem.hpp"
#include "tests/support/shipped_tables.hpp"

namespace rootstead {
namespace {

using test::metres;
using test::square;
using test::strip;
using test::tree_at;

const Point kStem{500000, 180000};
constexpr double kDiameter = 0.4;

const Tables& tables() {
  static const Tables shipped = test::shipped_tables();
  return shipped;
}

AnchorageCut cut_north(double from_face, double depth = 100, bool existing = false) {
  const double x = kDiameter / 2 + from_face;
  return {existing ? "old" : "new", strip(kStem, 0, x, x + 0.5), Length::metres(depth), true,
          existing};
}

Barrier wall_north(double from_face, double depth, BarrierKind kind = BarrierKind::wall) {
  Barrier wall;
  wall.id = "B1";
  wall.kind = kind;
  const double y = kStem.y + kDiameter / 2 + from_face;
  wall.shape.lines = {{{kStem.x - 50, y}, {kStem.x + 50, y}}};
  wall.width = metres(0.01);
  wall.depth = metres(depth);
  return wall;
}

AnchorageKept kept(const std::vector<AnchorageCut>& cuts, const std::vector<Barrier>& barriers) {
  AnchorageContext context;
  context.barriers = barriers;
  auto result = anchorage_of(tree_at(kStem, kDiameter), cuts, tables(), context);
  EXPECT_TRUE(result.ok());
  return std::move(result).value();
}

TEST(RestrictionsBefore, AreNoneOnOpenGround) {
  const AnchorageKept open = kept({cut_north(0.4)}, {});
  EXPECT_EQ(open.before, (Range{1, 1, 1}));
  EXPECT_EQ(open.after, open.kept);
}

TEST(RestrictionsBefore, HoldWhatACutAtTheSamePlaceWouldLeave) {
  const AnchorageKept by_cut = kept({cut_north(0.4, 0.6)}, {});
  AnchorageCut south = cut_north(0, 100);
  south.area = strip(kStem, 180, 3.5, 4, 1);  // too far to be felt
  const AnchorageKept by_wall = kept({south}, {wall_north(0.405, 0.6)});
  EXPECT_NEAR(by_wall.before.best, by_cut.kept.best, 1e-6);
  EXPECT_NEAR(by_wall.before.low, by_cut.kept.low, 1e-6);
  EXPECT_EQ(by_wall.kept, (Range{1, 1, 1}));  // nothing was taken of what stood
}

TEST(RestrictionsBefore, LeaveNothingToCutBehindADeepWall) {
  const AnchorageKept behind = kept({cut_north(0.8)}, {wall_north(0.4, 100)});
  EXPECT_GT(behind.kept.best, 0.999);
  EXPECT_TRUE(behind.works.empty());
  EXPECT_LT(kept({cut_north(0.8)}, {}).kept.best, 0.96);
}

TEST(RestrictionsBefore, LetRootsPassBelowAShallowKerb) {
  const auto kerb = wall_north(0.4, 0.3, BarrierKind::kerb);
  const AnchorageKept behind = kept({cut_north(0.8)}, {kerb});
  EXPECT_LT(behind.kept.best, 0.999);
  EXPECT_GT(behind.kept.best, kept({cut_north(0.8)}, {}).kept.best);
  EXPECT_LT(behind.after.best, behind.before.best);
}

TEST(RestrictionsBefore, AreSaidInANote) {
  const AnchorageKept restricted = kept({cut_north(0.8)}, {wall_north(0.4, 0.6)});
  EXPECT_TRUE(std::any_of(restricted.notes.begin(), restricted.notes.end(), [](const Note& note) {
    return note.code == NoteCode::anchorage_restricted;
  }));
}

TEST(RestrictionsBefore, LeaveOutAnAreaThatHoldsTheStem) {
  Barrier pit = wall_north(1, 1, BarrierKind::building);
  pit.shape.lines.clear();
  pit.shape.areas = square(kStem, 1);
  EXPECT_TRUE(restrictions_near(tree_at(kStem, kDiameter), Length::metres(4), {{pit}}).empty());
  pit.shape.areas = square({kStem.x + 2, kStem.y}, 1);
  EXPECT_EQ(restrictions_near(tree_at(kStem, kDiameter), Length::metres(4), {{pit}}).size(), 1U);
  EXPECT_TRUE(restrictions_near(tree_at(kStem, kDiameter), Length::metres(0.5), {{pit}}).empty());
}

TEST(EarlierCuts, StandInTheFigureBeforeAndAreLossesOfTheWhole) {
  AnchorageCut old = cut_north(0.2, 100, true);
  old.area = strip(kStem, 180, 0.4, 0.9);
  const AnchorageKept both = kept({cut_north(0.4), old}, {});
  EXPECT_LT(both.before.best, 0.9);
  EXPECT_EQ(both.after, both.kept);
  EXPECT_LT(both.kept.best, kept({cut_north(0.4)}, {}).kept.best + 1e-12);
  EXPECT_LE(both.after.best, both.before.best);
}

RC_GTEST_PROP(RestrictionsProperty, NeverStandMoreAfterThanBefore, ()) {
  const auto wall =
      wall_north(*rc::gen::inRange(0, 200) / 100.0, *rc::gen::inRange(10, 120) / 100.0);
  AnchorageCut cut = cut_north(0, *rc::gen::inRange(10, 200) / 100.0);
  const double near = *rc::gen::inRange(10, 200) / 100.0;
  cut.area = strip(kStem, *rc::gen::inRange(0, 360), near, near + 0.5, 3);
  const AnchorageKept both = kept({cut}, {wall});
  RC_ASSERT(both.after.best <= both.before.best + 1e-12);
  RC_ASSERT(both.kept.best >= both.after.best - 1e-12);
  for (const Range& band : both.band)
    RC_ASSERT(0 <= band.low && band.low <= band.best && band.best <= band.high && band.high <= 1);
}

}  // namespace
}  // namespace rootstead
