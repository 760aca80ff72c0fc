// A screening from tables of PostGIS into a table of PostGIS.
#include <algorithm>
#include <fstream>
#include <iterator>

#include "io/screening.hpp"
#include "tests/io/each_store.hpp"
#include "tests/support/loaded_tables.hpp"

namespace rootstead::io {
namespace {

using test::shared_server;

// The first tree as in the worked example of docs/methods/screening.md.
constexpr const char* kTown = R"(
SET client_min_messages TO warning;
DROP TABLE IF EXISTS town_trees, town_ducts;
CREATE TABLE town_trees (nr serial PRIMARY KEY, id text, species text, form text, dbh_mm float8,
                         place geometry(Point, 32632));
INSERT INTO town_trees (id, species, form, dbh_mm, place) VALUES
  ('near', 'Quercus robur', 'broadleaf', 500, ST_SetSRID(ST_MakePoint(480100, 4880004), 32632)),
  ('far', 'Quercus robur', 'broadleaf', 200, ST_SetSRID(ST_MakePoint(480100, 4880020), 32632)),
  ('palm', 'Phoenix canariensis', 'palm', 500, ST_SetSRID(ST_MakePoint(480300, 4880002), 32632));
CREATE TABLE town_ducts (nr serial PRIMARY KEY, id text, kind text, state text, width_m float8,
                         depth_m float8, line geometry(LineString, 32632));
INSERT INTO town_ducts (id, kind, state, width_m, depth_m, line) VALUES
  ('W1', 'trench', 'proposed', 1, 1,
   ST_SetSRID(ST_MakeLine(ST_MakePoint(480000, 4880000), ST_MakePoint(481000, 4880000)), 32632));
)";

class ScreenDatabase : public testing::Test {
 protected:
  void SetUp() override {
    if (!shared_server().why_not().empty()) GTEST_SKIP() << shared_server().why_not();
    ASSERT_EQ(shared_server().sql(kTown), "");
    std::string address = shared_server().address("none");
    address.replace(0, 2, "PG");
    address.erase(address.find(" project="));
    job_.trees = {address, "town_trees", {}};
    job_.works = {address, "town_ducts", {}};
    job_.rule = "bs5837-2012";
    job_.layer = "town_screened";
    database_ = address;
  }
  ScreenReport screen(const std::string& out) {
    job_.out = out;
    auto report = screen_network(job_, test::loaded_tables(), [](const char*, double) {});
    EXPECT_TRUE(report) << report.error().sentence();
    return report ? std::move(report).value() : ScreenReport{};
  }

  ScreenJob job_;
  std::string database_;
};

TEST_F(ScreenDatabase, ReadsItsTablesAndWritesOne) {
  const ScreenReport report = screen(database_);
  EXPECT_EQ(report.trees, 3u);
  EXPECT_EQ(report.works, 1u);
  EXPECT_EQ(shared_server().sql("SELECT tree, status, round(share::numeric, 6), nearest_work, "
                                "ST_SRID(wkb_geometry) FROM town_screened ORDER BY row"),
            "near|in reach|0.078785|W1|32632\n"
            "far|clear|0.000000|W1|32632\n"
            "palm|no figure||W1|32632\n");
  EXPECT_NE(shared_server().sql("SELECT text FROM town_screened_about").find("never be the only"),
            std::string::npos);
}

// A second run takes the place of the first, and a file says the same.
TEST_F(ScreenDatabase, ATableSaysWhatAFileSays) {
  const test::TempFolder folder;
  const std::filesystem::path file = folder / "near.csv";
  screen(database_);
  screen(database_);
  screen(file.string());
  EXPECT_EQ(shared_server().sql("SELECT count(*) FROM town_screened"), "3\n");
  std::ifstream rows(file);
  EXPECT_EQ(std::count(std::istreambuf_iterator<char>(rows), {}, '\n'), 4);
}

TEST_F(ScreenDatabase, ATableThatIsNotThereIsToldWithThoseThatAre) {
  job_.trees.layer = "town_treees";
  job_.out = database_;
  const auto report = screen_network(job_, test::loaded_tables(), [](const char*, double) {});
  ASSERT_FALSE(report);
  EXPECT_NE(report.error().sentence().find("town_treees"), std::string::npos);
  EXPECT_NE(report.error().sentence().find("town_trees"), std::string::npos);
  EXPECT_EQ(report.error().sentence().find("password"), std::string::npos);
}

}  // namespace
}  // namespace rootstead::io
