// Exports through other eyes: every format is read back with GDAL and compared with the site.
#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include <algorithm>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>

#include "io/export.hpp"
#include "tests/io/sample_site.hpp"
#include "tests/support/temp_folder.hpp"

namespace rootstead::io {
namespace {

using test::TempFolder;
namespace fs = std::filesystem;

constexpr double kMillimetre = 1e-3;

struct Scene {
  Site site;
  Assessment assessment;
  Tables tables;

  std::size_t placed() const {
    return static_cast<std::size_t>(
        std::count_if(site.trees.begin(), site.trees.end(),
                      [](const Tree& tree) { return tree.position.has_value(); }));
  }
};

Scene scene(const std::string& system = "EPSG:27700", double x = 530000, double y = 180000) {
  Scene scene;
  const Import import = test::random_import(21, 14, 6, x, y);
  scene.site.system = *reference_system(system);
  scene.site.settings.title = "Mill Lane";
  scene.site.settings.demo = true;
  scene.site.trees = import.trees;
  scene.site.works = import.works;
  scene.site.barriers = import.barriers;
  scene.site.surfaces = import.surfaces;
  scene.assessment = test::invented_assessment(scene.site);
  scene.tables.sources.push_back(
      {"invented-source", "A. Nobody 2026, Invented Source", "invented"});
  return scene;
}

ExportReport exported(const Scene& scene, const fs::path& file) {
  const auto report = write_export(scene.site, scene.assessment, scene.tables, file);
  EXPECT_TRUE(report) << report.error().sentence();
  return report ? *report : ExportReport{};
}

GDALDatasetUniquePtr read_back(const fs::path& file) {
  GDALAllRegister();
  return GDALDatasetUniquePtr(GDALDataset::Open(file.c_str(), GDAL_OF_VECTOR));
}

std::string text_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

int files_in(const fs::path& folder) {
  return static_cast<int>(std::distance(fs::directory_iterator(folder), {}));
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

// Every caution, the mark of invented data, the data version and the source with its status.
void expect_about(const std::string& text, const Scene& scene) {
  for (const std::string& caution : scene.assessment.cautions) EXPECT_TRUE(holds(text, caution));
  EXPECT_TRUE(holds(text, "INVENTED DATA"));
  EXPECT_TRUE(holds(text, "test data 1"));
  EXPECT_TRUE(holds(text, "A. Nobody 2026, Invented Source"));
  EXPECT_TRUE(holds(text, "from memory"));
  EXPECT_TRUE(holds(text, "Mill Lane"));
}

TEST(Export, names_the_known_endings_where_it_knows_none) {
  const TempFolder folder;
  const Scene it = scene();
  for (const char* name : {"site.pdf", "site", "site.dwg"}) {
    const auto report = write_export(it.site, it.assessment, it.tables, folder / name);
    ASSERT_FALSE(report) << name;
    EXPECT_EQ(report.error().code, Code::format_unknown);
    EXPECT_TRUE(holds(report.error().sentence(), ".dxf .geojson .csv .gpkg .fgb .shp"))
        << report.error().sentence();
  }
  EXPECT_EQ(files_in(folder.path()), 0);
}

TEST(Export, leaves_nothing_where_it_cannot_write) {
  const TempFolder folder;
  const Scene it = scene();
  for (const char* ending : {"dxf", "geojson", "csv", "gpkg", "fgb", "shp"}) {
    const auto lost = write_export(it.site, it.assessment, it.tables,
                                   folder / (std::string("none/site.") + ending));
    ASSERT_FALSE(lost) << ending;
    EXPECT_EQ(lost.error().code, Code::file_unwritable);
    EXPECT_TRUE(holds(lost.error().sentence(), "does not exist")) << lost.error().sentence();
    const auto closed =
        write_export(it.site, it.assessment, it.tables, std::string("/proc/site.") + ending);
    ASSERT_FALSE(closed) << ending;
    EXPECT_EQ(closed.error().code, Code::file_unwritable);
  }
  EXPECT_EQ(files_in(folder.path()), 0);
}

TEST(Export, replaces_an_earlier_file_and_leaves_no_parts) {
  const TempFolder folder;
  const Scene it = scene();
  { std::ofstream(folder / "site.csv") << "old"; }
  const ExportReport report = exported(it, folder / "site.csv");
  EXPECT_NE(text_of(folder / "site.csv"), "old");
  EXPECT_EQ(report.files, (std::vector<fs::path>{folder / "site.csv", folder / "site.about.txt"}));
  EXPECT_EQ(files_in(folder.path()), 2);
}

TEST(Export, writes_the_same_bytes_twice) {
  const TempFolder folder;
  const Scene it = scene();
  for (const char* ending : {"dxf", "geojson", "csv", "fgb"}) {
    const fs::path first = folder / (std::string("a.") + ending);
    const fs::path second = folder / (std::string("b.") + ending);
    exported(it, first);
    exported(it, second);
    EXPECT_EQ(text_of(first), text_of(second)) << ending;
  }
}

TEST(Export, takes_a_site_without_anything) {
  const TempFolder folder;
  Scene it;
  it.site.system = *reference_system("EPSG:27700");
  for (const char* ending : {"dxf", "geojson", "csv", "gpkg", "fgb", "shp"}) {
    exported(it, folder / (std::string("site.") + ending));
  }
}

// ---- schedule

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

// ---- drawing

std::string header_value(const std::string& dxf, const std::string& name) {
  const auto at = dxf.find("\n" + name + "\n");
  if (at == std::string::npos) return "";
  std::istringstream rest(dxf.substr(at + 1));
  std::string line, code, value;
  std::getline(rest, line);
  std::getline(rest, code);
  std::getline(rest, value);
  return value;
}

TEST(ExportDxf, draws_every_thing_on_its_layer) {
  const TempFolder folder;
  const Scene it = scene();
  const ExportReport report = exported(it, folder / "site.dxf");
  const auto data = read_back(folder / "site.dxf");
  ASSERT_TRUE(data);
  std::map<std::string, std::size_t> on_layer;
  for (const auto& feature : *data->GetLayer(0)) ++on_layer[feature->GetFieldAsString("Layer")];
  std::size_t crowns = 0, surfaces = 0;
  for (const Tree& tree : it.site.trees) crowns += tree.position && tree.crown;
  for (const Surface& surface : it.site.surfaces) {
    for (const Polygon& area : surface.area) surfaces += 1 + area.holes.size();
  }
  EXPECT_EQ(on_layer["ROOT_TREE_STEM"], it.placed());
  EXPECT_EQ(on_layer["ROOT_TREE_LABEL"], it.placed());
  EXPECT_EQ(on_layer["ROOT_TREE_VERDICT"], it.placed());
  EXPECT_EQ(on_layer["ROOT_TREE_CROWN"], crowns);
  EXPECT_EQ(on_layer["ROOT_ZONE_INVENTED_RULE_0_ROOT_ZONE"], it.placed());
  EXPECT_EQ(on_layer["ROOT_ZONE_INVENTED_RULE_1_ROOT_ZONE"], it.placed());
  EXPECT_EQ(on_layer["ROOT_GROUND_SURFACED"], surfaces);
  EXPECT_GT(on_layer["ROOT_NOTES"], 5U);
  ASSERT_FALSE(report.warnings.empty());
  EXPECT_TRUE(holds(report.warnings[0], std::to_string(14 - it.placed()) + " trees have no"));
}

TEST(ExportDxf, draws_zones_where_they_are_to_the_millimetre) {
  const TempFolder folder;
  for (const auto& [code, x, y, insunits] : {std::tuple{"EPSG:27700", 530000.0, 180000.0, "6"},
                                             std::tuple{"EPSG:2236", 280000.0, 160000.0, "21"},
                                             std::tuple{"EPSG:2913", 2300000.0, 200000.0, "2"}}) {
    const Scene it = scene(code, x, y);
    exported(it, folder / "site.dxf");
    EXPECT_EQ(header_value(text_of(folder / "site.dxf"), "$INSUNITS"), insunits);
    EXPECT_EQ(header_value(text_of(folder / "site.dxf"), "$ACADVER"), "AC1015");
    const auto data = read_back(folder / "site.dxf");
    std::vector<OGREnvelope> circles;
    for (const auto& feature : *data->GetLayer(0)) {
      if (std::string(feature->GetFieldAsString("Layer")) != "ROOT_ZONE_INVENTED_RULE_0_ROOT_ZONE")
        continue;
      feature->GetGeometryRef()->getEnvelope(&circles.emplace_back());
    }
    const double unit = metres_per(it.site.system.file_unit);
    std::size_t at = 0;
    for (const Tree& tree : it.site.trees) {
      if (!tree.position) continue;
      ASSERT_LT(at, circles.size());
      const OGREnvelope& box = circles[at++];
      EXPECT_NEAR((box.MinX + box.MaxX) / 2 * unit, tree.position->at.x, kMillimetre);
      EXPECT_NEAR((box.MinY + box.MaxY) / 2 * unit, tree.position->at.y, kMillimetre);
      EXPECT_NEAR((box.MaxX - box.MinX) / 2 * unit, 6, kMillimetre);
    }
    EXPECT_EQ(at, circles.size());
  }
}

TEST(ExportDxf, carries_cautions_in_the_drawing_and_at_its_head) {
  const TempFolder folder;
  const Scene it = scene();
  exported(it, folder / "site.dxf");
  const std::string text = text_of(folder / "site.dxf");
  EXPECT_TRUE(text.starts_with("999\n"));
  expect_about(text, it);
  const auto data = read_back(folder / "site.dxf");
  std::string notes;
  for (const auto& feature : *data->GetLayer(0)) notes += feature->GetFieldAsString("Text");
  for (const std::string& caution : it.assessment.cautions) EXPECT_TRUE(holds(notes, caution));
}

TEST(ExportDxf, writes_western_letters_as_they_are_and_others_as_escapes) {
  const TempFolder folder;
  Scene it = scene();
  it.site.trees[0].tag = "Straße – “7” élan\nnext Ł樹😀";
  it.site.trees[0].position = Position{{530000, 180000}, "", std::nullopt};
  exported(it, folder / "site.dxf");
  EXPECT_TRUE(holds(text_of(folder / "site.dxf"), "next \\U+0141\\U+6A39?"));
  const auto data = read_back(folder / "site.dxf");
  std::string texts;
  for (const auto& feature : *data->GetLayer(0)) texts += feature->GetFieldAsString("Text");
  EXPECT_TRUE(holds(texts, "Straße - \"7\" élan next ")) << texts;
}

TEST(ExportDxf, gives_every_object_a_handle_of_its_own) {
  const TempFolder folder;
  const Scene it = scene();
  exported(it, folder / "site.dxf");
  std::ifstream in(folder / "site.dxf");
  std::set<std::string> handles, named, layers;
  std::string code, value, kind, last_kind;
  bool comments = true;
  while (std::getline(in, code) && std::getline(in, value)) {
    if (code == "999") continue;
    comments = false;
    if (code == "0") kind = value;
    if (code == "2" && kind == "LAYER") layers.insert(value);
    if (code == "8" && kind != "SECTION") named.insert(value);
    const bool own = (code == "5" && kind != "SECTION") || (code == "105" && kind == "DIMSTYLE");
    if (own) {
      EXPECT_TRUE(handles.insert(value).second) << kind << " " << value;
    }
  }
  EXPECT_FALSE(comments);
  EXPECT_GT(handles.size(), 100U);
  for (const std::string& layer : named) EXPECT_TRUE(layers.contains(layer)) << layer;
}

}  // namespace
}  // namespace rootstead::io
