#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include "engine/geom/measure.hpp"
#include "tests/io/import_support.hpp"

namespace rootstead::io {
namespace {

class ImportVector : public Sources {
 protected:
  // A vector file made by GDAL itself, one feature a well-known text.
  std::filesystem::path make(const std::string& name, const char* driver, const char* layer_name,
                             int epsg, const std::vector<std::string>& shapes,
                             bool append = false) const {
    GDALAllRegister();
    const auto file = folder_ / name;
    GDALDriver* maker = GetGDALDriverManager()->GetDriverByName(driver);
    GDALDatasetUniquePtr data(append
                                  ? GDALDataset::Open(file.c_str(), GDAL_OF_VECTOR | GDAL_OF_UPDATE)
                                  : maker->Create(file.c_str(), 0, 0, 0, GDT_Unknown, nullptr));
    OGRSpatialReference system;
    if (epsg != 0) system.importFromEPSG(epsg);
    OGRLayer* layer = data->CreateLayer(layer_name, epsg == 0 ? nullptr : &system, wkbUnknown);
    OGRFieldDefn note("note", OFTString);
    layer->CreateField(&note);
    for (const std::string& wkt : shapes) {
      OGRFeatureUniquePtr feature(OGRFeature::CreateFeature(layer->GetLayerDefn()));
      OGRGeometry* shape = nullptr;
      OGRGeometryFactory::createFromWkt(wkt.c_str(), nullptr, &shape);
      feature->SetGeometryDirectly(shape);
      EXPECT_EQ(layer->CreateFeature(feature.get()), OGRERR_NONE);
    }
    return file;
  }
};

constexpr const char* kTreeFeature =
    R"({"type":"Feature","properties":{"tag":"T1","dbh_cm":40},"geometry":{"type":"Point","coordinates":[-2.0,53.0]}})";

std::string collection(const std::string& features) {
  return R"({"type":"FeatureCollection","features":[)" + features + "]}";
}

TEST_F(ImportVector, reads_trees_of_geojson_in_longitude_latitude_order) {
  // RFC 7946, section 3.1.1: longitude first. At 2 W 53 N the British grid is at its true meridian:
  // easting 400,000 m but for the shift of datum (about 100 m).
  const auto import = read("survey.geojson", collection(kTreeFeature));
  ASSERT_TRUE(import) << import.error().sentence();
  EXPECT_EQ(import->kind, "trees");
  ASSERT_EQ(import->trees.size(), 1u);
  EXPECT_NEAR(import->trees[0].position->at.x, 400000, 150);
  EXPECT_EQ(import->trees[0].stems.at(0).size.value, 40);
}

TEST_F(ImportVector, keeps_a_tree_without_geometry_and_says_so) {
  const auto import = read(
      "survey.geojson",
      collection(R"({"type":"Feature","properties":{"tag":"T2","dbh_cm":30},"geometry":null})"));
  ASSERT_TRUE(import) << import.error().sentence();
  ASSERT_EQ(import->trees.size(), 1u);
  EXPECT_FALSE(import->trees[0].position);
  EXPECT_TRUE(says(*import, NoteCode::position_missing, "tree T2"));
}

TEST_F(ImportVector, takes_multi_shapes_apart_and_drops_heights) {
  const auto file = make("walls.gpkg", "GPKG", "walls", 27700,
                         {"MULTILINESTRING Z ((400000 300000 5, 400010 300000 6), (400000 300005 "
                          "5, 400000 300009 5))"});
  const auto import = read_source(file, {}, system());
  ASSERT_TRUE(import) << import.error().sentence();
  ASSERT_EQ(import->barriers.size(), 1u);
  EXPECT_EQ(import->barriers[0].kind, BarrierKind::wall);
  EXPECT_EQ(import->barriers[0].shape.lines.size(), 2u);
  EXPECT_TRUE(says(*import, NoteCode::not_taken, "heights"));
}

TEST_F(ImportVector, turns_curves_to_chords_within_the_stated_accuracy) {
  const auto file = make("paving.gpkg", "GPKG", "paving", 27700,
                         {"CURVEPOLYGON (CIRCULARSTRING (400010 300000, 400000 300010, 399990 "
                          "300000, 400000 299990, 400010 300000))"});
  const auto import = read_source(file, {}, system());
  ASSERT_TRUE(import) << import.error().sentence();
  ASSERT_EQ(import->surfaces.size(), 1u);
  const double area = area_of(import->surfaces[0].area).square_metres();
  EXPECT_NEAR(area / (100 * 3.14159265358979), 1, 1.4e-5);
}

TEST_F(ImportVector, counts_layers_it_does_not_know) {
  make("site.gpkg", "GPKG", "kerbs", 27700, {"LINESTRING (400000 300000, 400010 300000)"});
  const auto file = make("site.gpkg", "GPKG", "hydrants", 27700,
                         {"POINT (400000 300000)", "POINT (400001 300000)"}, true);
  const auto import = read_source(file, {}, system());
  ASSERT_TRUE(import) << import.error().sentence();
  EXPECT_EQ(import->barriers.size(), 1u);
  EXPECT_TRUE(says(*import, NoteCode::not_taken, "layer hydrants: 2 features not taken"));
}

TEST_F(ImportVector, follows_the_layers_of_a_column_map) {
  make("site.gpkg", "GPKG", "a", 27700, {"LINESTRING (400000 300000, 400010 300000)"});
  const auto file = make("site.gpkg", "GPKG", "b", 27700, {"POINT (400000 300000)"}, true);
  ImportOptions options;
  options.columns = ColumnMap{};
  options.columns->layer_kinds = {{"a", "trench"}, {"b", "skip"}};
  const auto import = read_source(file, options, system());
  ASSERT_TRUE(import) << import.error().sentence();
  ASSERT_EQ(import->works.size(), 1u);
  EXPECT_EQ(import->works[0].kind, WorkKind::trench);
  EXPECT_TRUE(says(*import, NoteCode::not_taken, "layer b"));
}

TEST_F(ImportVector, reads_shapefiles_and_flatgeobuf) {
  for (const auto& [name, driver] :
       {std::pair{"kerb.shp", "ESRI Shapefile"}, {"kerb.fgb", "FlatGeobuf"}}) {
    const auto file =
        make(name, driver, "kerb", 27700, {"LINESTRING (400000 300000, 400010 300000)"});
    const auto import = read_source(file, {}, system());
    ASSERT_TRUE(import) << import.error().sentence();
    EXPECT_EQ(import->barriers.size(), 1u) << name;
  }
}

TEST_F(ImportVector, asks_for_the_system_of_a_shapefile_without_prj) {
  const auto file =
      make("kerb.shp", "ESRI Shapefile", "kerb", 0, {"LINESTRING (400000 300000, 400010 300000)"});
  const auto import = read_source(file, {}, system());
  ASSERT_FALSE(import);
  EXPECT_EQ(import.error().code, Code::crs_unknown);
  ImportOptions options;
  options.columns = ColumnMap{};
  options.columns->crs = "EPSG:27700";
  const auto told = read_source(file, options, system());
  ASSERT_TRUE(told) << told.error().sentence();
  EXPECT_EQ(told->barriers.at(0).shape.lines.at(0).at(1), (Point{400010, 300000}));
}

TEST_F(ImportVector, reports_shapes_that_cross_themselves_and_empty_ones) {
  const auto file = make("paving.gpkg", "GPKG", "paving", 27700,
                         {"POLYGON ((0 0, 10 10, 10 0, 0 10, 0 0))", "POLYGON EMPTY"});
  const auto import = read_source(file, {}, system());
  ASSERT_TRUE(import) << import.error().sentence();
  EXPECT_TRUE(says(*import, NoteCode::shape_doubtful, "feature 1: a polygon crosses itself"));
  EXPECT_TRUE(says(*import, NoteCode::not_taken, "feature 2"));
}

TEST_F(ImportVector, reads_works_with_the_kind_in_a_property) {
  ImportOptions options;
  options.as = "works";
  const auto import = read(
      "plan.geojson",
      collection(
          R"({"type":"Feature","properties":{"id":"W1","kind":"trench","width":"600 mm","depth":"0.9 m"},"geometry":{"type":"LineString","coordinates":[[-2.0,53.0],[-2.0001,53.0]]}},)"
          R"({"type":"Feature","properties":{"id":"W2","kind":"sculpture"},"geometry":{"type":"LineString","coordinates":[[-2.0,53.0],[-2.0001,53.0]]}})"),
      options);
  ASSERT_TRUE(import) << import.error().sentence();
  ASSERT_EQ(import->works.size(), 2u);
  EXPECT_EQ(import->works[0].depth, (EnteredLength{0.9, LengthUnit::metre}));
  EXPECT_TRUE(says(*import, NoteCode::assumed_in_reading, "\"sculpture\" is no kind of work"));
}

TEST_F(ImportVector, takes_the_areas_of_a_bore_for_its_pits) {
  ImportOptions options;
  options.as = "works";
  const auto import = read(
      "bore.geojson",
      collection(
          R"({"type":"Feature","properties":{"id":"W1","kind":"bore","depth":"2.5 m"},"geometry":{"type":"GeometryCollection","geometries":[{"type":"LineString","coordinates":[[-2.0,53.0],[-2.001,53.0]]},{"type":"Polygon","coordinates":[[[-2.0,53.0],[-1.9999,53.0],[-1.9999,53.0001],[-2.0,53.0001],[-2.0,53.0]]]}]}})"),
      options);
  ASSERT_TRUE(import) << import.error().sentence();
  ASSERT_EQ(import->works.size(), 1u);
  EXPECT_EQ(import->works[0].bore_pits.size(), 1u);
  EXPECT_TRUE(import->works[0].shape.areas.empty());
  EXPECT_EQ(import->works[0].shape.lines.size(), 1u);
}

}  // namespace
}  // namespace rootstead::io
