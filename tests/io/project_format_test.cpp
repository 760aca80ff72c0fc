// Projects of older formats, made from the SQL that the program of their time wrote.
#include <gtest/gtest.h>
#include <sqlite3.h>

#include <cstdlib>
#include <fstream>
#include <iterator>
#include <random>

#include "tests/io/sample_site.hpp"
#include "tests/support/temp_folder.hpp"

namespace rootstead::io {
namespace {

using test::TempFolder;

constexpr const char* kWhen = "2026-11-25T09:30:00Z";

void run_sql(const std::filesystem::path& file, const std::string& sql) {
  sqlite3* handle = nullptr;
  sqlite3_open(file.c_str(), &handle);
  char* message = nullptr;
  EXPECT_EQ(sqlite3_exec(handle, sql.c_str(), nullptr, nullptr, &message), SQLITE_OK) << message;
  sqlite3_free(message);
  sqlite3_close(handle);
}

std::string text_in(const std::filesystem::path& file) {
  std::ifstream in(file);
  return {std::istreambuf_iterator<char>(in), {}};
}

std::filesystem::path project_of_format(int format, const TempFolder& folder) {
  const auto file = folder / "old.gpkg";
  const std::filesystem::path source = std::getenv("ROOTSTEAD_SOURCE_DIR");
  run_sql(file, text_in(source / "tests/io" / ("format_" + std::to_string(format) + ".sql")));
  return file;
}

std::string format_in(const std::filesystem::path& file) {
  sqlite3* handle = nullptr;
  sqlite3_open(file.c_str(), &handle);
  sqlite3_stmt* statement = nullptr;
  sqlite3_prepare_v2(handle, "SELECT value FROM settings WHERE key = 'file.format_version'", -1,
                     &statement, nullptr);
  std::string format;
  if (sqlite3_step(statement) == SQLITE_ROW)
    format = reinterpret_cast<const char*>(sqlite3_column_text(statement, 0));
  sqlite3_finalize(statement);
  sqlite3_close(handle);
  return format;
}

TEST(OlderFormat, is_read_with_nothing_in_what_it_lacks_and_is_left_as_it_is) {
  const TempFolder folder;
  const auto file = project_of_format(1, folder);
  const std::string before = text_in(file);
  {
    const auto project = Project::open(file);
    ASSERT_TRUE(project) << project.error().sentence();
    const auto site = project->read();
    ASSERT_TRUE(site) << site.error().sentence();
    ASSERT_EQ(site->trees.size(), 2U);
    EXPECT_EQ(to_text(site->trees[1].stems.at(0).size), "60 cm");
    EXPECT_EQ(site->works.at(0).id, "W1");
    EXPECT_EQ(site->soil.texture, SoilTexture::loam);
    EXPECT_EQ(to_text(*site->soil.rooting_depth), "600 mm");
    EXPECT_TRUE(site->soil.compacted);
    EXPECT_EQ(site->soil.notes, "by hand");
    EXPECT_FALSE(site->soil.water_table);
    EXPECT_TRUE(site->soil.layers.empty());
    EXPECT_TRUE(site->evidence.empty());
    EXPECT_EQ(site->wind.standard, Wind::Standard::none);
    EXPECT_EQ(project->journal()->size(), 3U);
  }
  EXPECT_EQ(text_in(file), before);
}

TEST(OlderFormat, of_number_2_is_read_with_all_it_has_and_is_left_as_it_is) {
  const TempFolder folder;
  const auto file = project_of_format(2, folder);
  const std::string before = text_in(file);
  {
    const auto project = Project::open(file);
    ASSERT_TRUE(project) << project.error().sentence();
    const auto site = project->read();
    ASSERT_TRUE(site) << site.error().sentence();
    ASSERT_EQ(site->trees.size(), 2U);
    EXPECT_EQ(site->trees[0].flare.state, Flare::State::buried);
    EXPECT_TRUE(site->trees[0].flare.taper.empty());
    EXPECT_TRUE(site->trees[0].flare.signs.empty());
    EXPECT_FALSE(site->trees[0].flare.found);
    EXPECT_EQ(site->trees[0].history, GrowthHistory::unknown);
    EXPECT_EQ(site->trees[0].intent, Intent::undecided);
    EXPECT_FALSE(site->trees[0].clear_trunk);
    ASSERT_EQ(site->works.size(), 2U);
    EXPECT_FALSE(site->works[0].vehicle);
    EXPECT_FALSE(site->works[0].cover);
    EXPECT_EQ(site->works[0].fill_texture, SoilTexture::unknown);
    EXPECT_FALSE(site->works[0].wet);
    EXPECT_EQ(site->works[0].date + site->works[0].seen, "");
    ASSERT_EQ(site->evidence.size(), 1U);
    EXPECT_EQ(site->evidence[0].roots.size(), 2U);
    ASSERT_EQ(site->soil.layers.size(), 2U);
    EXPECT_EQ(site->soil.layers[0].bulk_density, 1.45);
    EXPECT_FALSE(site->soil.layers[0].sand);
    EXPECT_FALSE(site->soil.layers[0].water);
    EXPECT_EQ(site->wind.basic_speed, 24);
    EXPECT_TRUE(site->boundary.empty());
    EXPECT_TRUE(site->gates.empty());
    EXPECT_FALSE(site->climate.latitude);
    EXPECT_TRUE(site->climate.rain.empty());
    EXPECT_EQ(project->journal()->size(), 6U);
  }
  EXPECT_EQ(text_in(file), before);
}

TEST(OlderFormat, is_read_where_it_is_write_protected) {
  const TempFolder folder;
  const auto file = project_of_format(1, folder);
  std::filesystem::permissions(file, std::filesystem::perms::owner_read);
  const auto project = Project::open(file);
  ASSERT_TRUE(project) << project.error().sentence();
  EXPECT_EQ(project->read()->trees.size(), 2U);
}

class RaisedFormat : public ::testing::TestWithParam<int> {};

TEST_P(RaisedFormat, is_raised_by_the_first_change_and_then_holds_everything) {
  const auto seed = static_cast<std::uint64_t>(std::random_device()());
  SCOPED_TRACE("seed " + std::to_string(seed));
  const int had = GetParam();
  const TempFolder folder;
  const auto file = project_of_format(had, folder);
  auto project = Project::open(file);
  ASSERT_TRUE(project) << project.error().sentence();
  Site site = *project->read();
  const std::size_t before = project->journal()->size();
  const Import import = test::random_import(seed, 3, 3);
  ASSERT_TRUE(project->add(import, kWhen));
  EXPECT_EQ(format_in(file), "3");
  const auto journal = project->journal();
  ASSERT_TRUE(journal) << journal.error().sentence();
  ASSERT_EQ(journal->size(), before + 2);
  EXPECT_EQ(journal->at(before).action, "format");
  EXPECT_EQ(journal->at(before).detail,
            "the project had format " + std::to_string(had) + " and has 3 from now on");
  EXPECT_EQ(journal->at(before + 1).action, "add");

  site.trees.insert(site.trees.end(), import.trees.begin(), import.trees.end());
  site.works.insert(site.works.end(), import.works.begin(), import.works.end());
  site.barriers = import.barriers;
  site.surfaces = import.surfaces;
  site.evidence.insert(site.evidence.end(), import.evidence.begin(), import.evidence.end());
  site.boundary = import.boundary;
  site.gates = import.gates;
  site.soil = test::random_soil(seed);
  site.wind = test::random_wind(seed);
  site.climate = test::random_climate(seed);
  ASSERT_TRUE(project->save_choices(site, "soil and wind", kWhen));
  const auto again = Project::open(file);
  EXPECT_EQ(test::difference(site, *again->read()), "");
  EXPECT_EQ(again->journal()->size(), before + 3);
}

INSTANTIATE_TEST_SUITE_P(All, RaisedFormat, ::testing::Values(1, 2));

TEST(OlderFormat, stays_where_the_change_fails) {
  const TempFolder folder;
  const auto file = project_of_format(1, folder);
  auto project = Project::open(file);
  Import import;
  import.trees.resize(1);
  import.trees[0].id = "T1";
  EXPECT_EQ(project->add(import, kWhen).error().code, Code::duplicate);
  EXPECT_EQ(format_in(file), "1");
  EXPECT_EQ(project->journal()->size(), 3U);
  const Site site = *project->read();
  EXPECT_TRUE(project->save_assessment(site, test::invented_assessment(site), kWhen));
  EXPECT_EQ(format_in(file), "3");
}

}  // namespace
}  // namespace rootstead::io
