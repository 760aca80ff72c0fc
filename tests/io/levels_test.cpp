// Ground levels from files: what is read, and what is refused with one sentence.
#include "io/levels.hpp"

#include <gdal_priv.h>
#include <gtest/gtest.h>
#include <zlib.h>

#include <fstream>
#include <iterator>

#include "engine/levels/earthwork.hpp"
#include "engine/levels/survey_offset.hpp"
#include "tests/io/import_support.hpp"
#include "tests/support/loaded_tables.hpp"
#include "tests/support/shared_data.hpp"

namespace rootstead::io {
namespace {

// A square of two triangles: corners at easting 400000 and 400010, northing 100000 and 100010.
std::string landxml(const std::string& units, const std::string& faces,
                    const std::string& points = {}, const std::string& more = {}) {
  const std::string square =
      "<P id=\"1\">100000 400000 10</P><P id=\"2\">100000 400010 11</P>"
      "<P id=\"3\">100010 400010 12</P><P id=\"4\">100010 400000 13</P>";
  return "<?xml version=\"1.0\"?><LandXML xmlns=\"http://www.landxml.org/schema/LandXML-1.2\" "
         "version=\"1.2\">" +
         units +
         "<CoordinateSystem epsgCode=\"27700\" verticalDatum=\"ODN\"/><Surfaces><Surface "
         "name=\"Ground\"><Definition surfType=\"TIN\"><Pnts>" +
         (points.empty() ? square : points) + "</Pnts><Faces>" + faces +
         "</Faces></Definition></Surface>" + more + "</Surfaces></LandXML>";
}
const std::string kMetres = "<Units><Metric linearUnit=\"meter\"/></Units>";
const std::string kTwoFaces = "<F>1 2 3</F><F>1 3 4</F>";

class LevelFiles : public Sources {
 protected:
  Result<ReadLevels> levels(const std::string& name, const std::string& content,
                            const ReadLevelsOptions& options = {},
                            const std::string& code = "EPSG:27700") const {
    return read_levels(write(name, content), options, system(code));
  }

  std::string zipped(const std::string& text) const {
    const auto file = folder_ / "z.gz";
    gzFile out = gzopen(file.c_str(), "wb");
    gzwrite(out, text.data(), static_cast<unsigned>(text.size()));
    gzclose(out);
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
  }

  void expect_refused(const Result<ReadLevels>& read, Code code, const std::string& words) const {
    ASSERT_FALSE(read.ok());
    const std::string sentence = read.error().sentence();
    EXPECT_EQ(static_cast<int>(read.error().code), static_cast<int>(code)) << sentence;
    EXPECT_NE(sentence.find(words), std::string::npos) << sentence;
    EXPECT_EQ(sentence.find('\n'), std::string::npos) << sentence;
  }
};

PreparedLevels ready(const Result<ReadLevels>& read) {
  EXPECT_TRUE(read.ok()) << (read.ok() ? "" : read.error().sentence());
  return PreparedLevels::prepare(read->surface).value();
}

bool told(const ReadLevels& read, NoteCode code) {
  return std::any_of(read.problems.begin(), read.problems.end(),
                     [&](const Problem& problem) { return problem.code == code; });
}

TEST_F(LevelFiles, LandXmlGivesNorthingFirst) {
  const auto read = levels("a.xml", landxml(kMetres, kTwoFaces));
  const auto ground = ready(read);
  EXPECT_EQ(read->surface.name, "Ground");
  EXPECT_EQ(read->surface.vertical_datum, "ODN");
  EXPECT_NEAR(ground.height_at({400000, 100000}).value(), 10, 1e-9);
  EXPECT_NEAR(ground.height_at({400010, 100000}).value(), 11, 1e-9);
  EXPECT_NEAR(ground.height_at({400005, 100005}).value(), 11, 1e-9);
}

TEST_F(LevelFiles, LandXmlLeavesInvisibleFacesOut) {
  const auto read = levels("a.xml", landxml(kMetres, "<F>1 2 3</F><F i=\"1\">1 3 4</F>"));
  EXPECT_NEAR(covered(ready(read)).square_metres(), 50, 1e-6);
  EXPECT_TRUE(told(*read, NoteCode::levels_not_taken));
}

TEST_F(LevelFiles, LandXmlTakesFacesOfFour) {
  EXPECT_NEAR(covered(ready(levels("a.xml", landxml(kMetres, "<F>1 2 3 4</F>")))).square_metres(),
              100, 1e-6);
}

TEST_F(LevelFiles, LandXmlInSurveyFeetComesOutInMetres) {
  const std::string points =
      "<P id=\"1\">500000 2000000 100</P><P id=\"2\">500000 2000100 100</P>"
      "<P id=\"3\">500100 2000000 100</P>";
  std::string xml =
      landxml("<Units><Imperial linearUnit=\"USSurveyFoot\"/></Units>", "<F>1 2 3</F>", points);
  xml.replace(xml.find("27700"), 5, "2264");  // North Carolina, US survey feet
  const auto ground = ready(levels("a.xml", xml, {}, "EPSG:2264"));
  constexpr double kFoot = 1200.0 / 3937;
  EXPECT_NEAR(ground.height_at({2000010 * kFoot, 500010 * kFoot}).value(), 100 * kFoot, 1e-9);
}

TEST_F(LevelFiles, LandXmlWithSeveralSurfacesAsksWhich) {
  const std::string two = landxml(
      kMetres, kTwoFaces, {},
      "<Surface name=\"Design\"><Definition surfType=\"TIN\"><Pnts><P id=\"1\">100000 400000 "
      "20</P><P id=\"2\">100000 400010 20</P><P id=\"3\">100010 400010 20</P></Pnts><Faces><F>1 2 "
      "3</F></Faces></Definition></Surface>");
  expect_refused(levels("a.xml", two), Code::wrong_use, "\"Ground\", \"Design\"");
  ReadLevelsOptions design;
  design.surface = "Design";
  EXPECT_NEAR(ready(levels("a.xml", two, design)).height_at({400008, 100001}).value(), 20, 1e-9);
  design.surface = "Road";
  expect_refused(levels("a.xml", two, design), Code::unknown_name, "\"Road\"");
}

TEST_F(LevelFiles, LandXmlThatIsWrongIsRefused) {
  expect_refused(levels("a.xml", landxml("", kTwoFaces)), Code::unit_missing, "--length-unit");
  expect_refused(levels("a.xml", landxml(kMetres, "")), Code::empty_geometry, "no triangles");
  expect_refused(levels("a.xml", landxml(kMetres, "<F>1 2 9</F>")), Code::format_broken,
                 "names point 9");
  expect_refused(levels("a.xml", landxml(kMetres, kTwoFaces, "<P id=\"1\">1 2 NaN</P>")),
                 Code::format_broken, "\"NaN\"");
  expect_refused(levels("a.xml", landxml(kMetres, kTwoFaces, "<P id=\"1\">1 2</P>")),
                 Code::format_broken, "three numbers");
  expect_refused(levels("a.xml", landxml(kMetres, "<F>1 2</F>")), Code::format_broken, "face");
  expect_refused(levels("a.xml", "<a>"), Code::format_broken, "XML is broken");
  expect_refused(levels("a.xml", "<a/>"), Code::format_unknown, "not LandXML");
  expect_refused(levels("a.xml", ""), Code::format_broken, "empty");
  expect_refused(levels("a.pdf", "x"), Code::format_unknown, "levels");
  const std::string bomb =
      "<?xml version=\"1.0\"?><!DOCTYPE a [<!ENTITY a \"aaaaaaaaaa\"><!ENTITY b "
      "\"&a;&a;&a;&a;&a;&a;&a;&a;\"><!ENTITY c \"&b;&b;&b;&b;&b;&b;&b;&b;\">]><a>&c;</a>";
  EXPECT_FALSE(levels("a.xml", bomb).ok());
}

TEST_F(LevelFiles, GzipThatIsCutShortIsRefused) {
  const std::string packed = zipped(landxml(kMetres, kTwoFaces));
  EXPECT_TRUE(levels("a.landxml.gz", packed).ok());
  expect_refused(levels("a.landxml.gz", packed.substr(0, packed.size() / 2)), Code::file_unreadable,
                 "damaged");
}

const std::string kGrid =
    "ncols 3\nnrows 2\nxllcorner 400000\nyllcorner 100000\ncellsize 10\nNODATA_value -9999\n"
    "1 2 3\n4 5 -9999\n";

TEST_F(LevelFiles, AsciiGridIsReadFromTheNorth) {
  const auto read = levels("a.asc", kGrid);
  ASSERT_TRUE(read.ok()) << read.error().sentence();
  const auto& grid = std::get<HeightGrid>(read->surface.levels);
  EXPECT_EQ(grid.columns, 3u);
  EXPECT_NEAR(grid.north_west.y, 100020, 1e-9);
  EXPECT_EQ(grid.heights[0], 1);
  EXPECT_TRUE(std::isnan(grid.heights[5]));
  EXPECT_TRUE(told(*read, NoteCode::assumed_in_reading));
  ReadLevelsOptions feet;
  feet.height_unit = LengthUnit::foot;
  const auto in_feet = levels("a.asc", kGrid, feet);
  EXPECT_NEAR(std::get<HeightGrid>(in_feet->surface.levels).heights[4], 5 * 0.3048, 1e-6);
}

TEST_F(LevelFiles, GridThatIsWrongIsRefused) {
  std::string negative = kGrid;
  negative.replace(negative.find("cellsize 10"), 11, "cellsize -1");
  EXPECT_FALSE(levels("a.asc", negative).ok());
  std::string empty = kGrid;
  empty.replace(empty.find("1 2 3\n4 5"), 9, "-9999 -9999 -9999\n-9999 -9999");
  expect_refused(levels("a.asc", empty), Code::empty_geometry, "none of its cells");
  EXPECT_FALSE(levels("a.asc", kGrid.substr(0, kGrid.size() - 14)).ok());
  EXPECT_FALSE(levels("a.tif", "II*").ok());
}

TEST_F(LevelFiles, RasterWithoutPlaceIsRefused) {
  GDALAllRegister();
  const auto file = folder_ / "a.tif";
  {
    GDALDriver* driver = GetGDALDriverManager()->GetDriverByName("GTiff");
    const GDALDatasetUniquePtr made(driver->Create(file.c_str(), 2, 2, 1, GDT_Float32, nullptr));
    float heights[] = {1, 2, 3, 4};
    EXPECT_EQ(made->GetRasterBand(1)->RasterIO(GF_Write, 0, 0, 2, 2, heights, 2, 2, GDT_Float32, 0,
                                               0, nullptr),
              CE_None);
  }
  expect_refused(read_levels(file, {}, system()), Code::crs_unknown, "does not say where it lies");
}

TEST_F(LevelFiles, RasterOfAnotherSystemScaledAndInBands) {
  GDALAllRegister();
  const auto file = folder_ / "a.tif";
  const auto make = [&](int bands) {
    GDALDriver* driver = GetGDALDriverManager()->GetDriverByName("GTiff");
    const GDALDatasetUniquePtr made(
        driver->Create(file.c_str(), 2, 2, bands, GDT_Float32, nullptr));
    double place[] = {400000, 5, 0, 100000, 0, -5};
    made->SetGeoTransform(place);
    OGRSpatialReference national;
    national.importFromEPSG(27700);
    made->SetSpatialRef(&national);
    float heights[] = {1, 2, 3, 4};
    GDALRasterBand* band = made->GetRasterBand(1);
    EXPECT_EQ(band->RasterIO(GF_Write, 0, 0, 2, 2, heights, 2, 2, GDT_Float32, 0, 0, nullptr),
              CE_None);
    band->SetScale(0.1);
    band->SetOffset(100);
    band->SetNoDataValue(4);
  };
  make(1);
  const auto read = read_levels(file, {}, system());
  ASSERT_TRUE(read.ok()) << read.error().sentence();
  EXPECT_NEAR(std::get<HeightGrid>(read->surface.levels).heights[1], 100.2, 1e-4);
  EXPECT_TRUE(std::isnan(std::get<HeightGrid>(read->surface.levels).heights[3]));
  expect_refused(read_levels(file, {}, system("EPSG:25832")), Code::crs_unsuitable, "EPSG:25832");
  make(3);
  expect_refused(read_levels(file, {}, system()), Code::wrong_use, "3 bands");
}

TEST_F(LevelFiles, SpotLevelsAreJoinedToTriangles) {
  const auto read = levels("a.csv",
                           "point,easting,northing,level,code\n1,400000,100000,10,GL\n2,400010,"
                           "100000,11,GL\n3,400010,100010,12,GL\n4,400000,100010,,GL\n5,400000,"
                           "100010,13,GL\n");
  const auto ground = ready(read);
  EXPECT_NEAR(covered(ground).square_metres(), 100, 1e-6);
  EXPECT_NEAR(ground.height_at({400000, 100010}).value(), 13, 1e-9);
  EXPECT_TRUE(told(*read, NoteCode::levels_no_breaklines));
  EXPECT_TRUE(told(*read, NoteCode::levels_not_taken));
  expect_refused(levels("b.csv", "a,b,c\n1,2,3\n"), Code::column_missing, "eastings");
  expect_refused(levels("b.csv", "easting,northing,level\n1,2,3\n2,4,5\n3,6,7\n"),
                 Code::empty_geometry, "fewer than three");
}

TEST_F(LevelFiles, ContoursTakeTheirHeightFromThemselvesOrAColumn) {
  const std::string head =
      "{\"type\":\"FeatureCollection\",\"crs\":{\"type\":\"name\",\"properties\":{\"name\":"
      "\"urn:ogc:def:crs:EPSG::27700\"}},\"features\":[";
  const auto line = [](const std::string& coordinates, const std::string& properties) {
    return "{\"type\":\"Feature\",\"properties\":{" + properties +
           "},\"geometry\":{\"type\":\"LineString\",\"coordinates\":[" + coordinates + "]}}";
  };
  const auto flat =
      levels("a.geojson", head + line("[400000,100000],[400010,100000]", "\"elevation\":10") + "," +
                              line("[400000,100010],[400010,100010]", "\"elevation\":12") + "]}");
  EXPECT_NEAR(ready(flat).height_at({400005, 100005}).value(), 11, 1e-9);
  const auto own =
      levels("b.geojson", head + line("[400000,100000,10],[400010,100000,10]", "") + "," +
                              line("[400000,100010,14],[400010,100010,14]", "") + "]}");
  EXPECT_NEAR(ready(own).height_at({400005, 100005}).value(), 12, 1e-9);
  expect_refused(levels("c.geojson", head + line("[400000,100000],[400010,100000]", "") + "]}"),
                 Code::missing_measurement, "none of its shapes has a height");
}

TEST_F(LevelFiles, AreKeptInTheProjectAndReplaced) {
  const auto file = folder_ / "p.gpkg";
  auto project = Project::create(file, system(), {});
  ASSERT_TRUE(project.ok()) << project.error().sentence();
  const auto mesh = levels("a.xml", landxml(kMetres, kTwoFaces));
  const auto grid = levels("a.asc", kGrid);
  ASSERT_TRUE(mesh.ok() && grid.ok());
  const Problem told{false, NoteCode::not_taken, "a.asc", "two rows are not taken", "look"};
  ASSERT_TRUE(
      project->save_levels(mesh->surface, LevelState::existing, "a.xml", {}, utc_now()).ok());
  ASSERT_TRUE(
      project->save_levels(grid->surface, LevelState::proposed, "a.asc", {told}, utc_now()).ok());
  auto again = Project::open(file);
  ASSERT_TRUE(again.ok());
  const auto site = again->read();
  ASSERT_TRUE(site.ok()) << site.error().sentence();
  ASSERT_TRUE(site->existing_levels && site->proposed_levels);
  EXPECT_EQ(site->existing_levels->vertical_datum, "ODN");
  EXPECT_EQ(site->existing_levels->name, "Ground");
  const auto& was = std::get<TriangleMesh>(mesh->surface.levels);
  const auto& is = std::get<TriangleMesh>(site->existing_levels->levels);
  ASSERT_EQ(is.points.size(), was.points.size());
  EXPECT_EQ(is.points[2].at, was.points[2].at);
  EXPECT_EQ(is.points[2].height, was.points[2].height);
  EXPECT_EQ(is.triangles, was.triangles);
  EXPECT_EQ(std::get<HeightGrid>(site->proposed_levels->levels).columns, 3u);
  ASSERT_TRUE(again->save_levels(grid->surface, LevelState::existing, "a.asc", {}, utc_now()).ok());
  ASSERT_EQ(again->import_problems().size(), 1u);  // with the surface, in one journal row each
  EXPECT_EQ(again->import_problems().front().message, told.message);
  EXPECT_EQ(again->journal()->size(), 4u);
  const auto replaced = again->read();
  ASSERT_TRUE(replaced.ok());
  EXPECT_TRUE(std::holds_alternative<HeightGrid>(replaced->existing_levels->levels));
  // What cannot be worked with is not stored.
  LevelSurface broken = mesh->surface;
  std::get<TriangleMesh>(broken.levels).triangles[0][0] = 99;
  EXPECT_FALSE(again->save_levels(broken, LevelState::existing, "x", {}, utc_now()).ok());
  EXPECT_TRUE(std::holds_alternative<HeightGrid>(again->read()->existing_levels->levels));
  EXPECT_TRUE(again->journal().ok());
}

// ---- open data ----------------------------------------------------------------------------------

PreparedLevels open_levels(const std::filesystem::path& file, const char* code) {
  const auto read = read_levels(file, {}, reference_system(code).value());
  EXPECT_TRUE(read.ok()) << (read.ok() ? "" : read.error().sentence());
  return PreparedLevels::prepare(read->surface).value();
}

void expect_near_relative(double value, double expected) {
  EXPECT_NEAR(value, expected, 1e-4 * expected);
}

// terrain/expected_volumes.json: exact overlay by an independent tool.
TEST(OpenLevels, VolumesOfTheRoadAreThoseOfTheIndependentTool) {
  ROOTSTEAD_NEEDS_DATA(ground, "terrain/m3_existing_ground.landxml.gz");
  ROOTSTEAD_NEEDS_DATA(formation, "terrain/m3_excavation_formation.landxml.gz");
  ROOTSTEAD_NEEDS_DATA(finished, "terrain/m3_finished_surface.landxml.gz");
  const auto existing = open_levels(ground, "EPSG:3875");
  EXPECT_TRUE(existing.notes().empty());
  expect_near_relative(covered(existing).square_metres(), 69488.613);
  const auto dig = open_levels(formation, "EPSG:3875");
  const Earthwork to_formation = earthwork_between(existing, dig);
  expect_near_relative(to_formation.area.square_metres(), 22249.885);
  expect_near_relative(to_formation.cut, 7810.3015);
  expect_near_relative(to_formation.fill, 755.7476);
  const auto road = open_levels(finished, "EPSG:3875");
  const Earthwork to_finished = earthwork_between(existing, road);
  expect_near_relative(to_finished.area.square_metres(), 22503.539);
  expect_near_relative(to_finished.cut, 4066.1799);
  expect_near_relative(to_finished.fill, 6786.8156);
  // Earthworks are no offset of the survey.
  EXPECT_FALSE(survey_offset(existing, dig, {}, test::loaded_tables()).uniform);
  const auto offset = survey_offset(existing, road, {}, test::loaded_tables());
  EXPECT_FALSE(offset.uniform) << offset.median.metres() << " " << offset.spread.metres();
}

TEST(OpenLevels, TheGullyIsAnOffsetBetweenSurveysNotFill) {
  ROOTSTEAD_NEEDS_DATA(first, "terrain/nc_gully_1m_2004.tif");
  ROOTSTEAD_NEEDS_DATA(second, "terrain/nc_gully_1m_2016.tif");
  const auto before = open_levels(first, "EPSG:3358");
  const auto after = open_levels(second, "EPSG:3358");
  const Earthwork work = earthwork_between(before, after);
  EXPECT_NEAR(work.area.square_metres(), 202500, 1e-6);
  expect_near_relative(work.cut, 3277.464);
  expect_near_relative(work.fill, 28452.416);
  EXPECT_NEAR(work.deepest_cut.metres(), 1.194, 1e-3);
  EXPECT_NEAR(work.highest_fill.metres(), 1.490, 1e-3);
  EXPECT_NEAR(work.mean_difference(), 0.124, 1e-3);
  const auto offset = survey_offset(before, after, {}, test::loaded_tables());
  EXPECT_TRUE(offset.uniform) << offset.median.metres() << " " << offset.spread.metres();
  ASSERT_EQ(offset.notes.size(), 1u);
  EXPECT_NE(offset.notes[0].text.find("offset between surveys, not like fill"), std::string::npos)
      << offset.notes[0].text;
  std::cout << "gully: " << offset.notes[0].text << '\n';
}

}  // namespace
}  // namespace rootstead::io
