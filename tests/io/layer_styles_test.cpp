#include <cpl_minixml.h>
#include <ogrsf_frmts.h>

#include <map>

#include "io/export.hpp"
#include "tests/io/sample_site.hpp"
#include "tests/support/temp_folder.hpp"

namespace rootstead::io {
namespace {

using test::TempFolder;

struct StyleText {
  std::string qml, sld;
};

std::map<std::string, StyleText> styles_in(const std::filesystem::path& file) {
  GDALAllRegister();
  const GDALDatasetUniquePtr data(GDALDataset::Open(file.c_str(), GDAL_OF_VECTOR));
  std::map<std::string, StyleText> styles;
  for (const auto& row : *data->GetLayerByName("layer_styles")) {
    styles[row->GetFieldAsString("f_table_name")] = {row->GetFieldAsString("styleQML"),
                                                     row->GetFieldAsString("styleSLD")};
  }
  return styles;
}

bool well_formed(const std::string& xml) {
  CPLXMLNode* root = CPLParseXMLString(xml.c_str());
  CPLDestroyXMLNode(root);
  return root != nullptr;
}

std::filesystem::path project_file(const TempFolder& folder) {
  const auto project = Project::create(folder / "site.gpkg", *reference_system("EPSG:27700"), {});
  EXPECT_TRUE(project);
  return folder / "site.gpkg";
}

TEST(LayerStyles, are_well_formed_for_every_layer_of_one_geometry) {
  const TempFolder folder;
  const auto styles = styles_in(project_file(folder));
  for (const char* layer : {"trees", "verdicts", "zones", "ground", "bore_pits"}) {
    ASSERT_TRUE(styles.contains(layer)) << layer;
    EXPECT_TRUE(well_formed(styles.at(layer).qml)) << layer;
    EXPECT_TRUE(well_formed(styles.at(layer).sld)) << layer;
  }
}

TEST(LayerStyles, have_a_mark_for_every_verdict_and_a_line_for_every_purpose) {
  const TempFolder folder;
  const auto styles = styles_in(project_file(folder));
  for (const Action action : {Action::keep, Action::keep_with_measures, Action::assess_further,
                              Action::transplant, Action::remove, Action::undecided}) {
    const std::string word(to_text(action));
    EXPECT_NE(styles.at("verdicts").qml.find("value=\"" + word + "\""), std::string::npos) << word;
    EXPECT_NE(styles.at("verdicts").sld.find(">" + word + "<"), std::string::npos) << word;
  }
  for (const ZonePurpose purpose : {ZonePurpose::vitality, ZonePurpose::stability,
                                    ZonePurpose::crown, ZonePurpose::precaution}) {
    const std::string word(to_text(purpose));
    EXPECT_NE(styles.at("zones").qml.find("value=\"" + word + "\""), std::string::npos) << word;
  }
}

TEST(LayerStyles, mark_the_trees_of_an_export_by_verdict) {
  const TempFolder folder;
  Site site;
  site.system = *reference_system("EPSG:27700");
  site.trees = test::random_import(1, 2, 0).trees;
  ASSERT_TRUE(write_export(site, test::invented_assessment(site), Tables{}, folder / "out.gpkg"));
  EXPECT_NE(styles_in(folder / "out.gpkg").at("trees").qml.find("attr=\"verdict\""),
            std::string::npos);
}

}  // namespace
}  // namespace rootstead::io
