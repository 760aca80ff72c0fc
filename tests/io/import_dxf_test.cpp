#include <numbers>

#include "engine/geom/measure.hpp"
#include "io/dxf_scan.hpp"
#include "tests/io/import_support.hpp"
#include "tests/support/shared_data.hpp"

namespace rootstead::io {
namespace {

// Group codes and values as pairs: "0 LINE|8 KERB|10 0|20 0|11 5|21 0".
std::string groups(const std::string& text) {
  std::string dxf;
  std::size_t start = 0;
  while (start < text.size()) {
    const std::size_t end = std::min(text.find('|', start), text.size());
    const std::string pair = text.substr(start, end - start);
    const auto blank = pair.find(' ');
    dxf += pair.substr(0, blank) + "\n" + pair.substr(blank + 1) + "\n";
    start = end + 1;
  }
  return dxf;
}

std::string drawing(const std::string& entities, int insunits = 6, const std::string& blocks = "") {
  std::string dxf = groups("0 SECTION|2 HEADER|9 $ACADVER|1 AC1015|9 $INSUNITS|70 " +
                           std::to_string(insunits) + "|0 ENDSEC");
  if (!blocks.empty()) dxf += groups("0 SECTION|2 BLOCKS|" + blocks + "|0 ENDSEC");
  return dxf + groups("0 SECTION|2 ENTITIES|" + entities + "|0 ENDSEC|0 EOF");
}

constexpr const char* kKerb = "0 LINE|8 KERB|10 400000|20 300000|11 400010|21 300000";

class ImportDxf : public Sources {};

TEST_F(ImportDxf, asks_for_the_unit_of_a_drawing_without_one) {
  const auto unitless = read("a.dxf", drawing(kKerb, 0));
  ASSERT_FALSE(unitless);
  EXPECT_EQ(unitless.error().code, Code::unit_missing);
  ImportOptions options;
  options.length_unit = LengthUnit::metre;
  const auto told = read("a.dxf", drawing(kKerb, 0), options);
  ASSERT_TRUE(told) << told.error().sentence();
  EXPECT_EQ(told->barriers.at(0).shape.lines.at(0).at(1), (Point{400010, 300000}));
}

TEST_F(ImportDxf, brings_every_drawing_unit_to_metres) {
  const std::pair<int, double> kUnits[] = {{1, 0.0254}, {2, 0.3048}, {4, 0.001},
                                           {5, 0.01},   {6, 1.0},    {21, 1200.0 / 3937.0}};
  for (const auto& [number, metres] : kUnits) {
    const auto import = read("a.dxf", drawing("0 LINE|8 KERB|10 0|20 0|11 1000|21 0", number));
    ASSERT_TRUE(import) << import.error().sentence();
    EXPECT_NEAR(import->barriers.at(0).shape.lines.at(0).at(1).x, 1000 * metres, 1e-9) << number;
  }
}

TEST_F(ImportDxf, says_where_international_and_survey_feet_may_be_mixed_up) {
  const auto import =
      read("a.dxf", drawing("0 LINE|8 KERB|10 2000000|20 500000|11 2000010|21 500000", 2), {},
           "EPSG:2236");
  ASSERT_TRUE(import) << import.error().sentence();
  EXPECT_TRUE(says(*import, NoteCode::assumed_in_reading, "US survey feet"));
}

TEST_F(ImportDxf, turns_tree_symbols_into_trees_with_their_attributes) {
  const auto import = read(
      "a.dxf", drawing("0 INSERT|5 3F|8 TREES|2 SYM1|10 400000|20 300000|66 1|"
                       "0 ATTRIB|8 TREES|1 T17|2 TAG|10 0|20 0|0 ATTRIB|8 TREES|1 450 mm|2 DBH|10 "
                       "0|20 0|0 SEQEND|8 TREES|" +
                           std::string(kKerb),
                       6, "0 BLOCK|8 0|2 SYM1|10 0|20 0|0 CIRCLE|8 0|10 0|20 0|40 1|0 ENDBLK|8 0"));
  ASSERT_TRUE(import) << import.error().sentence();
  ASSERT_EQ(import->trees.size(), 1u) << sentences(*import);
  const Tree& tree = import->trees[0];
  EXPECT_EQ(tree.tag, "T17");
  EXPECT_EQ(tree.stems.at(0).size, (EnteredLength{450, LengthUnit::millimetre}));
  EXPECT_EQ(tree.position->at, (Point{400000, 300000}));
  EXPECT_EQ(tree.notes, "symbol SYM1");
  EXPECT_EQ(tree.origin.place, "layer TREES entity 3F");
  EXPECT_EQ(import->barriers.size(), 1u);
}

TEST_F(ImportDxf, finds_tree_symbols_in_arrays_and_in_blocks_within_blocks) {
  const std::string blocks =
      "0 BLOCK|8 0|2 TREE_OAK|10 0|20 0|0 CIRCLE|8 0|10 0|20 0|40 1|0 ENDBLK|8 0|"
      "0 BLOCK|8 0|2 AVENUE|10 5|20 0|0 INSERT|8 0|2 TREE_OAK|10 5|20 0|70 3|71 2|44 10|45 4|"
      "0 LINE|8 KERB|10 5|20 1|11 25|21 1|0 ENDBLK|8 0";
  const auto import = read(
      "a.dxf", drawing("0 INSERT|5 9|8 X|2 AVENUE|10 400000|20 300000|50 90|41 2|42 2", 6, blocks));
  ASSERT_TRUE(import) << import.error().sentence();
  ASSERT_EQ(import->trees.size(), 6u) << sentences(*import);
  // Turned by 90 degrees and twice as large: along the avenue is north.
  EXPECT_NEAR(import->trees[1].position->at.x, 400000, 1e-9);
  EXPECT_NEAR(import->trees[1].position->at.y, 300020, 1e-9);
  EXPECT_NEAR(import->trees[3].position->at.x, 400000 - 8, 1e-9);
  ASSERT_EQ(import->barriers.size(), 1u) << sentences(*import);
  EXPECT_NEAR(import->barriers[0].shape.lines[0][0].x, 400000 - 2, 1e-9);
  EXPECT_NEAR(import->barriers[0].shape.lines[0][1].y, 300040, 1e-9);
}

TEST_F(ImportDxf, recovers_circles_drawn_as_polylines_on_a_tree_layer) {
  // Two half circles by bulge 1.
  const auto import = read(
      "a.dxf",
      drawing(
          "0 LWPOLYLINE|5 A1|8 TREES|90 2|70 1|10 400000|20 300000|42 1|10 400004|20 300000|42 1|"
          "0 LWPOLYLINE|5 A2|8 TREES|90 3|70 1|10 400100|20 300000|10 400104|20 300000|10 "
          "400104|20 300004|"
          "0 CIRCLE|5 A3|8 TREES|10 400200|20 300000|40 3"));
  ASSERT_TRUE(import) << import.error().sentence();
  ASSERT_EQ(import->trees.size(), 2u) << sentences(*import);
  EXPECT_NEAR(import->trees[0].position->at.x, 400200, 1e-9);
  EXPECT_NEAR(import->trees[1].position->at.x, 400002, 1e-3);
  EXPECT_NEAR(import->trees[1].position->at.y, 300000, 1e-3);
  EXPECT_TRUE(says(*import, NoteCode::not_taken, "layer TREES: 1 entity not taken"));
}

TEST_F(ImportDxf, takes_the_drawn_width_of_a_trench) {
  const auto import =
      read("a.dxf",
           drawing("0 LWPOLYLINE|5 A1|8 NEW_TRENCH|90 2|70 0|43 600|10 0|20 0|10 5000|20 0", 4));
  ASSERT_TRUE(import) << import.error().sentence();
  ASSERT_EQ(import->works.size(), 1u) << sentences(*import);
  EXPECT_EQ(import->works[0].kind, WorkKind::trench);
  EXPECT_EQ(import->works[0].width, (EnteredLength{600, LengthUnit::millimetre}));
}

TEST_F(ImportDxf, joins_single_lines_to_an_outline) {
  const auto import = read(
      "a.dxf",
      drawing("0 LINE|8 EXCAVATION|10 0|20 0|11 4|21 0|0 LINE|8 EXCAVATION|10 4|20 0|11 4|21 3|"
              "0 LINE|8 EXCAVATION|10 4|20 3|11 0|21 3|0 LINE|8 EXCAVATION|10 0|20 3|11 0|21 0"));
  ASSERT_TRUE(import) << import.error().sentence();
  ASSERT_EQ(import->works.size(), 1u) << sentences(*import);
  EXPECT_EQ(import->works[0].kind, WorkKind::pit);
  EXPECT_NEAR(area_of(import->works[0].shape.areas).square_metres(), 12, 1e-6);
  EXPECT_TRUE(says(*import, NoteCode::assumed_in_reading, "joined to 1 outline"));
}

TEST_F(ImportDxf, numbers_what_a_drawing_does_not_name_by_its_layer) {
  const std::string line = "|10 400000|20 300000|11 400010|21 300000|0 LINE|5 2A|8 ";
  const std::string entities = "0 LINE|5 20|8 STORM-DRAIN-TRENCH" + line + "STORM-DRAIN-TRENCH" +
                               line + "STORM-DRAIN-PIPE" + line + "KERB" +
                               "|10 400000|20 300005|11 400010|21 300005";
  ImportOptions options;
  options.columns = ColumnMap{};
  options.columns->layer_kinds = {{"STORM-DRAIN-TRENCH", "trench"}, {"STORM-DRAIN-PIPE", "trench"}};
  const auto import = read("a.dxf", drawing(entities), options);
  ASSERT_TRUE(import) << import.error().sentence();
  ASSERT_EQ(import->works.size(), 3U) << sentences(*import);
  EXPECT_EQ(import->works[0].id, "STORM-DRAIN-1");
  EXPECT_EQ(import->works[0].origin.place, "layer STORM-DRAIN-TRENCH entity 20");
  EXPECT_EQ(import->works[1].id, "STORM-DRAIN-2");
  EXPECT_EQ(import->works[2].id, "STORM-DRAIN-3");
  EXPECT_EQ(import->barriers.at(0).id, "KERB-1");
  // Past those of another drawing, and the same again where it is the same one.
  options.taken = {{"STORM-DRAIN-1", "other.dxf"}, {"STORM-DRAIN-2", "other.dxf"}};
  EXPECT_EQ(read("a.dxf", drawing(entities), options)->works.at(0).id, "STORM-DRAIN-3");
  options.taken = {{"STORM-DRAIN-1", "a.dxf"}};
  EXPECT_EQ(read("a.dxf", drawing(entities), options)->works.at(0).id, "STORM-DRAIN-1");
}

TEST_F(ImportDxf, says_what_it_does_not_take) {
  const auto import =
      read("a.dxf", drawing(std::string(kKerb) +
                            "|0 TEXT|8 NOTES|10 0|20 0|40 1|1 hello|0 POINT|8 HYDRANT|10 "
                            "0|20 0|0 LINE|8 KERB|67 1|10 0|20 0|11 5|21 0"));
  ASSERT_TRUE(import) << import.error().sentence();
  EXPECT_TRUE(says(*import, NoteCode::not_taken, "1 TEXT not taken: text is not read"));
  EXPECT_TRUE(says(*import, NoteCode::not_taken,
                   "layer HYDRANT: 1 entity not taken: nothing says what it is"));
  EXPECT_TRUE(says(*import, NoteCode::not_taken, "sheet layouts"));
  EXPECT_EQ(import->barriers.size(), 1u);
}

TEST_F(ImportDxf, reads_a_drain_drawing_as_works_and_leaves_its_kerbs) {
  ImportOptions options;
  options.as = "works";
  const auto import = read(
      "a.dxf",
      drawing(std::string(kKerb) + "|0 LINE|5 7|8 DRAIN|10 400000|20 300005|11 400010|21 300005"),
      options);
  ASSERT_TRUE(import) << import.error().sentence();
  ASSERT_EQ(import->works.size(), 1u);
  EXPECT_EQ(import->works[0].kind, WorkKind::trench);
  EXPECT_TRUE(says(*import, NoteCode::not_taken, "layer KERB: 1 entity not taken"));
  EXPECT_TRUE(says(*import, NoteCode::assumed_in_reading, "layer DRAIN"));
}

// Real drawings. Counts by ezdxf 0.18.1.
struct Counted {
  const char* file;
  std::map<std::string, std::size_t> model_space;
  const char* version;
  std::optional<int> insunits;
};

TEST(DxfSummary, counts_the_entities_of_fourteen_drawings) {
  // The last drawing has no header at all: its version and unit are not said.
  const Counted kExpected[] = {
      {"arrayed-holes", {{"INSERT", 1}}, "AC1021", 1},
      {"blocks1", {{"INSERT", 2}}, "AC1021", 4},
      {"blocks2", {{"INSERT", 1}, {"LINE", 1}, {"LWPOLYLINE", 1}, {"MTEXT", 1}}, "AC1021", 0},
      {"circlesellipsesarcs", {{"ARC", 2}, {"CIRCLE", 1}, {"ELLIPSE", 2}}, "AC1021", 4},
      {"closedlwpolylinebug", {{"INSERT", 1}}, "AC1015", 4},
      {"ellipticalarcs", {{"ELLIPSE", 9}}, "AC1021", 4},
      {"entities", {{"INSERT", 29}, {"LINE", 29}, {"LWPOLYLINE", 29}, {"MTEXT", 29}}, "AC1024", 0},
      {"hatches", {{"HATCH", 1}, {"LINE", 4}}, "AC1021", 4},
      {"layers", {{"CIRCLE", 1}, {"LINE", 8}}, "AC1021", 4},
      {"lwpolylines", {{"LWPOLYLINE", 2}}, "AC1021", 4},
      {"polylines", {{"POLYLINE", 2}}, "AC1018", 4},
      {"splines", {{"SPLINE", 2}}, "AC1021", 4},
      {"texts-in-block", {{"INSERT", 1}}, "AC1021", 4},
      {"gdal_closed_polyline_with_bulge", {{"LWPOLYLINE", 1}}, "", std::nullopt},
  };
  for (const Counted& expected : kExpected) {
    ROOTSTEAD_NEEDS_DATA(file, "cad/" + std::string(expected.file) + ".dxf");
    const auto summary = dxf_summary(file);
    ASSERT_TRUE(summary) << summary.error().sentence();
    EXPECT_EQ(summary->model_space, expected.model_space) << expected.file;
    EXPECT_EQ(summary->version, expected.version) << expected.file;
    EXPECT_EQ(summary->insunits, expected.insunits) << expected.file;
    for (const auto& [kind, why] : summary->skipped) EXPECT_EQ(kind, "MTEXT") << why;
  }
}

TEST(DxfReal, measures_a_closed_polyline_with_bulges) {
  // Area 10210.131325 and perimeter 403.719525 by the arc formula; chords of half a degree.
  ROOTSTEAD_NEEDS_DATA(file, "cad/gdal_closed_polyline_with_bulge.dxf");
  ImportOptions options;
  options.length_unit = LengthUnit::metre;
  options.as = "ground";
  const auto import = read_source(file, options, reference_system("EPSG:26910").value());
  ASSERT_TRUE(import) << import.error().sentence();
  ASSERT_EQ(import->surfaces.size(), 1u);
  const MultiPolygon& area = import->surfaces[0].area;
  EXPECT_NEAR(area_of(area).square_metres() / 10210.131325, 1, 1e-5);
  Line outline = area.at(0).outer;
  outline.push_back(outline.front());
  EXPECT_NEAR(length_of(outline).metres() / 403.719525, 1, 1e-5);
}

TEST(DxfReal, expands_an_array_inside_a_block) {
  // 22 lines and circles by GDAL and by hand: one array of 14 holes and the outline of the plate.
  ROOTSTEAD_NEEDS_DATA(file, "cad/arrayed-holes.dxf");
  ImportOptions options;
  options.as = "works";
  const auto import = read_source(file, options, reference_system("EPSG:26910").value());
  ASSERT_TRUE(import) << import.error().sentence();
  const auto circles = std::count_if(import->works.begin(), import->works.end(),
                                     [](const Work& work) { return !work.shape.areas.empty(); });
  EXPECT_EQ(circles, 14);
}

TEST(DxfReal, reads_the_cambridge_drawing_by_layer) {
  ROOTSTEAD_NEEDS_DATA(file, "site_cambridge/cambridge_site.dxf");
  ImportOptions options;
  options.length_unit = LengthUnit::metre;  // its header says inches, the maker's default
  const auto import = read_source(file, options, reference_system("EPSG:26986").value());
  ASSERT_TRUE(import) << import.error().sentence();
  const auto barriers = [&](BarrierKind kind) {
    return std::count_if(import->barriers.begin(), import->barriers.end(),
                         [kind](const Barrier& b) { return b.kind == kind; });
  };
  EXPECT_EQ(barriers(BarrierKind::wall), 291);
  EXPECT_EQ(barriers(BarrierKind::kerb), 302);  // 3 of the 305 polylines are single points
  EXPECT_EQ(import->surfaces.size(), 129u + 68u);
  EXPECT_EQ(import->rows_read, 1126u);
  EXPECT_TRUE(says(*import, NoteCode::not_taken,
                   "layer KERB: 3 entities not taken: a point has no extent"));
  EXPECT_TRUE(says(*import, NoteCode::not_taken, "layer HYDRANT: 124 entities not taken"));
  EXPECT_TRUE(says(*import, NoteCode::not_taken, "layer POLE: 167 entities not taken"));
  EXPECT_TRUE(says(*import, NoteCode::not_taken, "layer EASEMENT: 42 entities not taken"));
}

}  // namespace
}  // namespace rootstead::io
