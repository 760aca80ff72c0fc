// The project file through other eyes: GDAL's GeoPackage driver, as a GIS opens it.
#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include <algorithm>
#include <map>

#include "tests/io/sample_site.hpp"
#include "tests/support/temp_folder.hpp"

namespace rootstead::io {
namespace {

using test::TempFolder;

constexpr const char* kWhen = "2026-11-25T09:30:00Z";

GDALDatasetUniquePtr open_by_gdal(const std::filesystem::path& file) {
  GDALAllRegister();
  const char* const drivers[] = {"GPKG", nullptr};
  return GDALDatasetUniquePtr(
      GDALDataset::Open(file.c_str(), GDAL_OF_VECTOR | GDAL_OF_VERBOSE_ERROR, drivers));
}

std::map<std::string, OGRLayer*> layers_of(GDALDataset& data) {
  std::map<std::string, OGRLayer*> layers;
  for (OGRLayer* layer : data.GetLayers()) layers[layer->GetName()] = layer;
  return layers;
}

struct Made {
  Import import;
  Site site;
};

Made make(const std::filesystem::path& file, const std::string& system, double x, double y) {
  Made made;
  made.import = test::random_import(11, 12, 6, x, y);
  auto project = Project::create(file, *reference_system(system), {}, kWhen);
  EXPECT_TRUE(project->add(made.import, kWhen));
  made.site = *project->read();
  EXPECT_TRUE(project->save_assessment(made.site, test::invented_assessment(made.site), kWhen));
  return made;
}

TEST(ProjectInGis, opens_without_a_warning_with_all_layers_and_counts) {
  const TempFolder folder;
  const Made made = make(folder / "site.gpkg", "EPSG:27700", 530000, 180000);
  CPLErrorReset();
  const auto data = open_by_gdal(folder / "site.gpkg");
  ASSERT_TRUE(data);
  EXPECT_STREQ(CPLGetLastErrorMsg(), "");
  auto layers = layers_of(*data);
  const auto count = [&](const char* name) {
    return layers.count(name) == 1 ? layers[name]->GetFeatureCount() : -1;
  };
  const auto placed = std::count_if(made.site.trees.begin(), made.site.trees.end(),
                                    [](const Tree& tree) { return tree.position.has_value(); });
  EXPECT_EQ(count("trees"), 12);
  EXPECT_EQ(count("works"), 6);
  EXPECT_EQ(count("barriers"), 6);
  EXPECT_EQ(count("ground"), 6);
  EXPECT_EQ(count("boundary"), static_cast<GIntBig>(made.site.boundary.size()));
  EXPECT_GT(count("boundary"), 0);
  EXPECT_EQ(count("gates"), 6);
  EXPECT_EQ(count("climate"), 0);
  EXPECT_EQ(count("zones"), 24);
  EXPECT_EQ(count("verdicts"), 12);
  EXPECT_EQ(count("journal"), 3);
  for (const char* name :
       {"stems", "crowns", "flares", "settings", "imports", "problems", "losses", "root_losses",
        "limits", "anchorage", "cautions", "assessment", "taper_readings", "flare_signs",
        "flare_records", "vehicles", "ground_covers"}) {
    EXPECT_GT(count(name), 0) << name;
  }
  int with_place = 0;
  for (const auto& feature : *layers["trees"]) {
    const OGRGeometry* geometry = feature->GetGeometryRef();
    if (geometry == nullptr) continue;
    ++with_place;
    const Tree* tree = made.site.tree(feature->GetFieldAsString("id"));
    ASSERT_NE(tree, nullptr);
    EXPECT_EQ(geometry->toPoint()->getX(), tree->position->at.x);
    EXPECT_EQ(geometry->toPoint()->getY(), tree->position->at.y);
  }
  EXPECT_EQ(with_place, placed);
  EXPECT_STREQ(CPLGetLastErrorMsg(), "");
}

TEST(ProjectInGis, has_the_reference_system_of_the_project_in_every_layer) {
  const TempFolder folder;
  make(folder / "site.gpkg", "EPSG:2236", 280000, 160000);
  const auto data = open_by_gdal(folder / "site.gpkg");
  ASSERT_TRUE(data);
  for (OGRLayer* layer : data->GetLayers()) {
    if (layer->GetGeomType() == wkbNone) continue;
    const OGRSpatialReference* system = layer->GetSpatialRef();
    ASSERT_NE(system, nullptr) << layer->GetName();
    EXPECT_STREQ(system->GetAuthorityCode(nullptr), "2236") << layer->GetName();
    EXPECT_NEAR(system->GetLinearUnits(), 1200.0 / 3937, 1e-12);
  }
}

TEST(ProjectInGis, holds_positions_in_the_units_of_the_system) {
  const TempFolder folder;
  const Made made = make(folder / "site.gpkg", "EPSG:2236", 280000, 160000);
  const auto data = open_by_gdal(folder / "site.gpkg");
  ASSERT_TRUE(data);
  for (const auto& feature : *data->GetLayerByName("trees")) {
    if (feature->GetGeometryRef() == nullptr) continue;
    const Tree* tree = made.site.tree(feature->GetFieldAsString("id"));
    EXPECT_NEAR(feature->GetGeometryRef()->toPoint()->getX() * 1200 / 3937, tree->position->at.x,
                1e-8);
  }
}

TEST(ProjectInGis, draws_zones_with_their_true_size) {
  const TempFolder folder;
  make(folder / "site.gpkg", "EPSG:27700", 530000, 180000);
  const auto data = open_by_gdal(folder / "site.gpkg");
  ASSERT_TRUE(data);
  int drawn = 0;
  for (const auto& feature : *data->GetLayerByName("zones")) {
    const OGRGeometry* geometry = feature->GetGeometryRef();
    if (geometry == nullptr) continue;
    ++drawn;
    const double area = feature->GetFieldAsDouble("area_m2");
    EXPECT_NEAR(geometry->toMultiPolygon()->get_Area() / area, 1, 2e-4);  // 256 corners
    EXPECT_TRUE(geometry->IsValid());
  }
  EXPECT_GT(drawn, 0);
}

TEST(ProjectInGis, takes_a_boundary_and_a_gate_that_a_gis_draws) {
  const TempFolder folder;
  Project::create(folder / "site.gpkg", *reference_system("EPSG:27700"), {}).value();
  {
    GDALAllRegister();
    const GDALDatasetUniquePtr data(
        GDALDataset::Open((folder / "site.gpkg").c_str(), GDAL_OF_VECTOR | GDAL_OF_UPDATE));
    ASSERT_TRUE(data);
    OGRLayer* boundary = data->GetLayerByName("boundary");
    ASSERT_NE(boundary, nullptr);
    OGRFeature area(boundary->GetLayerDefn());
    OGRGeometry* square = nullptr;
    OGRGeometryFactory::createFromWkt(
        "MULTIPOLYGON (((530000 180000,530050 180000,530050 180040,530000 180000)))", nullptr,
        &square);
    area.SetGeometryDirectly(square);
    EXPECT_EQ(boundary->CreateFeature(&area), OGRERR_NONE);
    OGRLayer* gates = data->GetLayerByName("gates");
    ASSERT_NE(gates, nullptr);
    OGRFeature gate(gates->GetLayerDefn());
    gate.SetField("id", "main");
    gate.SetField("width", 4.5);
    gate.SetField("width_unit", "m");
    OGRPoint place(530000, 180010);
    gate.SetGeometry(&place);
    EXPECT_EQ(gates->CreateFeature(&gate), OGRERR_NONE);
  }
  const auto site = Project::open(folder / "site.gpkg")->read();
  ASSERT_TRUE(site) << site.error().sentence();
  EXPECT_EQ(site->boundary.size(), 1U);
  ASSERT_EQ(site->gates.size(), 1U);
  EXPECT_EQ(site->gates[0].at, (Point{530000, 180010}));
  EXPECT_EQ(to_text(site->gates[0].width), "4.5 m");
}

TEST(ProjectInGis, takes_a_tree_that_a_gis_adds) {
  const TempFolder folder;
  const Made made = make(folder / "site.gpkg", "EPSG:27700", 530000, 180000);
  {
    GDALAllRegister();
    const GDALDatasetUniquePtr data(
        GDALDataset::Open((folder / "site.gpkg").c_str(), GDAL_OF_VECTOR | GDAL_OF_UPDATE));
    ASSERT_TRUE(data);
    OGRLayer* trees = data->GetLayerByName("trees");
    OGRFeature tree(trees->GetLayerDefn());
    tree.SetField("id", "new tree");
    tree.SetField("growth_form", "palm");
    tree.SetField("condition", "good");
    tree.SetField("life_stage", "mature");
    OGRPoint place(530001, 180002);
    tree.SetGeometry(&place);
    EXPECT_EQ(trees->CreateFeature(&tree), OGRERR_NONE);
  }
  const auto site = Project::open(folder / "site.gpkg")->read();
  ASSERT_TRUE(site) << site.error().sentence();
  ASSERT_EQ(site->trees.size(), made.site.trees.size() + 1);
  EXPECT_EQ(site->trees.back().form, GrowthForm::palm);
  EXPECT_EQ(site->trees.back().position->at, (Point{530001, 180002}));
}

}  // namespace
}  // namespace rootstead::io
