// What all exports share: endings, whole files, the same bytes.
#include "tests/io/export_scene.hpp"

namespace rootstead::io {
namespace {

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

}  // namespace
}  // namespace rootstead::io
