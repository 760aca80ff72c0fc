// Surfaces that cannot be worked with: one sentence each.
#include <gtest/gtest.h>

#include "engine/levels/earthwork.hpp"
#include "engine/levels/survey_offset.hpp"
#include "engine/levels/zone_depths.hpp"
#include "tests/engine/levels/level_shapes.hpp"
#include "tests/support/shipped_tables.hpp"

namespace rootstead {
namespace {

using test::flat;
using test::grid_of;
using test::mesh_of;
using test::named;
using test::ready;

const Tables& tables() {
  static const Tables shipped = test::shipped_tables();
  return shipped;
}

void expect_refused(std::variant<TriangleMesh, HeightGrid> levels, Code code,
                    const std::string& part) {
  const auto made = PreparedLevels::prepare(named("S", std::move(levels)));
  ASSERT_FALSE(made.ok());
  EXPECT_EQ(made.error().code, code);
  const std::string sentence = made.error().sentence();
  EXPECT_NE(sentence.find(part), std::string::npos) << sentence;
  EXPECT_NE(sentence.find("surface S"), std::string::npos) << sentence;
}

TEST(BadSurface, WithoutTriangles) {
  expect_refused(TriangleMesh{{{{0, 0}, 1}}, {}}, Code::empty_geometry, "no triangles");
}

TEST(BadSurface, WithTrianglesOnOneLine) {
  expect_refused(TriangleMesh{{{{0, 0}, 1}, {{1, 1}, 1}, {{2, 2}, 1}}, {{0, 1, 2}}},
                 Code::empty_geometry, "none of its triangles has an area");
}

TEST(BadSurface, WithAPointThatIsNotThere) {
  expect_refused(TriangleMesh{{{{0, 0}, 1}, {{1, 0}, 1}, {{0, 1}, 1}}, {{0, 1, 7}}},
                 Code::invalid_geometry, "names point 8");
}

TEST(BadSurface, WithAHeightThatIsNoNumber) {
  TriangleMesh mesh = mesh_of(flat(1), 4, 2);
  mesh.points[4].height = std::nan("");
  expect_refused(mesh, Code::invalid_geometry, "point 5");
}

TEST(BadSurface, MayHaveUnusedPointsWithoutHeight) {
  TriangleMesh mesh = mesh_of(flat(1), 4, 2);
  mesh.points.push_back({{std::nan(""), 0}, std::nan("")});
  EXPECT_TRUE(PreparedLevels::prepare(named("S", mesh)).ok());
}

TEST(BadSurface, WithACellBelowZero) {
  HeightGrid grid = grid_of(flat(1), 4, 4);
  grid.cell = -1;
  expect_refused(grid, Code::invalid_geometry, "cell size of -1 m");
}

TEST(BadSurface, WithTooFewHeights) {
  HeightGrid grid = grid_of(flat(1), 4, 4);
  grid.heights.pop_back();
  expect_refused(grid, Code::invalid_geometry, "15 heights for 4 columns and 4 rows");
}

TEST(BadSurface, WithoutAnyHeight) {
  expect_refused(grid_of(flat(std::nan("")), 4, 4), Code::empty_geometry, "none of its cells");
}

TEST(BadSurface, ThatFoldsOverItselfIsNoted) {
  TriangleMesh mesh = mesh_of(flat(1), 4, 2);
  const auto repeat = mesh.triangles.front();
  mesh.triangles.push_back(repeat);  // an exact repeat is left out
  EXPECT_TRUE(ready(mesh).notes().empty());
  EXPECT_NEAR(covered(ready(mesh)).square_metres(), 16, 1e-9);
  mesh.points.push_back({{1.9, 1.2}, 1});
  mesh.triangles.push_back({0, 1, 9});
  const auto folded = ready(mesh);
  ASSERT_EQ(folded.notes().size(), 1u);
  EXPECT_EQ(folded.notes()[0].code, NoteCode::levels_overlap);
}

TEST(Comparable, RefusesDatumsThatDiffer) {
  LevelSurface other = named("design", mesh_of(flat(1), 4, 2));
  other.vertical_datum = "NAVD88";
  const auto before = ready(mesh_of(flat(1), 4, 2), "survey");
  const auto after = PreparedLevels::prepare(other);
  const auto notes = comparable(before, *after, tables());
  ASSERT_FALSE(notes.ok());
  EXPECT_EQ(notes.error().sentence(),
            "surface design: its heights are above NAVD88 and those of surface survey above ODN; "
            "have one of them brought to the other's datum by the surveyor; nothing was compared.");
  EXPECT_FALSE(zone_depths(before, *after, test::rectangle(1, 1, 2, 2), "tree T1", tables()).ok());
}

TEST(Comparable, RefusesGroundWithoutAnythingInCommon) {
  const auto before = ready(mesh_of(flat(1), 4, 2));
  const auto after = ready(mesh_of(flat(1), 4, 2, 0, {100, 0}));
  const auto notes = comparable(before, after, tables());
  ASSERT_FALSE(notes.ok());
  EXPECT_EQ(notes.error().code, Code::empty_geometry);
}

TEST(Comparable, DoubtsFeetReadAsMetresAndSilenceAboutTheDatum) {
  LevelSurface feet = named("design", mesh_of(flat(100 / 0.3048), 4, 2));
  feet.vertical_datum.clear();
  const auto notes =
      comparable(ready(mesh_of(flat(100), 4, 2)), *PreparedLevels::prepare(feet), tables());
  ASSERT_TRUE(notes.ok());
  ASSERT_EQ(notes->size(), 2u);
  EXPECT_EQ((*notes)[0].code, NoteCode::levels_datum_unknown);
  EXPECT_EQ((*notes)[1].code, NoteCode::levels_unit_doubtful);
  EXPECT_NE((*notes)[1].text.find("surface design"), std::string::npos);
}

TEST(ZoneDepths, AreRefusedWhereASurfaceDoesNotReach) {
  const auto small = ready(mesh_of(flat(0), 10, 3), "design");
  const auto large = ready(mesh_of(flat(0), 40, 3), "survey");
  const auto depths =
      zone_depths(large, small, test::rectangle(5, 0, 15, 10), "tree T1, root zone", tables());
  ASSERT_FALSE(depths.ok());
  EXPECT_EQ(depths.error().sentence(),
            "tree T1, root zone: surface design has no levels for 50.0 % of it; have the ground "
            "there measured or designed, or read the part of the surface that is missing; no depth "
            "is given.");
  EXPECT_FALSE(zone_depths(large, large, {}, "tree T1", tables()).ok());
}

TEST(ZoneDepths, GiveSharesAndDepthsBeyondTheThreshold) {
  const auto before = ready(mesh_of(flat(0), 20, 5, 3));
  const auto after = ready(mesh_of([](double x, double) { return x / 10 - 1; }, 20, 6, 4));
  const auto depths = zone_depths(before, after, test::rectangle(0, 0, 20, 20), "zone", tables());
  ASSERT_TRUE(depths.ok());
  EXPECT_NEAR(depths->share_cut, 0.475, 1e-6);
  EXPECT_NEAR(depths->share_filled, 0.475, 1e-6);
  EXPECT_NEAR(depths->cut_depth.metres(), 0.905, 1e-5);
  EXPECT_NEAR(depths->all.cut, 100, 1e-9);
}

TEST(SurveyOffset, IsFoundThoughHalfTheGroundIsDug) {
  const test::Height ground = test::rough(3, 0.5);
  const auto before = ready(mesh_of(ground, 40, 40));
  const auto after = ready(mesh_of(
      [&](double x, double y) { return ground(x, y) + 0.124 - (x > 24 ? 0.8 : 0); }, 40, 40));
  const SurveyOffset offset = survey_offset(before, after, {}, tables());
  EXPECT_TRUE(offset.uniform);
  EXPECT_NEAR(offset.median.metres(), 0.124, 1e-3);
  ASSERT_EQ(offset.notes.size(), 1u);
  EXPECT_NE(offset.notes[0].text.find("offset between surveys"), std::string::npos);
  EXPECT_EQ(offset.figure.from.status, Status::assumption);
}

TEST(SurveyOffset, IsNotSeenInEarthworks) {
  const test::Height ground = test::rough(3, 0.5);
  const auto before = ready(mesh_of(ground, 40, 40));
  const auto level = ready(mesh_of(flat(0.2), 40, 40));
  EXPECT_FALSE(survey_offset(before, level, {}, tables()).uniform);
  EXPECT_FALSE(survey_offset(before, before, {}, tables()).uniform);
  // Half a metre all over is more than surveys differ by; ground outside works decides.
  const auto fill =
      ready(mesh_of([&](double x, double y) { return ground(x, y) + (x > 12 ? 0.5 : 0); }, 40, 40));
  EXPECT_FALSE(survey_offset(before, fill, {}, tables()).uniform);
  EXPECT_FALSE(survey_offset(before, fill, test::rectangle(0, 0, 11, 40), tables()).uniform);
  EXPECT_TRUE(survey_offset(before, fill, test::rectangle(13, 0, 40, 40), tables()).uniform);
}

}  // namespace
}  // namespace rootstead
