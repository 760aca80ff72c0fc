// Works, and what is said of trunks and roots, from two surfaces.
#include "engine/levels/level_works.hpp"

#include <gtest/gtest.h>

#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/levels/depth_spread.hpp"
#include "tests/engine/levels/level_shapes.hpp"
#include "tests/support/shipped_tables.hpp"

namespace rootstead {
namespace {

using test::flat;
using test::grid_of;
using test::mesh_of;
using test::named;

const Tables& tables() {
  static const Tables shipped = test::shipped_tables();
  return shipped;
}

// Raised by 0.6 m round (30, 30), lowered by 0.4 m round (10, 10), level elsewhere.
double change_at(double x, double y) {
  const double fill = std::hypot(x - 30, y - 30), cut = std::hypot(x - 10, y - 10);
  if (fill < 6) return 0.6;
  if (fill < 7) return 0.6 * (7 - fill);
  if (cut < 5) return -0.4;
  if (cut < 6) return -0.4 * (6 - cut);
  return 0;
}

Site changed_site() {
  Site site = test::SiteBuilder()
                  .tree("T1", {30, 30}, 0.5)
                  .tree("T2", {12, 11}, 0.4)
                  .tree("T3", {200, 30}, 0.4);
  site.existing_levels = named("survey", mesh_of(flat(50), 40, 10, 3));
  site.proposed_levels =
      named("design", mesh_of([](double x, double y) { return 50 + change_at(x, y); }, 40, 80));
  return site;
}

TEST(LevelWorks, AreTheLoweredAndTheRaisedGround) {
  const Site site = changed_site();
  const auto works = level_works(site, tables());
  ASSERT_TRUE(works.ok()) << works.error().sentence();
  ASSERT_EQ(works->size(), 2u);
  const Work &cut = (*works)[0], &fill = (*works)[1];
  EXPECT_EQ(cut.id, "levels-cut-1");
  EXPECT_EQ(cut.kind, WorkKind::cut);
  EXPECT_EQ(cut.state, WorkState::proposed);
  EXPECT_EQ(fill.id, "levels-fill-1");
  EXPECT_NEAR(fill.depth->value, 0.6, 1e-3);
  EXPECT_NEAR(cut.depth->value, 0.4, 1e-3);
  EXPECT_FALSE(fill.shape.areas.empty());
}

TEST(LevelWorks, HoldTheTrueAreaAndLittleMore) {
  const Site site = changed_site();
  const auto works = level_works(site, tables());
  ASSERT_TRUE(works.ok());
  const auto before = PreparedLevels::prepare(*site.existing_levels);
  const auto after = PreparedLevels::prepare(*site.proposed_levels);
  const DepthSpread all(*before, *after);
  for (const Work& work : *works) {
    const bool fill = work.kind == WorkKind::fill;
    const double truth = (fill ? all.above(0.05) : all.below(-0.05)).square_metres();
    const DepthSpread inside(*before, *after, work.shape.areas);
    const double held = (fill ? inside.above(0.05) : inside.below(-0.05)).square_metres();
    const double outline = area_of(work.shape.areas).square_metres();
    EXPECT_NEAR(held, truth, 1e-3 * truth) << work.id;  // nothing of it lies outside the outline
    EXPECT_GE(outline, truth * (1 - 1e-6)) << work.id;
    EXPECT_LE(outline, truth + 0.1 * 2 * 3.15 * 7.2) << work.id;  // twice the tolerance all round
    EXPECT_LT(work.shape.areas[0].outer.size(), 120u) << work.id;
  }
}

TEST(LevelWorks, TellOfFillAtTheTrunkAndOfLoweredRoots) {
  const auto changes = level_changes(changed_site(), tables());
  ASSERT_TRUE(changes.ok());
  ASSERT_EQ(changes->trunks.size(), 2u);  // T3 stands off the ground
  EXPECT_NEAR(changes->trunks[0].height.metres(), 0.6, 1e-9);
  EXPECT_NEAR(changes->trunks[1].lowered.metres(), 0.4, 1e-9);
  std::string said;
  bool memory = false, common = false;
  for (const Prescription& order : changes->prescriptions) {
    said += order.tree + ": " + order.text + "\n";
    memory = memory || order.from.status == Status::memory;
    common = common || order.from.status == Status::common_practice;
  }
  EXPECT_NE(said.find("Keep fill off the bark of tree T1"), std::string::npos) << said;
  EXPECT_NE(said.find("0.60 m"), std::string::npos) << said;
  EXPECT_NE(said.find("0.30 m to 0.91 m clear"), std::string::npos) << said;
  EXPECT_NE(said.find("Do not lower the ground at the base of tree T2"), std::string::npos) << said;
  EXPECT_TRUE(memory && common);
  bool left_out = false;
  for (const Note& note : changes->notes)
    left_out = left_out || note.text.find("1 tree stands where one") != std::string::npos;
  EXPECT_TRUE(left_out);
}

TEST(LevelWorks, SayFeetToThoseWhoThinkInFeet) {
  Site site = changed_site();
  site.settings.units = UnitSystem::us_customary;
  const auto changes = level_changes(site, tables());
  ASSERT_TRUE(changes.ok());
  ASSERT_FALSE(changes->prescriptions.empty());
  EXPECT_NE(changes->prescriptions[0].text.find("1.0 ft to 3.0 ft"), std::string::npos)
      << changes->prescriptions[0].text;
}

TEST(LevelWorks, TakeAnOffsetOfTheSurveysOff) {
  Site site = changed_site();
  site.proposed_levels =
      named("design", mesh_of([](double x, double y) { return 50.124 + change_at(x, y); }, 40, 80));
  const auto changes = level_changes(site, tables());
  ASSERT_TRUE(changes.ok());
  ASSERT_TRUE(changes->offset && changes->offset->uniform);
  ASSERT_EQ(changes->works.size(), 2u);
  EXPECT_NEAR(changes->works[1].depth->value, 0.6, 2e-3);
  LevelOptions as_earthwork;
  as_earthwork.offset_is_earthwork = true;
  const auto all = level_works(site, tables(), as_earthwork);
  ASSERT_TRUE(all.ok());
  double fill = 0;
  for (const Work& work : *all) {
    if (work.kind == WorkKind::fill) fill += area_of(work.shape.areas).square_metres();
  }
  EXPECT_GT(fill, 1400);
}

TEST(LevelWorks, OfGridsAreFoundToo) {
  Site site = changed_site();
  site.existing_levels = named("survey", grid_of(flat(50), 40, 80));
  const auto design = [](double x, double y) { return 50 + change_at(x, y); };
  site.proposed_levels = named("design", grid_of(design, 40, 80));
  const auto works = level_works(site, tables());
  ASSERT_TRUE(works.ok());
  EXPECT_EQ(works->size(), 2u);
  site.proposed_levels = named("design", grid_of(design, 40, 77));  // another lattice
  const auto mixed = level_works(site, tables());
  ASSERT_TRUE(mixed.ok());
  EXPECT_EQ(mixed->size(), 2u);
}

TEST(LevelWorks, KeepWithinTheGroundAskedFor) {
  LevelOptions options;
  options.within = test::rectangle(20, 20, 40, 40);
  const auto works = level_works(changed_site(), tables(), options);
  ASSERT_TRUE(works.ok());
  ASSERT_EQ(works->size(), 1u);
  EXPECT_EQ((*works)[0].id, "levels-fill-1");
}

TEST(LevelWorks, NeedTwoSurfaces) {
  Site site = changed_site();
  site.proposed_levels.reset();
  const auto changes = level_changes(site, tables());
  ASSERT_TRUE(changes.ok());
  EXPECT_TRUE(changes->works.empty());
  ASSERT_EQ(changes->notes.size(), 1u);
  EXPECT_EQ(changes->notes[0].code, NoteCode::levels_one_missing);
}

}  // namespace
}  // namespace rootstead
