// What fill, paving and wheels do to the roots beneath them. All values are our assumption, so the
// tests hold the order of things and the agreement with what was published in words.
#include "engine/soil/pressing.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "tests/support/round_a_stem.hpp"
#include "tests/support/shipped_tables.hpp"

namespace rootstead {
namespace {

const Tables& tables() {
  static const Tables shipped = test::shipped_tables();
  return shipped;
}

Work work_of(WorkKind kind, double depth = 0.5, bool permeable = false) {
  Work work;
  work.kind = kind;
  work.depth = test::metres(depth);
  work.permeable = permeable;
  return work;
}

Soil soil_of(SoilTexture texture, Drainage drainage = Drainage::free, bool compacted = false) {
  Soil soil;
  soil.texture = texture;
  soil.drainage = drainage;
  soil.compacted = compacted;
  return soil;
}

Range share(const Work& work, const Soil& soil = {}) {
  return pressing_effect(work, soil, tables()).share;
}

bool no_less(const Range& a, const Range& b) {
  return a.low >= b.low && a.best >= b.best && a.high >= b.high;
}

TEST(Pressing, OfWorksThatDigIsNothing) {
  for (const WorkKind kind : {WorkKind::trench, WorkKind::pit, WorkKind::cut, WorkKind::building,
                              WorkKind::fence_posts, WorkKind::bore, WorkKind::root_cut})
    EXPECT_EQ(share(work_of(kind)), (Range{0, 0, 0}));
}

TEST(Pressing, OfTwentyCentimetresOfSandyLoamStaysACaution) {
  // Day et al. (recalled as 2001): 20 cm of sandy loam over three years, no consistent harm.
  EXPECT_LT(share(work_of(WorkKind::fill, 0.20), soil_of(SoilTexture::loam)).best, 0.15);
}

TEST(Pressing, OfAThinLayerIsNothingAndOfAThickOneTheWholeEffect) {
  EXPECT_EQ(share(work_of(WorkKind::fill, 0.05)), (Range{0, 0, 0}));
  EXPECT_EQ(share(work_of(WorkKind::fill, 0.60)), (Range{0.20, 0.50, 0.80}));
  EXPECT_EQ(share(work_of(WorkKind::fill, 3)), (Range{0.20, 0.50, 0.80}));
  // Half way between 0.05 and 0.60 m, worked by hand for the method page.
  EXPECT_NEAR(share(work_of(WorkKind::fill, 0.325)).best, 0.25, 1e-12);
}

TEST(Pressing, OfPermeablePavingIsLessThanOfSealed) {
  const Range sealed = share(work_of(WorkKind::paving)),
              open = share(work_of(WorkKind::paving, 0.5, true));
  EXPECT_TRUE(no_less(sealed, open));
  EXPECT_LT(open.best, sealed.best);
}

TEST(Pressing, IsWorseInClayWetAndCompactedGroundAndMilderInSand) {
  for (const WorkKind kind : {WorkKind::fill, WorkKind::paving, WorkKind::traffic}) {
    const Work work = work_of(kind);
    const double loam = share(work, soil_of(SoilTexture::loam)).best;
    EXPECT_GT(share(work, soil_of(SoilTexture::clay)).best, loam);
    EXPECT_GT(share(work, soil_of(SoilTexture::loam, Drainage::poor)).best, loam);
    EXPECT_GT(share(work, soil_of(SoilTexture::sand, Drainage::free, true)).best, loam);
    EXPECT_LT(share(work, soil_of(SoilTexture::sand)).best, loam);
  }
}

TEST(Pressing, OfWorkingRoomIsThatOfTraffic) {
  EXPECT_EQ(working_room_effect({}, tables()).share, share(work_of(WorkKind::traffic)));
}

TEST(Pressing, SaysThatItIsOurAssumption) {
  for (const WorkKind kind : {WorkKind::fill, WorkKind::paving, WorkKind::traffic, WorkKind::pit})
    EXPECT_EQ(pressing_effect(work_of(kind), {}, tables()).from.status, Status::assumption);
}

RC_GTEST_PROP(PressingProperty, IsAShareThatNeverFallsWithTheDepthOfFill, ()) {
  const Soil soil =
      soil_of(*rc::gen::element(SoilTexture::unknown, SoilTexture::sand, SoilTexture::loam,
                                SoilTexture::silt, SoilTexture::clay),
              *rc::gen::element(Drainage::unknown, Drainage::free, Drainage::poor),
              *rc::gen::arbitrary<bool>());
  const double depth = *rc::gen::inRange(0, 200) / 100.0;
  const Range thin = share(work_of(WorkKind::fill, depth), soil);
  const Range thick = share(work_of(WorkKind::fill, depth + 0.1), soil);
  RC_ASSERT(no_less(thick, thin));
  for (const Range& range : {thin, thick})
    RC_ASSERT(0 <= range.low && range.low <= range.best && range.best <= range.high &&
              range.high <= 1);
}

}  // namespace
}  // namespace rootstead
