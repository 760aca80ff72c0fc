// Exports of data through other eyes: read back with GDAL and compared with the site.
#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "tests/io/export_scene.hpp"

namespace rootstead::io {
namespace {

TEST(ExportCsv, has_one_line_a_tree_with_survey_zones_and_verdict) {
  const TempFolder folder;
  const Scene it = scene();
  exported(it, folder / "site.csv");
  const auto data = read_back(folder / "site.csv");
  ASSERT_TRUE(data);
  OGRLayer* rows = data->GetLayer(0);
  ASSERT_EQ(rows->GetFeatureCount(), 14);
  std::size_t at = 0;
  for (const auto& row : *rows) {
    const Tree& tree = it.site.trees[at++];
    EXPECT_EQ(row->GetFieldAsString("id"), tree.id);
    EXPECT_EQ(row->GetFieldAsString("botanical_name"), tree.botanical_name);
    EXPECT_STREQ(row->GetFieldAsString("invented-rule-0.root-zone.radius_m"), "6.000");
    EXPECT_STREQ(row->GetFieldAsString("invented-rule-1.root-zone.radius_m"), "7.000");
    EXPECT_STREQ(row->GetFieldAsString("invented-rule-0.root-zone.affected_share"), "0.250000");
    EXPECT_STREQ(row->GetFieldAsString("invented-rule-0.root-zone.status"), "from memory");
    EXPECT_STREQ(row->GetFieldAsString("invented-rule-0.root-zone.source"),
                 "A. Nobody 2026, Invented Source");
    EXPECT_EQ(row->GetFieldAsString("verdict"),
              std::string(to_text(it.assessment.trees[at - 1].verdict.action)));
    EXPECT_TRUE(holds(row->GetFieldAsString("caution"), "INVENTED DATA"));
    if (tree.position) {
      EXPECT_NEAR(row->GetFieldAsDouble("x_m"), tree.position->at.x, kMillimetre);
      EXPECT_NEAR(row->GetFieldAsDouble("y_m"), tree.position->at.y, kMillimetre);
    } else {
      EXPECT_STREQ(row->GetFieldAsString("x_m"), "");
    }
  }
  expect_about(text_of(folder / "site.about.txt"), it);
}

TEST(ExportCsv, keeps_lengths_as_entered_and_positions_in_feet) {
  const TempFolder folder;
  Scene it = scene("EPSG:2236", 280000, 160000);
  it.site.trees[0].stems = {{Stem::Read::girth, {30, LengthUnit::inch}, {{4.5, LengthUnit::foot}}}};
  it.site.trees[0].position = Position{{280000, 160000}, "", std::nullopt};
  exported(it, folder / "site.csv");
  const auto data = read_back(folder / "site.csv");
  const auto row = OGRFeatureUniquePtr(data->GetLayer(0)->GetNextFeature());
  EXPECT_STREQ(row->GetFieldAsString("stems"), "girth 30 in at 4.5 ft");
  EXPECT_NEAR(row->GetFieldAsDouble("x_us-ft"), 280000 * 3937.0 / 1200, kMillimetre);
}

// ---- GeoJSON

TEST(ExportGeoJson, holds_every_thing_once_in_longitude_and_latitude) {
  const TempFolder folder;
  const Scene it = scene();
  exported(it, folder / "site.geojson");
  const auto json = nlohmann::json::parse(text_of(folder / "site.geojson"));
  EXPECT_EQ(json["type"], "FeatureCollection");
  EXPECT_FALSE(json.contains("crs"));
  std::map<std::string, std::size_t> kinds;
  for (const auto& feature : json["features"]) ++kinds[feature["properties"]["kind"]];
  EXPECT_EQ(kinds["tree"], 14U);
  EXPECT_EQ(kinds["work"], 6U);
  EXPECT_EQ(kinds["barrier"], 6U);
  EXPECT_EQ(kinds["surface"], 6U);
  EXPECT_EQ(kinds["zone"], 28U);
  expect_about(json["about"].dump(), it);
}

TEST(ExportGeoJson, comes_back_to_the_millimetre) {
  const TempFolder folder;
  for (const auto& [code, x, y] : {std::tuple{"EPSG:27700", 530000.0, 180000.0},
                                   std::tuple{"EPSG:2236", 280000.0, 160000.0}}) {
    const Scene it = scene(code, x, y);
    exported(it, folder / "site.geojson");
    const auto data = read_back(folder / "site.geojson");
    ASSERT_TRUE(data);
    OGRSpatialReference world, plane;
    world.importFromEPSG(4326);
    world.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
    plane.SetFromUserInput(code);
    plane.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
    const std::unique_ptr<OGRCoordinateTransformation> back(
        OGRCreateCoordinateTransformation(&world, &plane));
    std::size_t seen = 0;
    for (const auto& feature : *data->GetLayer(0)) {
      if (std::string(feature->GetFieldAsString("kind")) != "tree") continue;
      const OGRGeometry* geometry = feature->GetGeometryRef();
      const Tree* tree = it.site.tree(feature->GetFieldAsString("id"));
      ASSERT_NE(tree, nullptr);
      ASSERT_EQ(geometry != nullptr, tree->position.has_value());
      if (geometry == nullptr) continue;
      ++seen;
      double lon = geometry->toPoint()->getX();
      double lat = geometry->toPoint()->getY();
      ASSERT_TRUE(back->Transform(1, &lon, &lat));
      const double unit = plane.GetLinearUnits();
      EXPECT_NEAR(lon * unit, tree->position->at.x, kMillimetre);
      EXPECT_NEAR(lat * unit, tree->position->at.y, kMillimetre);
    }
    EXPECT_EQ(seen, it.placed());
  }
}

double turning(const nlohmann::json& ring) {
  double sum = 0;
  for (std::size_t i = 0; i + 1 < ring.size(); ++i) {
    sum += ring[i][0].get<double>() * ring[i + 1][1].get<double>() -
           ring[i + 1][0].get<double>() * ring[i][1].get<double>();
  }
  return sum;
}

TEST(ExportGeoJson, closes_rings_and_turns_outer_ones_counter_clockwise) {
  const TempFolder folder;
  const Scene it = scene();
  exported(it, folder / "site.geojson");
  const auto json = nlohmann::json::parse(text_of(folder / "site.geojson"));
  int rings = 0;
  for (const auto& feature : json["features"]) {
    const auto& geometry = feature["geometry"];
    if (geometry.is_null() || geometry["type"] != "Polygon") continue;
    bool outer = true;
    for (const auto& ring : geometry["coordinates"]) {
      EXPECT_EQ(ring.front(), ring.back());
      EXPECT_EQ(turning(ring) > 0, outer);
      outer = false;
      ++rings;
    }
  }
  EXPECT_GT(rings, 20);
}

TEST(ExportGeoJson, says_where_a_system_has_no_way_to_degrees) {
  const TempFolder folder;
  Scene it = scene();
  it.site.system.code = "no such grid";
  const auto report = write_export(it.site, it.assessment, it.tables, folder / "site.geojson");
  ASSERT_FALSE(report);
  EXPECT_EQ(report.error().code, Code::crs_unknown);
  EXPECT_EQ(files_in(folder.path()), 0);
}

// ---- GeoPackage

TEST(ExportGeoPackage, holds_all_layers_in_the_system_of_the_project) {
  const TempFolder folder;
  const Scene it = scene("EPSG:2236", 280000, 160000);
  exported(it, folder / "out.gpkg");
  CPLErrorReset();
  const auto data = read_back(folder / "out.gpkg");
  ASSERT_TRUE(data);
  EXPECT_STREQ(CPLGetLastErrorMsg(), "");
  const std::map<std::string, GIntBig> expected{
      {"trees", 14},  {"works", 6},        {"barriers", 6}, {"ground", 6},    {"zones", 28},
      {"losses", 56}, {"root_losses", 28}, {"limits", 28},  {"anchorage", 14}};
  for (const auto& [name, count] : expected) {
    OGRLayer* layer = data->GetLayerByName(name.c_str());
    ASSERT_NE(layer, nullptr) << name;
    EXPECT_EQ(layer->GetFeatureCount(), count) << name;
  }
  for (const auto& feature : *data->GetLayerByName("trees")) {
    const Tree* tree = it.site.tree(feature->GetFieldAsString("id"));
    if (!tree->position) continue;
    EXPECT_NEAR(feature->GetGeometryRef()->toPoint()->getX() * 1200 / 3937, tree->position->at.x,
                kMillimetre);
  }
  const OGRSpatialReference* system = data->GetLayerByName("zones")->GetSpatialRef();
  EXPECT_STREQ(system->GetAuthorityCode(nullptr), "2236");
  std::string about;
  for (const auto& row : *data->GetLayerByName("about")) {
    about += std::string(row->GetFieldAsString("topic")) + ": " + row->GetFieldAsString("text");
  }
  expect_about(about, it);
}

// ---- FlatGeobuf

TEST(ExportFlatGeobuf, holds_the_zones_with_the_verdict_of_their_tree) {
  const TempFolder folder;
  const Scene it = scene();
  const ExportReport report = exported(it, folder / "site.fgb");
  ASSERT_EQ(report.warnings.size(), 1U);
  EXPECT_TRUE(holds(report.warnings[0], std::to_string(28 - 2 * it.placed()) + " zones of trees"));
  const auto data = read_back(folder / "site.fgb");
  ASSERT_TRUE(data);
  OGRLayer* zones = data->GetLayer(0);
  EXPECT_EQ(zones->GetFeatureCount(), static_cast<GIntBig>(2 * it.placed()));
  EXPECT_STREQ(zones->GetSpatialRef()->GetAuthorityCode(nullptr), "27700");
  std::size_t shapes = 0;
  for (const auto& zone : *zones) {
    const OGRGeometry* geometry = zone->GetGeometryRef();
    if (geometry == nullptr || geometry->IsEmpty()) continue;
    ++shapes;
    EXPECT_NEAR(geometry->toMultiPolygon()->get_Area() / zone->GetFieldAsDouble("area_m2"), 1,
                2e-4);
    EXPECT_TRUE(holds(zone->GetFieldAsString("caution"), "INVENTED DATA"));
    EXPECT_TRUE(holds(zone->GetFieldAsString("verdict"), "keep"));
  }
  EXPECT_EQ(shapes, 2 * it.placed());
  expect_about(text_of(folder / "site.about.txt"), it);
}

// ---- Shapefile

TEST(ExportShapefile, has_short_names_and_a_key_to_them) {
  const TempFolder folder;
  Scene it = scene();
  it.site.trees[0].notes = std::string(300, 'n');
  const ExportReport report = exported(it, folder / "site.shp");
  for (const char* ending :
       {"site.shp", "site.shx", "site.dbf", "site.prj", "site.cpg", "site_trees.shp",
        "site_trees.dbf", "site.fields.csv", "site.about.txt"}) {
    EXPECT_TRUE(fs::exists(folder / ending)) << ending;
  }
  EXPECT_EQ(static_cast<int>(report.files.size()), files_in(folder.path()));
  EXPECT_EQ(report.files.front(), folder / "site.shp");
  const std::string key = text_of(folder / "site.fields.csv");
  const auto zones = read_back(folder / "site.shp");
  const auto trees = read_back(folder / "site_trees.shp");
  ASSERT_TRUE(zones && trees);
  EXPECT_EQ(zones->GetLayer(0)->GetFeatureCount(), 28);
  EXPECT_EQ(trees->GetLayer(0)->GetFeatureCount(), 14);
  for (const auto& [layer, file] : {std::pair{zones->GetLayer(0), "site.shp"},
                                    std::pair{trees->GetLayer(0), "site_trees.shp"}}) {
    std::set<std::string> names;
    for (int i = 0; i < layer->GetLayerDefn()->GetFieldCount(); ++i) {
      const std::string name = layer->GetLayerDefn()->GetFieldDefn(i)->GetNameRef();
      EXPECT_LE(name.size(), 10U);
      EXPECT_TRUE(names.insert(name).second) << name;
      EXPECT_TRUE(holds(key, std::string(file) + "," + name + ",")) << name;
    }
  }
  EXPECT_TRUE(holds(key, "site_trees.shp,ak_best,anchorage_kept_best,0"));
  EXPECT_TRUE(holds(key, "survey_notes,1"));
  const bool warned = std::any_of(
      report.warnings.begin(), report.warnings.end(),
      [](const std::string& warning) { return holds(warning, "survey_notes are cut"); });
  EXPECT_TRUE(warned);
}

TEST(ExportShapefile, keeps_positions_to_the_millimetre_and_letters_whole) {
  const TempFolder folder;
  Scene it = scene();
  it.site.trees[0].notes = std::string(253, 'n') + "é and more";  // the cut falls inside the é
  it.site.trees[1].notes = "Straße, Łódź, 樹木";
  exported(it, folder / "site.shp");
  const auto data = read_back(folder / "site_trees.shp");
  ASSERT_TRUE(data);
  std::size_t at = 0;
  for (const auto& feature : *data->GetLayer(0)) {
    const Tree& tree = it.site.trees[at++];
    if (at == 1) {
      EXPECT_EQ(feature->GetFieldAsString("s_notes"), std::string(253, 'n'));
    } else {
      EXPECT_EQ(feature->GetFieldAsString("s_notes"), tree.notes);
    }
    const OGRGeometry* geometry = feature->GetGeometryRef();
    ASSERT_EQ(geometry != nullptr, tree.position.has_value());
    if (geometry == nullptr) continue;
    EXPECT_NEAR(geometry->toPoint()->getX(), tree.position->at.x, kMillimetre);
    EXPECT_NEAR(geometry->toPoint()->getY(), tree.position->at.y, kMillimetre);
  }
}

}  // namespace
}  // namespace rootstead::io
