// A project on a server: what it is called, what goes wrong, who may do what beside whom, and that
// copies hold every row.
#include <algorithm>
#include <cstdlib>

#include <random>

#include "io/revision_ledger.hpp"
#include "tests/io/each_store.hpp"
#include "tests/io/sample_site.hpp"

namespace rootstead::io {
namespace {

using test::difference;
using test::EachStore;
using test::meddle;
using test::OwnServer;
using test::Place;
using test::random_import;
using test::shared_server;
using test::TempFolder;

constexpr const char* kWhen = "2026-11-28T09:30:00Z";

class Team : public EachStore {};
INSTANTIATE_TEST_SUITE_P(On, Team, testing::Values(test::Store::file, test::Store::server),
                         test::name_of_store);

Project new_project(const std::filesystem::path& file) {
  auto project = Project::create(file, *reference_system("EPSG:27700"), {}, kWhen);
  EXPECT_TRUE(project) << project.error().sentence();
  return std::move(project).value();
}

Import trees(int count) {
  Import import;
  import.source = "survey.csv";
  for (int i = 1; i <= count; ++i) {
    Tree tree;
    tree.id = "T" + std::to_string(i);
    import.trees.push_back(tree);
  }
  return import;
}

Edits noted(const Site& site, std::size_t which, const std::string& notes) {
  Edits edits;
  edits.trees = {site.trees.at(which)};
  edits.trees[0].notes = notes;
  return edits;
}

TEST(TeamAddressTest, has_host_database_and_project) {
  const auto plain = team_address("pg:office/trees/mill_lane");
  ASSERT_TRUE(plain);
  EXPECT_EQ(plain->project, "mill_lane");
  EXPECT_EQ(plain->subject, "pg:office/trees/mill_lane");
  const auto whole = team_address("pg:ann@[::1]:5433/trees/a1");
  ASSERT_TRUE(whole) << whole.error().sentence();
  using Words = std::vector<std::pair<std::string, std::string>>;
  EXPECT_EQ(whole->words,
            (Words{{"user", "ann"}, {"host", "::1"}, {"port", "5433"}, {"dbname", "trees"}}));
  const auto words = team_address("pg:host='/a b' dbname=trees user=ann project=mill");
  ASSERT_TRUE(words) << words.error().sentence();
  EXPECT_EQ(words->words, (Words{{"host", "/a b"}, {"dbname", "trees"}, {"user", "ann"}}));
  EXPECT_EQ(words->project, "mill");
}

TEST(TeamAddressTest, says_what_is_wrong_and_never_repeats_a_password) {
  for (const char* text :
       {"pg:", "pg:a", "pg:a/b", "pg:/b/c", "pg:a//c", "pg:a/b/", "pg:a/b/Mill", "pg:a/b/c/d",
        "pg:a:x/b/c", "pg:a/b/public", "pg:a/b/pg_x", "pg:a/b/1a", "pg:host=a dbname=b",
        "pg:host=a foo=b project=c", "pg:host='a project=c", "pg:ann:secret@a/b/c",
        "pg:host=a password=secret project=c", "pg:a/b/c;drop"}) {
    const auto address = team_address(text);
    ASSERT_FALSE(address) << text;
    EXPECT_EQ(address.error().code, Code::wrong_use) << text;
    EXPECT_EQ(address.error().sentence().find("secret"), std::string::npos);
    EXPECT_FALSE(address.error().remedy.empty());
  }
}

class Server : public testing::Test {
 protected:
  void SetUp() override {
    if (!shared_server().why_not().empty()) GTEST_SKIP() << shared_server().why_not();
  }
};

std::string complaint(const std::string& address) {
  const auto project = Project::open(address);
  return project ? "opened" : project.error().sentence();
}

TEST_F(Server, each_failure_has_its_sentence) {
  const OwnServer& server = shared_server();
  const auto says = [](const std::string& address, const std::string& words) {
    const std::string said = complaint(address);
    EXPECT_NE(said.find(words), std::string::npos) << said;
  };
  says("pg:127.0.0.1:1/trees/a", "no server answers there");
  says("pg:host=/nowhere dbname=trees project=a", "no server answers there");
  says(server.address("a", "none"), "no database of this name");
  says(server.address("a", "bare"), "no PostGIS");
  says(server.address("never_made"), "no project of this name");
  const std::string host = "@127.0.0.1:" + std::to_string(server.port()) + "/trees/never_made";
  ::unsetenv("PGPASSWORD");
  says(std::string("pg:") + OwnServer::kUser + host, "wants a password");
  ::setenv("PGPASSWORD", "wrong", 1);
  says(std::string("pg:") + OwnServer::kUser + host, "does not let this user in");
  ::setenv("PGPASSWORD", OwnServer::kPassword, 1);
  says("pg:stranger" + host, "does not let this user in");
  says(std::string("pg:") + OwnServer::kUser + host, "no project of this name");
  ::unsetenv("PGPASSWORD");
}

TEST_F(Server, a_project_is_never_made_over_another_and_a_newer_one_is_refused) {
  const Place place(test::Store::server);
  { new_project(place / "a"); }
  const auto again = Project::create(place / "a", *reference_system("EPSG:27700"), {}, kWhen);
  ASSERT_FALSE(again);
  EXPECT_EQ(again.error().code, Code::file_unwritable);
  meddle(place / "a", "UPDATE settings SET value = '4' WHERE key = 'file.format_version'");
  EXPECT_EQ(Project::open(place / "a").error().code, Code::format_newer);
}

TEST_F(Server, a_gis_finds_the_layers_with_kind_and_system) {
  const Place place(test::Store::server);
  { new_project(place / "a"); }
  const std::string schema = team_address((place / "a").string())->project;
  const std::string layers =
      meddle(place / "a",
             "SELECT f_table_name || ' ' || type || ' ' || srid FROM geometry_columns WHERE "
             "f_table_schema = '" +
                 schema + "' AND f_table_name IN ('trees', 'works', 'zones') ORDER BY 1");
  EXPECT_EQ(layers, "trees POINT 27700\nworks GEOMETRY 27700\nzones MULTIPOLYGON 27700");
}

// A project of an older make lacks tables and columns; the first change adds them.
TEST_F(Server, an_older_project_is_raised_by_the_first_change) {
  const Place place(test::Store::server);
  {
    Project project = new_project(place / "a");
    ASSERT_TRUE(project.add(trees(2), kWhen));
  }
  EXPECT_EQ(meddle(place / "a",
                   "DROP TABLE gates, history, edit_keys; ALTER TABLE trees DROP COLUMN intent; "
                   "UPDATE settings SET value = '2' WHERE key = 'file.format_version'"),
            "");
  auto project = Project::open(place / "a");
  ASSERT_TRUE(project) << project.error().sentence();
  EXPECT_EQ(project->read()->trees.size(), 2U);
  ASSERT_TRUE(project->add(random_import(3, 2, 2), kWhen));
  EXPECT_EQ(project->read()->trees.size(), 4U);
  EXPECT_EQ(project->read()->gates.size(), 2U);
  EXPECT_EQ(project->journal()->at(2).action, "format");
  EXPECT_EQ(meddle(place / "a", "SELECT value FROM settings WHERE key = 'file.format_version'"),
            "3");
}

TEST_P(Team, two_people_change_two_things_and_neither_is_lost) {
  const Place place(GetParam());
  Project ann = new_project(place / "a");
  ASSERT_TRUE(ann.add(trees(3), kWhen));
  auto ben = Project::open(place / "a");
  const Site seen_by_ann = *ann.read(), seen_by_ben = *ben->read();
  ASSERT_TRUE(ben->edit(noted(seen_by_ben, 0, "Ben"), kWhen, {"", true}));
  const auto done = ann.edit(noted(seen_by_ann, 1, "Ann"), kWhen, {"", true});
  ASSERT_TRUE(done) << done.error().sentence();
  // What she did herself does not stand in her way; what he did does, until she has looked.
  ASSERT_TRUE(ann.edit(noted(seen_by_ann, 1, "Ann again"), kWhen, {"", true}));
  const auto clash = ann.edit(noted(seen_by_ann, 0, "Ann"), kWhen, {"", true});
  ASSERT_FALSE(clash);
  EXPECT_EQ(
      clash.error().sentence(),
      "tree T1: somebody else changed it meanwhile; look at what is there now and do it again; "
      "nothing was changed.");
  EXPECT_FALSE(ann.edit(noted(seen_by_ann, 2, "Ann"), kWhen));  // not beside others
  const Site now = *ann.read();
  EXPECT_EQ(now.trees[0].notes, "Ben");
  EXPECT_EQ(now.trees[1].notes, "Ann again");
  EXPECT_TRUE(ann.edit(noted(now, 0, "both"), kWhen, {"", true}));
  const auto history = ann.history();
  ASSERT_TRUE(history);
  ASSERT_EQ(history->size(), 3U + 4U);
  EXPECT_FALSE(history->at(0).existed);
  EXPECT_EQ(history->back().id, "T1");
  EXPECT_EQ(history->back().journal_number, 6);
  EXPECT_NE(history->back().before.find("\"notes\":\"Ben\""), std::string::npos);
}

TEST_P(Team, a_thing_that_somebody_took_away_or_made_is_a_clash) {
  const Place place(GetParam());
  Project ann = new_project(place / "a");
  ASSERT_TRUE(ann.add(trees(2), kWhen));
  const Site seen = *ann.read();
  auto ben = Project::open(place / "a");
  Edits away;
  away.removed = {{ThingSort::tree, "T1"}};
  ASSERT_TRUE(ben->edit(away, kWhen, {"", true}));
  EXPECT_EQ(ann.edit(noted(seen, 0, "x"), kWhen, {"", true}).error().code, Code::project_busy);
  Import more;
  more.source = "b.csv";
  more.trees.resize(1);
  more.trees[0].id = "T9";
  ASSERT_TRUE(ben->add(more, kWhen));
  Edits made;
  made.trees = more.trees;
  EXPECT_EQ(ann.edit(made, kWhen, {"", true}).error().code, Code::project_busy);
  EXPECT_TRUE(ann.edit(noted(seen, 1, "x"), kWhen, {"", true}));
  // Somebody else's program that tells nothing of what it touched.
  meddle(
      place / "a",
      "INSERT INTO journal (fid, written_at, action, detail, previous_hash, hash) SELECT 99, '', "
      "'edit', '', '', ''");
  EXPECT_EQ(ann.edit(noted(seen, 1, "y"), kWhen, {"", true}).error().code, Code::project_busy);
}

TEST_P(Team, plans_are_read_anywhere_but_comments_are_kept_in_files_alone) {
  const Place place(GetParam());
  Project project = new_project(place / "a");
  Import works;
  works.source = "drain.csv";
  works.works.resize(1);
  works.works[0].id = "W1";
  ASSERT_TRUE(project.add(works, kWhen));
  auto ledger = RevisionLedger::open(place / "a");
  ASSERT_TRUE(ledger) << ledger.error().sentence();
  const auto plans = ledger->plans();
  ASSERT_TRUE(plans) << plans.error().sentence();
  ASSERT_EQ(plans->size(), 1U);
  EXPECT_EQ(plans->front().file, "drain.csv");
  EXPECT_TRUE(ledger->issues().value().empty());
  ReviewComment comment;
  comment.from = "Planning", comment.text = "Show the roots.";
  const auto kept = ledger->save_comment(comment, kWhen);
  EXPECT_EQ(kept.ok(), !on_server());
  if (!on_server()) return;
  EXPECT_NE(kept.error().sentence().find("copy the project to a file first"), std::string::npos)
      << kept.error().sentence();
}

TEST_P(Team, an_edit_that_is_sent_twice_is_done_once) {
  const Place place(GetParam());
  Project project = new_project(place / "a");
  ASSERT_TRUE(project.add(trees(1), kWhen));
  const Site site = *project.read();
  ASSERT_TRUE(project.edit(noted(site, 0, "once"), kWhen, {"key 1", false}));
  ASSERT_TRUE(project.edit(noted(site, 0, "twice"), kWhen, {"key 1", false}));
  EXPECT_EQ(project.read()->trees[0].notes, "once");
  EXPECT_EQ(project.journal()->size(), 3U);
  ASSERT_TRUE(Project::open(place / "a")->edit(noted(site, 0, "again"), kWhen, {"key 1", true}));
  EXPECT_EQ(project.read()->trees[0].notes, "once");
}

TEST_P(Team, history_and_keys_are_only_added_to) {
  const Place place(GetParam());
  Project project = new_project(place / "a");
  ASSERT_TRUE(project.add(trees(1), kWhen));
  ASSERT_TRUE(project.edit(noted(*project.read(), 0, "x"), kWhen, {"k", true}));
  for (const char* table : {"history", "edit_keys", "journal"}) {
    EXPECT_NE(meddle(place / "a", "DELETE FROM " + std::string(table)), "") << table;
    EXPECT_NE(meddle(place / "a", "UPDATE " + std::string(table) + " SET fid = fid + 100"), "");
  }
  EXPECT_EQ(project.history()->size(), 2U);
}

TEST_P(Team, a_text_that_is_none_is_refused_or_kept_but_never_changed) {
  const Place place(GetParam());
  Project project = new_project(place / "a");
  for (const std::string& text : {std::string("a\0b", 3), std::string("\xff\xfe")}) {
    Import import = trees(1);
    import.trees[0].notes = text;
    import.trees[0].id = "T" + std::to_string(text.size());
    if (const auto added = project.add(import, kWhen); !added) {
      EXPECT_EQ(added.error().code, Code::value_invalid) << added.error().sentence();
    } else {
      EXPECT_EQ(project.read()->trees.back().notes, text);
    }
  }
}

// ---- copies

// Every value of every row of every table, geometries as they are.
std::vector<std::string> rows_of(const std::filesystem::path& project, const TempFolder& folder) {
  const auto file = folder / "looked-at.gpkg";
  std::filesystem::remove(file);
  if (is_team_address(project.string())) {
    EXPECT_TRUE(Project::copy(project, file));
  } else {
    std::filesystem::copy_file(project, file);
  }
  sqlite3* handle = nullptr;
  sqlite3_open(file.c_str(), &handle);
  std::vector<std::string> rows;
  const auto take = [](void* to, int count, char** values, char**) {
    std::string row;
    for (int i = 0; i < count; ++i) row += std::string(values[i] ? values[i] : "NULL") + "|";
    static_cast<std::vector<std::string>*>(to)->push_back(row);
    return 0;
  };
  std::vector<std::string> tables;
  sqlite3_exec(
      handle,
      "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' AND "
      "name NOT IN ('gpkg_contents', 'layer_styles') ORDER BY 1",
      take, &tables, nullptr);
  tables.push_back("sqlite_sequence|");
  for (std::string table : tables) {
    table.pop_back();
    std::vector<std::string> columns;
    sqlite3_exec(handle, ("SELECT name FROM pragma_table_info('" + table + "')").c_str(), take,
                 &columns, nullptr);
    std::string list;
    for (std::string column : columns) {
      column.pop_back();
      list += (list.empty() ? "" : ", ") + ("quote(\"" + column + "\")");
    }
    rows.push_back("table " + table);
    sqlite3_exec(handle, ("SELECT " + list + " FROM " + table + " ORDER BY 1").c_str(), take, &rows,
                 nullptr);
  }
  sqlite3_close(handle);
  return rows;
}

std::vector<std::string> without_keys(std::vector<std::string> rows) {
  const auto begin = std::find(rows.begin(), rows.end(), "table edit_keys");
  const auto end = std::find_if(begin + 1, rows.end(),
                                [](const std::string& row) { return row.starts_with("table "); });
  rows.erase(begin, end);
  std::erase_if(rows, [](const std::string& row) { return row.starts_with("'edit_keys'|"); });
  return rows;
}

std::string first_difference(const std::vector<std::string>& a, const std::vector<std::string>& b) {
  for (std::size_t i = 0; i < std::max(a.size(), b.size()); ++i) {
    const std::string left = i < a.size() ? a[i] : "nothing",
                      right = i < b.size() ? b[i] : "nothing";
    if (left != right) return left + "\n  against\n" + right;
  }
  return "";
}

void fill(const std::filesystem::path& file, std::uint64_t seed) {
  Project project = new_project(file);
  ASSERT_TRUE(project.add(random_import(seed, 8, 4), kWhen));
  Site site = *project.read();
  site.settings = test::random_settings(seed);
  site.soil = test::random_soil(seed);
  site.wind = test::random_wind(seed);
  site.climate = test::random_climate(seed);
  ASSERT_TRUE(project.save_choices(site, "title", kWhen));
  LevelSurface surface;
  surface.name = "Ground";
  HeightGrid grid;
  grid.north_west = {530000.1, 180000.3};
  grid.cell = 1;
  grid.columns = grid.rows = 20;
  for (int i = 0; i < 400; ++i) grid.heights.push_back(0.1F * static_cast<float>(i));
  surface.levels = grid;
  ASSERT_TRUE(project.save_levels(surface, LevelState::existing, "a.asc", {}, kWhen));
  site = *project.read();
  ASSERT_TRUE(project.edit(noted(site, 2, "by hand"), kWhen, {"a key", true}));
  Edits away;
  away.removed = {{ThingSort::tree, site.trees.back().id}};
  ASSERT_TRUE(project.edit(away, kWhen));
  site = *project.read();
  ASSERT_TRUE(project.save_assessment(site, test::invented_assessment(site, 2), kWhen));
}

TEST_F(Server, a_copy_there_and_back_holds_every_row) {
  const Place place(test::Store::server);
  std::random_device chance;
  for (const std::uint64_t seed : {std::uint64_t{1}, std::uint64_t{chance()}}) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    const TempFolder folder;
    const auto there = place / ("seed" + std::to_string(seed));
    fill(folder / "a.gpkg", seed);
    const auto left = Project::copy(folder / "a.gpkg", there);
    ASSERT_TRUE(left) << left.error().sentence();
    EXPECT_TRUE(left->empty());
    const auto back = Project::copy(there, folder / "b.gpkg");
    ASSERT_TRUE(back) << back.error().sentence();
    EXPECT_TRUE(back->empty());
    const auto before = rows_of(folder / "a.gpkg", folder),
               after = rows_of(folder / "b.gpkg", folder);
    EXPECT_GT(before.size(), 200U);
    EXPECT_EQ(first_difference(before, after), "");
    const Site a = *Project::open(folder / "a.gpkg")->read();
    EXPECT_EQ(difference(a, *Project::open(there)->read()), "");
    EXPECT_EQ(difference(a, *Project::open(folder / "b.gpkg")->read()), "");
    // Numbers go on where they were: none is given again on either side.
    for (const auto& copy : {there, folder / "b.gpkg", folder / "a.gpkg"}) {
      auto project = Project::open(copy);
      ASSERT_TRUE(project->add(trees(1), kWhen));
    }
    EXPECT_EQ(
        first_difference(rows_of(folder / "a.gpkg", folder), rows_of(folder / "b.gpkg", folder)),
        "");
    // A change on a server has a key of its own.
    const auto meant = without_keys(rows_of(folder / "a.gpkg", folder));
    EXPECT_EQ(first_difference(meant, without_keys(rows_of(there, folder))), "");
  }
}

TEST_F(Server, a_copy_says_what_it_leaves_behind_and_never_goes_over_another) {
  const Place place(test::Store::server);
  const TempFolder folder;
  { new_project(folder / "a.gpkg"); }
  meddle(folder / "a.gpkg",
         "ALTER TABLE trees ADD COLUMN mine TEXT; CREATE TABLE notes_of_mine (a)");
  const auto left = Project::copy(folder / "a.gpkg", place / "a");
  ASSERT_TRUE(left) << left.error().sentence();
  EXPECT_EQ(*left, (std::vector<std::string>{"column mine of table trees", "table notes_of_mine"}));
  EXPECT_FALSE(Project::copy(folder / "a.gpkg", place / "a"));
  EXPECT_FALSE(Project::copy(place / "a", folder / "a.gpkg"));
  EXPECT_FALSE(Project::copy(place / "never", folder / "b.gpkg"));
  EXPECT_FALSE(std::filesystem::exists(folder / "b.gpkg"));
}

TEST_F(Server, a_server_that_was_away_is_found_again) {
  OwnServer& server = shared_server();
  const std::string address = server.address("went_away");
  Project project = new_project(address);
  ASSERT_TRUE(project.add(trees(1), kWhen));
  const Site site = *project.read();
  server.kill_all();
  ASSERT_TRUE(server.start());
  const auto read = project.read();
  ASSERT_TRUE(read) << read.error().sentence();
  server.kill_all();
  ASSERT_TRUE(server.start());
  const auto edited = project.edit(noted(site, 0, "after"), kWhen);
  ASSERT_TRUE(edited) << edited.error().sentence();
  EXPECT_EQ(project.read()->trees[0].notes, "after");
}

}  // namespace
}  // namespace rootstead::io
