// Surveys and maps of real places, with all their faults.
#include <cmath>
#include <map>

#include "engine/geom/circle_area.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "io/csv.hpp"
#include "tests/io/import_support.hpp"
#include "tests/support/shared_data.hpp"

namespace rootstead::io {
namespace {

ReferenceSystem system_of(const char* code) {
  return reference_system(code).value();
}

TEST(RealUbc, keeps_all_rows_and_reports_every_dirty_value_by_row) {
  ROOTSTEAD_NEEDS_DATA(file, "site_ubc/trees.csv");
  const auto import = read_source(file, {}, system_of("EPSG:26910"));
  ASSERT_TRUE(import) << import.error().sentence();
  EXPECT_EQ(import->rows_read, 6389u);
  EXPECT_EQ(import->trees.size(), 6389u);
  // The maker's own count: 1 zero, 25 of 130 to 250 cm, 37 above; 900 with a diameter.
  EXPECT_EQ(count_of(*import, NoteCode::girth_suspected), 25u);
  EXPECT_EQ(count_of(*import, NoteCode::diameter_missing), 6389u - 900u);
  std::size_t above = 0;
  for (const Problem& p : import->problems)
    above += p.message.find("hardly possible") != std::string::npos;
  EXPECT_EQ(above, 37u);
  EXPECT_TRUE(
      says(*import, NoteCode::diameter_doubtful, "row 2858, tree 3256: the stem diameter is 0"));
  EXPECT_TRUE(
      says(*import, NoteCode::height_doubtful, "row 3149, tree 4027: the height 127.741 m"));
  EXPECT_EQ(count_of(*import, NoteCode::tag_missing), 468u);
  for (const Tree& tree : import->trees) EXPECT_TRUE(tree.position) << tree.origin.place;
}

struct Overlap {
  Point at;
  double radius = 0, hardscape = 0, building = 0;
};

std::map<std::string, Overlap> expected_overlaps(const std::filesystem::path& file) {
  const CsvTable table = read_csv(file).value();
  const auto number = [&](const CsvRow& row, const char* column) {
    return std::stod(row.cells[*column_of(table, column)]);
  };
  std::map<std::string, Overlap> overlaps;
  for (const CsvRow& row : table.rows)
    overlaps[row.cells[*column_of(table, "tree_id")]] = {
        {number(row, "e_26910"), number(row, "n_26910")},
        number(row, "radius_m"),
        number(row, "in_hardscape_m2"),
        number(row, "in_building_m2")};
  return overlaps;
}

// The parts of an area within reach of a circle, so that 862 circles do not each see all of it.
MultiPolygon near(const MultiPolygon& area, const Circle& circle) {
  MultiPolygon found;
  const double r = circle.radius.metres();
  for (const Polygon& polygon : area) {
    const Box box = box_of(polygon.outer);
    const bool apart = box.min_x > circle.centre.x + r || box.max_x < circle.centre.x - r ||
                       box.min_y > circle.centre.y + r || box.max_y < circle.centre.y - r;
    if (!apart) found.push_back(polygon);
  }
  return found;
}

// Answers by GEOS 3.11 with circles of 1,024 corners, whose area is 6e-6 low.
TEST(RealUbc, overlaps_of_862_circles_with_paving_and_buildings_agree) {
  ROOTSTEAD_NEEDS_DATA(survey, "site_ubc/trees.csv");
  ROOTSTEAD_NEEDS_DATA(site, "site_ubc/ubc_site.gpkg");
  ROOTSTEAD_NEEDS_DATA(answers, "site_ubc/expected_overlaps.csv");
  const auto trees = read_source(survey, {}, system_of("EPSG:26910"));
  ImportOptions paving;
  paving.as = "ground";
  paving.layer = "hardscape";
  const auto ground = read_source(site, paving, system_of("EPSG:26910"));
  ImportOptions houses;
  houses.as = "barriers";
  houses.layer = "buildings";
  const auto buildings = read_source(site, houses, system_of("EPSG:26910"));
  ASSERT_TRUE(trees && ground && buildings);
  EXPECT_EQ(ground->surfaces.size(), 689u);
  EXPECT_EQ(buildings->barriers.size(), 320u);

  std::vector<MultiPolygon> paved, built;
  for (const Surface& surface : ground->surfaces) paved.push_back(surface.area);
  for (const Barrier& barrier : buildings->barriers) built.push_back(barrier.shape.areas);
  const MultiPolygon all_paved = union_of(paved), all_built = union_of(built);

  const auto expected = expected_overlaps(answers);
  EXPECT_EQ(expected.size(), 862u);
  std::size_t checked = 0;
  double worst_position = 0;
  for (const Tree& tree : trees->trees) {
    const auto found = expected.find(tree.id);
    if (found == expected.end() || tree.stems.empty()) continue;
    ++checked;
    const Overlap& answer = found->second;
    worst_position = std::max(worst_position, distance(tree.position->at, answer.at).metres());
    const double reach = std::min(15.0, 12 * tree.stems.front().diameter().metres());
    EXPECT_NEAR(reach, answer.radius, 0.0006) << tree.id;
    const Circle circle{answer.at, Length::metres(reach)};
    const double in_paving = common_area(circle, near(all_paved, circle)).square_metres();
    const double in_building = common_area(circle, near(all_built, circle)).square_metres();
    // 1e-3 relative, and the rounding of the answers: position to 1 mm, area to 1e-4.
    const double rounding = 2e-4 + 2 * reach * 0.001;
    EXPECT_NEAR(in_paving, answer.hardscape, 1e-3 * answer.hardscape + rounding) << tree.id;
    EXPECT_NEAR(in_building, answer.building, 1e-3 * answer.building + rounding) << tree.id;
  }
  EXPECT_EQ(checked, 862u);
  // Degrees are given to 1e-6, about 0.11 m.
  EXPECT_LT(worst_position, 0.12);
}

TEST(RealCambridge, reads_the_layers_it_knows_and_counts_the_others) {
  ROOTSTEAD_NEEDS_DATA(file, "site_cambridge/cambridge_site.gpkg");
  ImportOptions options;
  options.length_unit = LengthUnit::metre;  // the walls' Width has no unit
  const auto import = read_source(file, options, system_of("EPSG:26986"));
  ASSERT_TRUE(import) << import.error().sentence();
  EXPECT_EQ(import->barriers.size(), 305u + 291u - 3u);  // three kerbs are single points
  std::size_t single = 0;
  for (const Problem& p : import->problems)
    single += p.message == "a line has fewer than two points";
  EXPECT_EQ(single, 3u);
  EXPECT_TRUE(says(*import, NoteCode::not_taken, "layer hydrants: 124 features not taken"));
  EXPECT_TRUE(says(*import, NoteCode::not_taken, "layer utility_poles: 167 features not taken"));
}

TEST(RealVancouver, reads_a_citys_trees_in_inches_and_reports_every_fault) {
  ROOTSTEAD_NEEDS_DATA(file, "inventory/vancouver_street_trees.csv.gz");
  const auto import = read_source(file, {}, system_of("EPSG:26910"));
  ASSERT_TRUE(import) << import.error().sentence();
  EXPECT_EQ(import->rows_read, 132265u);
  EXPECT_EQ(import->trees.size(), 132265u);
  // Counted in the file with another reader; the maker's 22,771 and 92 are for the whole city, the
  // file holds 19 of its neighbourhoods.
  EXPECT_EQ(count_of(*import, NoteCode::position_missing), 20154u);
  std::size_t zero = 0, doubtful = 0;
  for (const Problem& p : import->problems) {
    if (p.message == "the stem diameter is 0") ++zero;
    const bool large = p.code == NoteCode::girth_suspected || p.code == NoteCode::diameter_doubtful;
    if (large && p.message.find("is 0") == std::string::npos) ++doubtful;
  }
  std::size_t above_130_cm = 0;
  for (const Tree& tree : import->trees) {
    ASSERT_LE(tree.stems.size(), 1u);
    if (!tree.stems.empty() && tree.stems[0].size.length().metres() > 1.30) ++above_130_cm;
  }
  EXPECT_EQ(zero, 83u);
  EXPECT_EQ(doubtful, above_130_cm);
  EXPECT_GE(doubtful, 64u);  // above 60 in, by the maker's count
}

}  // namespace
}  // namespace rootstead::io
