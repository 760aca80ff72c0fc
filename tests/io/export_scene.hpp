// A site to export, and ways to look at what was written.
#pragma once

#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

#include "io/export.hpp"
#include "tests/io/sample_site.hpp"
#include "tests/support/temp_folder.hpp"

namespace rootstead::io {

using test::TempFolder;
namespace fs = std::filesystem;

inline constexpr double kMillimetre = 1e-3;

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

inline Scene scene(const std::string& system = "EPSG:27700", double x = 530000, double y = 180000) {
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

inline ExportReport exported(const Scene& scene, const fs::path& file) {
  const auto report = write_export(scene.site, scene.assessment, scene.tables, file);
  EXPECT_TRUE(report) << report.error().sentence();
  return report ? *report : ExportReport{};
}

inline GDALDatasetUniquePtr read_back(const fs::path& file) {
  GDALAllRegister();
  return GDALDatasetUniquePtr(GDALDataset::Open(file.c_str(), GDAL_OF_VECTOR));
}

inline std::string text_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

inline int files_in(const fs::path& folder) {
  return static_cast<int>(std::distance(fs::directory_iterator(folder), {}));
}

inline bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

// Every caution, the mark of invented data, the data version and the source with its status.
inline void expect_about(const std::string& text, const Scene& scene) {
  for (const std::string& caution : scene.assessment.cautions) EXPECT_TRUE(holds(text, caution));
  EXPECT_TRUE(holds(text, "INVENTED DATA"));
  EXPECT_TRUE(holds(text, "test data 1"));
  EXPECT_TRUE(holds(text, "A. Nobody 2026, Invented Source"));
  EXPECT_TRUE(holds(text, "from memory"));
  EXPECT_TRUE(holds(text, "Mill Lane"));
}

}  // namespace rootstead::io
