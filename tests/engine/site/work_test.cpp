#include "engine/site/work.hpp"

#include <array>
#include <numbers>

#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"

namespace rootstead {
namespace {

constexpr std::array kKinds = {WorkKind::trench,   WorkKind::pit,         WorkKind::cut,
                               WorkKind::fill,     WorkKind::paving,      WorkKind::traffic,
                               WorkKind::building, WorkKind::fence_posts, WorkKind::bore,
                               WorkKind::root_cut};

EnteredLength metres(double value) {
  return {value, LengthUnit::metre};
}

Work work_along(WorkKind kind, const Line& line) {
  Work work;
  work.id = "W1";
  work.kind = kind;
  work.shape.lines = {line};
  return work;
}

double m2(const MultiPolygon& area) {
  return area_of(area).square_metres();
}

const Line kStraight = {{0, 0}, {20, 0}};
const Line kSquare = {{0, 0}, {4, 0}, {4, 4}, {0, 4}, {0, 0}};

TEST(Footprint, OfATrenchIsItsCorridor) {
  Work trench = work_along(WorkKind::trench, kStraight);
  trench.width = metres(0.8);
  EXPECT_NEAR(m2(footprint(trench)), 16, 1e-9);
  trench.width.reset();
  EXPECT_NEAR(m2(footprint(trench)), 20 * 0.6, 1e-9);  // default width
}

TEST(Footprint, WorkingRoomSurroundsTheDigging) {
  Work trench = work_along(WorkKind::trench, kStraight);
  trench.width = metres(1);
  trench.working_room = metres(0.5);
  EXPECT_NEAR(m2(footprint(trench)), 20, 1e-9);
  // sides, ends and four rounded corners: 20 x 1 grown by 0.5
  const double exact = 20 + 2 * (20 + 1) * 0.5 + std::numbers::pi * 0.25;
  EXPECT_NEAR(m2(footprint(trench, true)), exact, 0.001);
  EXPECT_LT(m2(difference_of(footprint(trench), footprint(trench, true))), 1e-9);
  trench.working_room.reset();
  EXPECT_EQ(m2(footprint(trench, true)), m2(footprint(trench)));
}

TEST(Footprint, FencePostsAreSquareHolesFromEndToEnd) {
  Work fence = work_along(WorkKind::fence_posts, kStraight);
  fence.spacing = metres(2.5);
  fence.width = metres(0.4);
  const MultiPolygon posts = footprint(fence);
  EXPECT_EQ(posts.size(), 9u);  // eight bays of 2.5 m
  EXPECT_NEAR(m2(posts), 9 * 0.16, 1e-9);
  EXPECT_TRUE(contains(posts, {0, 0}));
  EXPECT_TRUE(contains(posts, {20, 0}));
  EXPECT_FALSE(contains(posts, {1.25, 0}));
}

TEST(Footprint, FencePostsKeepTheirSpacingRoundACorner) {
  Work fence = work_along(WorkKind::fence_posts, {{0, 0}, {7, 0}, {7, 7}});
  fence.spacing = metres(3);
  fence.width = metres(0.2);
  EXPECT_EQ(footprint(fence).size(), 6u);  // five bays of 2.8 m
}

TEST(Footprint, FencePostsCloserThanTheirWidthAreATrench) {
  Work fence = work_along(WorkKind::fence_posts, kStraight);
  fence.spacing = metres(0.3);
  fence.width = metres(0.4);
  EXPECT_NEAR(m2(footprint(fence)), 8, 1e-9);
}

TEST(Footprint, FencePostsMayBePoints) {
  Work fence;
  fence.kind = WorkKind::fence_posts;
  fence.shape.points = {{0, 0}, {3, 0}};
  EXPECT_NEAR(m2(footprint(fence)), 2 * 0.09, 1e-12);
}

TEST(Footprint, ADeepBoreTakesOnlyItsPits) {
  Work bore = work_along(WorkKind::bore, kStraight);
  bore.bore_diameter = metres(0.2);
  bore.depth = metres(1.5);
  EXPECT_TRUE(footprint(bore).empty());
  bore.bore_pits = {{{{-2, -1}, {0, -1}, {0, 1}, {-2, 1}}, {}}};
  EXPECT_NEAR(m2(footprint(bore)), 4, 1e-12);
}

TEST(Footprint, AShallowBoreOrOneOfUnknownDepthTakesItsLineToo) {
  Work bore = work_along(WorkKind::bore, kStraight);
  bore.bore_diameter = metres(0.2);
  bore.depth = metres(0.59);
  EXPECT_NEAR(m2(footprint(bore)), 4, 1e-9);
  bore.depth.reset();
  EXPECT_NEAR(m2(footprint(bore)), 4, 1e-9);
  bore.depth = metres(0.6);
  EXPECT_TRUE(footprint(bore).empty());
}

TEST(Footprint, OfARootCutIsAsThinAsTheTool) {
  Work cut = work_along(WorkKind::root_cut, kStraight);
  cut.width = metres(5);  // says nothing about the blade
  EXPECT_NEAR(m2(footprint(cut)), 20 * 0.1, 1e-9);
}

TEST(Footprint, AClosedLineIsAnAreaForAPitAndALoopForATrench) {
  EXPECT_NEAR(m2(footprint(work_along(WorkKind::pit, kSquare))), 16, 1e-12);
  EXPECT_NEAR(m2(footprint(work_along(WorkKind::building, kSquare))), 16, 1e-12);
  EXPECT_NEAR(m2(footprint(work_along(WorkKind::trench, kSquare))), 16 * 0.6, 1e-9);
}

TEST(Footprint, OverlappingPartsCountOnce) {
  Work pit;
  pit.kind = WorkKind::pit;
  pit.shape.areas = {{{{0, 0}, {2, 0}, {2, 2}, {0, 2}}, {}},
                     {{{1, 0}, {3, 0}, {3, 2}, {1, 2}}, {}}};
  EXPECT_NEAR(m2(footprint(pit)), 6, 1e-12);
}

TEST(Footprint, OfNothingIsEmpty) {
  for (const WorkKind kind : kKinds) {
    Work work;
    work.kind = kind;
    EXPECT_TRUE(footprint(work).empty());
    EXPECT_TRUE(footprint(work, true).empty());
    EXPECT_TRUE(footprint(work_along(kind, {{1, 1}})).empty());
    EXPECT_TRUE(footprint(work_along(kind, {{1, 1}, {1, 1}})).empty());
  }
}

RC_GTEST_PROP(Footprint, AWiderWorkNeverTakesLess, ()) {
  const auto coordinate = rc::gen::inRange(-200, 200);
  const auto points = *rc::gen::container<std::vector<std::pair<int, int>>>(
      5, rc::gen::pair(coordinate, coordinate));
  Line line;
  for (const auto& [x, y] : points) line.push_back({x / 10.0, y / 10.0});
  const WorkKind kind = *rc::gen::elementOf(std::vector<WorkKind>{
      WorkKind::trench, WorkKind::paving, WorkKind::traffic, WorkKind::fence_posts});
  Work work = work_along(kind, line);
  work.width = metres(*rc::gen::inRange(1, 20) / 10.0);
  Work wider = work;
  wider.width->value *= 1.2;
  RC_ASSERT(m2(difference_of(footprint(work), footprint(wider))) < 1e-9);
}

TEST(Work, DigsWhereGroundIsTakenOrRootsAreCut) {
  for (const WorkKind kind : kKinds) {
    Work work;
    work.kind = kind;
    EXPECT_EQ(work.digs(), kind != WorkKind::fill && kind != WorkKind::traffic) << to_text(kind);
  }
}

TEST(Work, PavingLaidOnTheGroundDoesNotDig) {
  Work paving;
  paving.kind = WorkKind::paving;
  paving.depth = metres(0);
  EXPECT_FALSE(paving.digs());
}

TEST(Work, DefaultsFillWhatIsNotEntered) {
  Work trench;
  EXPECT_EQ(depth_of(trench).metres(), 0.9);
  trench.depth = EnteredLength{3, LengthUnit::foot};
  EXPECT_DOUBLE_EQ(depth_of(trench).metres(), 0.9144);
  Barrier kerb;
  kerb.kind = BarrierKind::kerb;
  EXPECT_EQ(depth_of(kerb).metres(), 0.3);
  for (const WorkKind kind : kKinds) EXPECT_GT(default_width(kind).value, 0);
}

TEST(WorkWords, ReadBackAsWritten) {
  for (const WorkKind kind : kKinds) EXPECT_EQ(work_kind_from(to_text(kind)), kind);
  for (const auto state : {WorkState::proposed, WorkState::approved, WorkState::existing})
    EXPECT_EQ(work_state_from(to_text(state)), state);
  for (const auto method : {DigMethod::machine, DigMethod::hand, DigMethod::air})
    EXPECT_EQ(dig_method_from(to_text(method)), method);
  for (const auto kind :
       {BarrierKind::wall, BarrierKind::foundation, BarrierKind::kerb, BarrierKind::root_barrier,
        BarrierKind::building, BarrierKind::rock, BarrierKind::water})
    EXPECT_EQ(barrier_kind_from(to_text(kind)), kind);
}

TEST(WorkWords, ReadSeveralLanguagesWhateverTheCaseAndAccents) {
  EXPECT_EQ(work_kind_from("Tranchée"), WorkKind::trench);
  EXPECT_EQ(work_kind_from("AUFSCHÜTTUNG"), WorkKind::fill);
  EXPECT_EQ(work_kind_from("fence_posts"), WorkKind::fence_posts);
  EXPECT_EQ(work_kind_from("excavación"), WorkKind::pit);
  EXPECT_EQ(work_kind_from("sleuf"), WorkKind::trench);
  EXPECT_EQ(barrier_kind_from("curb"), BarrierKind::kerb);
  EXPECT_EQ(barrier_kind_from("Gebäude"), BarrierKind::building);
  EXPECT_EQ(dig_method_from("air comprimé"), DigMethod::air);
  EXPECT_EQ(work_state_from("Approuvé"), WorkState::approved);
  EXPECT_FALSE(work_kind_from("bouncy castle"));
}

}  // namespace
}  // namespace rootstead
