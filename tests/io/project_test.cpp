#include <sqlite3.h>

#include <cmath>
#include <fstream>
#include <random>

#include "tests/io/each_store.hpp"
#include "tests/io/sample_site.hpp"
#include "tests/support/temp_folder.hpp"

namespace rootstead::io {
namespace {

using test::difference;
using test::EachStore;
using test::invented_assessment;
using test::meddle;
using test::Place;
using test::random_import;
using test::TempFolder;

constexpr const char* kWhen = "2026-11-25T09:30:00Z";

Project new_project(const std::filesystem::path& file, const std::string& system = "EPSG:27700") {
  auto project = Project::create(file, *reference_system(system), {}, kWhen);
  EXPECT_TRUE(project) << project.error().sentence();
  return std::move(project).value();
}

// What the site must be after adding these imports in this order.
Site expected(const Project& project, const std::vector<Import>& imports) {
  Site site;
  site.system = project.system();
  for (const Import& import : imports) {
    site.trees.insert(site.trees.end(), import.trees.begin(), import.trees.end());
    site.works.insert(site.works.end(), import.works.begin(), import.works.end());
    site.barriers.insert(site.barriers.end(), import.barriers.begin(), import.barriers.end());
    site.surfaces.insert(site.surfaces.end(), import.surfaces.begin(), import.surfaces.end());
    site.evidence.insert(site.evidence.end(), import.evidence.begin(), import.evidence.end());
    site.gates.insert(site.gates.end(), import.gates.begin(), import.gates.end());
    if (!import.boundary.empty()) site.boundary = import.boundary;
  }
  return site;
}

// Fresh sites in every run; a failure prints the seed that repeats it.
std::vector<std::uint64_t> fresh_seeds(int count) {
  std::random_device chance;
  std::vector<std::uint64_t> seeds;
  for (int i = 0; i < count; ++i) seeds.push_back(chance());
  return seeds;
}

INSTANTIATE_TEST_SUITE_P(Project, EachStore,
                         testing::Values(test::Store::file, test::Store::server),
                         test::name_of_store);

TEST_P(EachStore, gives_back_any_site_exactly) {
  for (const std::uint64_t seed : fresh_seeds(on_server() ? 5 : 20)) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    const Place folder(GetParam());
    Project project = new_project(folder / "site.gpkg");
    const Import first = random_import(seed, 6, 4);
    const Import second = random_import(seed + 1, 3, 2);
    const ProjectSettings settings = test::random_settings(seed);
    const Soil soil = test::random_soil(seed);
    ASSERT_TRUE(project.add(first, kWhen));
    ASSERT_TRUE(project.add(second, kWhen));
    ASSERT_TRUE(project.save_settings(settings, kWhen));
    ASSERT_TRUE(project.save_soil(soil, kWhen));
    Site site = expected(project, {first, second});
    site.settings = settings;
    site.soil = soil;
    const auto again = Project::open(folder / "site.gpkg");
    ASSERT_TRUE(again);
    EXPECT_FALSE(again->recovered());
    const auto read = again->read();
    ASSERT_TRUE(read) << read.error().sentence();
    EXPECT_EQ(difference(site, *read), "");
    EXPECT_EQ(again->import_problems().size(), first.problems.size() + second.problems.size());
    EXPECT_EQ(again->journal()->size(), 5U);
  }
}

TEST_P(EachStore, keeps_settings_soil_wind_and_climate_that_are_chosen_together) {
  for (const std::uint64_t seed : fresh_seeds(on_server() ? 3 : 10)) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    const Place folder(GetParam());
    Project project = new_project(folder / "site.gpkg");
    Site site = *project.read();
    site.settings = test::random_settings(seed);
    site.soil = test::random_soil(seed);
    site.wind = test::random_wind(seed);
    site.climate = test::random_climate(seed);
    ASSERT_TRUE(project.save_choices(site, "title = x", kWhen));
    EXPECT_EQ(difference(site, *project.read()), "");
    EXPECT_EQ(project.journal()->back().action, "set");
    EXPECT_EQ(project.journal()->back().detail, "title = x");
    ASSERT_TRUE(Project::open(folder / "site.gpkg")->save_soil(site.soil, kWhen));
    const auto late = project.save_choices(site, "again", kWhen);
    ASSERT_FALSE(late);
    EXPECT_EQ(late.error().code, Code::project_busy);
  }
}

TEST_P(EachStore, names_the_tree_of_an_opening_by_its_id_where_its_tag_was_written) {
  const Place folder(GetParam());
  Project project = new_project(folder / "site.gpkg");
  Import import;
  import.evidence.resize(2);
  import.evidence[0].id = "P1";
  import.evidence[0].tree = "17";
  import.evidence[1].id = "P2";
  import.evidence[1].tree = "18";
  ASSERT_TRUE(project.add(import, kWhen));
  EXPECT_EQ(project.read()->evidence.at(0).tree, "17");  // the trees may come later
  Import trees;
  trees.trees.resize(1);
  trees.trees[0].id = "tree-a";
  trees.trees[0].tag = "17";
  ASSERT_TRUE(project.add(trees, kWhen));
  EXPECT_EQ(project.read()->evidence.at(0).tree, "tree-a");
  EXPECT_EQ(project.read()->evidence.at(1).tree, "18");
}

TEST_P(EachStore, lays_what_a_source_says_of_the_soil_over_what_is_known) {
  const Place folder(GetParam());
  Project project = new_project(folder / "site.gpkg");
  Soil known;
  known.texture = SoilTexture::clay;
  known.compacted = true;
  known.layers = {{{0.3, LengthUnit::metre}, SoilTexture::loam, 1.2, {}, {}, {}, {}, {}, {}, {}}};
  known.notes = "from the map";
  ASSERT_TRUE(project.save_soil(known, kWhen));
  Import import;
  import.source = "pit.csv";
  import.rows_read = 1;
  import.soil = Soil{};
  import.soil->water_table = EnteredLength{900, LengthUnit::millimetre};
  ASSERT_TRUE(project.add(import, kWhen));
  const Soil soil = project.read()->soil;
  EXPECT_EQ(soil.texture, SoilTexture::clay);
  EXPECT_TRUE(soil.compacted);
  EXPECT_EQ(soil.water_table, import.soil->water_table);
  EXPECT_EQ(soil.notes, "from the map");
  ASSERT_EQ(soil.layers.size(), 1U);
  EXPECT_EQ(soil.layers[0].bulk_density, 1.2);
  EXPECT_EQ(project.journal()->back().detail, "pit.csv: soil from 1 row");
}

TEST_P(EachStore, keeps_feet_to_a_nanometre_and_lengths_as_entered) {
  for (const std::uint64_t seed : fresh_seeds(on_server() ? 3 : 10)) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    const Place folder(GetParam());
    Project project = new_project(folder / "site.gpkg", "EPSG:2236");
    const Import import = random_import(seed, 5, 3, 280000, 160000);
    ASSERT_TRUE(project.add(import, kWhen));
    const auto read = project.read();
    ASSERT_TRUE(read) << read.error().sentence();
    EXPECT_EQ(difference(expected(project, {import}), *read, 1e-9), "");
  }
}

TEST_P(EachStore, keeps_a_length_as_it_was_written) {
  const Place folder(GetParam());
  Project project = new_project(folder / "site.gpkg");
  Import import;
  Tree tree;
  tree.id = "T1";
  tree.stems = {{Stem::Read::girth, {500, LengthUnit::millimetre}, std::nullopt}};
  import.trees = {tree};
  ASSERT_TRUE(project.add(import, kWhen));
  const auto stem = project.read()->trees.at(0).stems.at(0);
  EXPECT_EQ(to_text(stem.size), "500 mm");
  EXPECT_EQ(stem.read, Stem::Read::girth);
  EXPECT_FALSE(stem.measured_at);
}

TEST_P(EachStore, tells_the_convergence_at_the_middle_of_the_trees) {
  const Place folder(GetParam());
  Project project = new_project(folder / "site.gpkg");
  ASSERT_TRUE(project.add(random_import(1, 20, 0), kWhen));
  EXPECT_NEAR(project.read()->system.convergence.degrees(), 1.465, 0.01);
}

TEST(ProjectFile, is_never_made_over_an_existing_file) {
  const TempFolder folder;
  { std::ofstream(folder / "site.gpkg") << "mine"; }
  const auto project = Project::create(folder / "site.gpkg", *reference_system("EPSG:27700"), {});
  ASSERT_FALSE(project);
  EXPECT_EQ(project.error().code, Code::file_unwritable);
  EXPECT_NE(project.error().sentence().find("exists already"), std::string::npos);
  std::string content;
  std::ifstream(folder / "site.gpkg") >> content;
  EXPECT_EQ(content, "mine");
}

TEST(ProjectFile, is_not_made_in_degrees_nor_in_a_missing_folder) {
  const TempFolder folder;
  ReferenceSystem degrees;
  degrees.code = "EPSG:4326";
  EXPECT_EQ(Project::create(folder / "a.gpkg", degrees, {}).error().code, Code::crs_unsuitable);
  EXPECT_FALSE(std::filesystem::exists(folder / "a.gpkg"));
  const auto lost = Project::create(folder / "none/a.gpkg", *reference_system("EPSG:27700"), {});
  EXPECT_NE(lost.error().sentence().find("does not exist"), std::string::npos)
      << lost.error().sentence();
  const auto itself = Project::create(folder.path(), *reference_system("EPSG:27700"), {});
  EXPECT_NE(itself.error().sentence().find("is a folder"), std::string::npos);
  EXPECT_EQ(std::distance(std::filesystem::directory_iterator(folder.path()), {}), 0);
}

TEST(ProjectFile, says_what_is_wrong_with_files_that_are_no_projects) {
  const TempFolder folder;
  EXPECT_EQ(Project::open(folder / "none.gpkg").error().code, Code::file_not_found);
  { std::ofstream(folder / "text.gpkg") << std::string(5000, 'x'); }
  EXPECT_EQ(Project::open(folder / "text.gpkg").error().code, Code::format_unknown);
  { std::ofstream touch(folder / "empty.gpkg"); }
  EXPECT_EQ(Project::open(folder / "empty.gpkg").error().code, Code::format_unknown);
  meddle(folder / "other.gpkg", "CREATE TABLE a (b)");
  const auto other = Project::open(folder / "other.gpkg");
  EXPECT_EQ(other.error().code, Code::format_unknown);
  EXPECT_NE(other.error().sentence().find("rootstead new"), std::string::npos);
}

TEST(ProjectFile, refuses_a_newer_format_by_a_sentence) {
  const TempFolder folder;
  { new_project(folder / "site.gpkg"); }
  meddle(folder / "site.gpkg", "UPDATE settings SET value = '4' WHERE key = 'file.format_version'");
  const auto project = Project::open(folder / "site.gpkg");
  ASSERT_FALSE(project);
  EXPECT_EQ(project.error().code, Code::format_newer);
  EXPECT_EQ(project.error().sentence(),
            "site.gpkg: the project has format 4 and this program reads formats up to 3; open it "
            "with a newer Rootstead.");
}

TEST_P(EachStore, names_table_column_and_word_that_it_does_not_understand) {
  const Place folder(GetParam());
  Project project = new_project(folder / "site.gpkg");
  ASSERT_TRUE(project.add(random_import(2, 2, 0), kWhen));
  meddle(folder / "site.gpkg", "UPDATE trees SET growth_form = 'bonsai' WHERE fid = 2");
  const auto site = project.read();
  ASSERT_FALSE(site);
  EXPECT_EQ(site.error().code, Code::format_broken);
  EXPECT_NE(site.error().sentence().find("\"bonsai\" in column growth_form of table trees"),
            std::string::npos)
      << site.error().sentence();
}

TEST(ProjectFile, refuses_geometry_bytes_that_are_none) {
  const TempFolder folder;
  Project project = new_project(folder / "site.gpkg");
  ASSERT_TRUE(project.add(random_import(2, 2, 2), kWhen));
  for (const char* bytes : {"X'00'", "X'4750000100000000'", "X'475000FF00000000'",
                            "X'47500001000000000103000000FFFFFFFF'", "'text'"}) {
    meddle(folder / "site.gpkg",
           (std::string("UPDATE works SET geom = ") + bytes + " WHERE fid = 1").c_str());
    const auto site = project.read();
    ASSERT_FALSE(site) << bytes;
    EXPECT_EQ(site.error().code, Code::format_broken) << bytes;
  }
}

TEST_P(EachStore, refuses_an_id_that_is_there_already_and_writes_nothing) {
  const Place folder(GetParam());
  Project project = new_project(folder / "site.gpkg");
  Import first;
  first.source = "first.csv";
  first.trees.resize(2);
  first.trees[0].id = "T1";
  first.trees[0].origin = {"first.csv", "row 2"};
  first.trees[1].id = "T2";
  ASSERT_TRUE(project.add(first, kWhen));
  Import second;
  second.source = "second.csv";
  second.trees.resize(2);
  second.trees[0].id = "T3";
  second.trees[1].id = "T1";
  second.trees[1].origin = {"second.csv", "row 9"};
  const auto outcome = project.add(second, kWhen);
  ASSERT_FALSE(outcome);
  EXPECT_EQ(outcome.error().code, Code::duplicate);
  EXPECT_EQ(
      outcome.error().sentence(),
      "second.csv row 9: the project has a tree T1 already, from first.csv row 2; give one of "
      "them another id or leave it out; nothing was added.");
  EXPECT_EQ(project.read()->trees.size(), 2U);
  EXPECT_EQ(project.journal()->size(), 2U);
}

TEST_P(EachStore, refuses_the_same_id_twice_in_one_source_and_records_without_one) {
  const Place folder(GetParam());
  Project project = new_project(folder / "site.gpkg");
  Import import;
  import.works.resize(2);
  import.works[0].id = import.works[1].id = "W1";
  EXPECT_EQ(project.add(import, kWhen).error().code, Code::duplicate);
  import.works[1].id = "";
  EXPECT_EQ(project.add(import, kWhen).error().code, Code::value_invalid);
  EXPECT_TRUE(project.read()->works.empty());
}

TEST_P(EachStore, refuses_numbers_that_are_not_finite_and_names_the_record) {
  const Place folder(GetParam());
  Project project = new_project(folder / "site.gpkg");
  Import import;
  import.trees.resize(1);
  import.trees[0].id = "T1";
  import.trees[0].origin = {"a.csv", "row 2"};
  import.trees[0].position = Position{{NAN, 1}, "", std::nullopt};
  const auto place = project.add(import, kWhen);
  ASSERT_FALSE(place);
  EXPECT_EQ(place.error().code, Code::invalid_geometry);
  EXPECT_NE(place.error().sentence().find("a.csv row 2, tree T1"), std::string::npos)
      << place.error().sentence();
  import.trees[0].position.reset();
  import.trees[0].height = EnteredLength{INFINITY, LengthUnit::metre};
  EXPECT_EQ(project.add(import, kWhen).error().code, Code::value_invalid);
  EXPECT_TRUE(project.read()->trees.empty());
}

TEST(Busy, says_so_where_another_program_is_writing) {
  const TempFolder folder;
  Project project = new_project(folder / "site.gpkg");
  sqlite3* other = nullptr;
  sqlite3_open((folder / "site.gpkg").c_str(), &other);
  sqlite3_exec(other, "BEGIN IMMEDIATE", nullptr, nullptr, nullptr);
  const auto outcome = project.add(random_import(3, 1, 0), kWhen);
  const auto opened = Project::open(folder / "site.gpkg");
  sqlite3_exec(other, "ROLLBACK", nullptr, nullptr, nullptr);
  sqlite3_close(other);
  ASSERT_FALSE(outcome);
  EXPECT_EQ(outcome.error().sentence(),
            "site.gpkg: another program is using the project; close it there, or try again in a "
            "moment.");
  ASSERT_FALSE(opened);
  EXPECT_EQ(opened.error().code, Code::project_busy);
  EXPECT_TRUE(project.add(random_import(3, 1, 0), kWhen));
}

TEST_P(EachStore, replaces_earlier_results_as_a_whole) {
  const Place folder(GetParam());
  Project project = new_project(folder / "site.gpkg");
  ASSERT_TRUE(project.add(random_import(4, 5, 3), kWhen));
  const Site site = *project.read();
  ASSERT_TRUE(project.save_assessment(site, invented_assessment(site, 3), kWhen));
  ASSERT_TRUE(project.save_assessment(site, invented_assessment(site, 2), kWhen));
  const auto count = [&](const std::string& table) {
    return std::stoi(meddle(folder / "site.gpkg", "SELECT count(*) FROM " + table));
  };
  EXPECT_EQ(count("zones"), 10);
  EXPECT_EQ(count("losses"), 20);  // each zone: all works together, and the one work
  EXPECT_EQ(count("root_losses"), 10);
  EXPECT_EQ(count("limits"), 10);
  EXPECT_EQ(count("anchorage"), 5);
  EXPECT_EQ(count("verdicts"), 5);
  EXPECT_EQ(count("cautions"), 2);
  EXPECT_EQ(count("assessment"), 1);
}

TEST_P(EachStore, refuses_where_the_survey_changed_meanwhile) {
  const Place folder(GetParam());
  Project project = new_project(folder / "site.gpkg");
  ASSERT_TRUE(project.add(random_import(5, 2, 1), kWhen));
  const Site site = *project.read();
  ASSERT_TRUE(Project::open(folder / "site.gpkg")->add(random_import(6, 1, 0), kWhen));
  const auto outcome = project.save_assessment(site, invented_assessment(site), kWhen);
  ASSERT_FALSE(outcome);
  EXPECT_EQ(outcome.error().code, Code::project_busy);
  EXPECT_NE(outcome.error().sentence().find("assess it again"), std::string::npos);
}

TEST_P(EachStore, says_what_was_done_in_order) {
  const Place folder(GetParam());
  Project project = new_project(folder / "site.gpkg");
  Import import = random_import(7, 2, 1);
  ASSERT_TRUE(project.add(import, kWhen));
  const auto journal = project.journal();
  ASSERT_TRUE(journal);
  ASSERT_EQ(journal->size(), 2U);
  EXPECT_EQ(journal->at(0).action, "new");
  EXPECT_EQ(journal->at(1).action, "add");
  EXPECT_EQ(journal->at(1).when, kWhen);
  EXPECT_EQ(journal->at(1).detail,
            "survey 7.csv: 2 trees, 1 work, 1 barrier, 1 surface, 1 opening, 2 areas of the "
            "boundary, 1 gate, 1 problem from 3 rows");
  EXPECT_EQ(journal->at(1).hash.size(), 64U);
}

TEST_P(EachStore, cannot_be_changed_or_shortened) {
  const Place folder(GetParam());
  { new_project(folder / "site.gpkg"); }
  EXPECT_NE(meddle(folder / "site.gpkg", "UPDATE journal SET detail = 'x'"), "");
  EXPECT_NE(meddle(folder / "site.gpkg", "DELETE FROM journal"), "");
  EXPECT_EQ(Project::open(folder / "site.gpkg")->journal()->size(), 1U);
}

TEST(Journal, shows_a_change_made_behind_its_guards) {
  const TempFolder folder;
  Project project = new_project(folder / "site.gpkg");
  ASSERT_TRUE(project.add(random_import(8, 1, 0), kWhen));
  ASSERT_TRUE(project.journal());
  meddle(
      folder / "site.gpkg",
      "DROP TRIGGER journal_is_never_changed; UPDATE journal SET detail = 'nothing' WHERE fid=1");
  const auto journal = project.journal();
  ASSERT_FALSE(journal);
  EXPECT_NE(journal.error().sentence().find("entry 1 does not match"), std::string::npos)
      << journal.error().sentence();
}

}  // namespace
}  // namespace rootstead::io
