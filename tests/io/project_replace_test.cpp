// A corrected file in place of its former self, and problems of sources that no longer hold.
#include <gtest/gtest.h>

#include <algorithm>

#include "tests/io/each_store.hpp"
#include "tests/io/import_support.hpp"

namespace rootstead::io {
namespace {

constexpr const char* kNow = "2026-11-25T09:30:00Z";

class Corrected : public Sources, public testing::WithParamInterface<test::Store> {
 protected:
  void SetUp() override {
    Sources::SetUp();
    if (GetParam() == test::Store::server && !test::shared_server().why_not().empty())
      GTEST_SKIP() << test::shared_server().why_not();
  }
  Import of(const std::string& name, const std::string& text, const std::string& as) const {
    ImportOptions options;
    options.as = as;
    const auto import = read_source(write(name, text), options, system("EPSG:27700"));
    EXPECT_TRUE(import) << import.error().sentence();
    return *import;
  }
  Project project() const {
    return Project::create(place_ / "site.gpkg", system("EPSG:27700"), {}, kNow).value();
  }
  const test::Place place_{GetParam()};
};
INSTANTIATE_TEST_SUITE_P(Project, Corrected,
                         testing::Values(test::Store::file, test::Store::server),
                         test::name_of_store);

std::vector<std::string> ids(const auto& things) {
  std::vector<std::string> ids;
  for (const auto& thing : things) ids.push_back(thing.id);
  return ids;
}

std::size_t blocking(const Project& project) {
  const auto problems = project.import_problems();
  return static_cast<std::size_t>(std::count_if(
      problems.begin(), problems.end(), [](const Problem& problem) { return problem.blocks; }));
}

const std::string kHead = "id,kind,depth (m),wkt\n";
std::string trench(const std::string& id, const std::string& depth) {
  return id + ",trench," + depth + ",\"LINESTRING (430000 300000,430010 300000)\"\n";
}

TEST_P(Corrected, a_corrected_file_takes_the_place_of_its_former_self) {
  Project site = project();
  ASSERT_TRUE(site.add(
      of("w.csv", kHead + trench("W1", "deep") + trench("W2", "1") + trench("W3", "1"), "works"),
      kNow));
  ASSERT_TRUE(site.add(of("other.csv", kHead + trench("W9", "-1"), "works"), kNow));
  EXPECT_EQ(blocking(site), 2U);

  const Import again =
      of("w.csv", kHead + trench("W4", "2") + trench("W3", "1.5") + trench("W1", "0.8"), "works");
  const auto refused = site.add(again, kNow);
  ASSERT_FALSE(refused);
  EXPECT_NE(refused.error().sentence().find("--replace"), std::string::npos);
  EXPECT_EQ(blocking(site), 2U);

  const auto replaced = site.replace(again, kNow);
  ASSERT_TRUE(replaced) << replaced.error().sentence();
  const Site read = *site.read();
  EXPECT_EQ(ids(read.works), (std::vector<std::string>{"W1", "W3", "W9", "W4"}));
  EXPECT_EQ(to_text(*read.work("W1")->depth), "0.8 m");
  EXPECT_EQ(to_text(*read.work("W3")->depth), "1.5 m");
  EXPECT_EQ(blocking(site), 1U);  // that of the other file
  EXPECT_EQ(site.journal()->back().action, "replace");
}

TEST_P(Corrected, a_file_that_is_still_wrong_still_blocks) {
  Project site = project();
  ASSERT_TRUE(site.add(of("w.csv", kHead + trench("W1", "deep"), "works"), kNow));
  ASSERT_TRUE(site.replace(of("w.csv", kHead + trench("W1", "deeper"), "works"), kNow));
  ASSERT_EQ(blocking(site), 1U);
  EXPECT_NE(site.import_problems().front().message.find("deeper"), std::string::npos);
}

TEST_P(Corrected, nothing_is_replaced_by_a_file_that_was_never_added_or_takes_an_id_of_another) {
  Project site = project();
  ASSERT_TRUE(site.add(of("w.csv", kHead + trench("W1", "1"), "works"), kNow));
  ASSERT_TRUE(site.add(of("v.csv", kHead + trench("W2", "1"), "works"), kNow));
  EXPECT_EQ(site.replace(of("new.csv", kHead + trench("W5", "1"), "works"), kNow).error().code,
            Code::unknown_name);
  EXPECT_EQ(site.replace(of("w.csv", kHead + trench("W2", "3"), "works"), kNow).error().code,
            Code::duplicate);
  const Site read = *site.read();
  EXPECT_EQ(ids(read.works), (std::vector<std::string>{"W1", "W2"}));
  EXPECT_EQ(to_text(*read.work("W2")->depth), "1 m");
}

TEST_P(Corrected, trees_openings_and_gates_come_with_their_parts) {
  Project site = project();
  const std::string head = "id,species,x,y,dbh (mm)\n";
  ASSERT_TRUE(
      site.add(of("t.csv", head + "T1,Tilia,430000,300000,0\n" + "T2,Tilia,430009,300000,300+200\n",
                  "trees"),
               kNow));
  EXPECT_EQ(blocking(site), 1U);
  ASSERT_TRUE(site.replace(
      of("t.csv", head + "T1,Tilia,430000,300000,400\n" + "T2,Tilia,430009,300000,500\n", "trees"),
      kNow));
  EXPECT_EQ(blocking(site), 0U);
  ASSERT_EQ(site.read()->trees.size(), 2U);
  EXPECT_EQ(site.read()->trees[0].stems.size(), 1U);
  EXPECT_EQ(site.read()->trees[1].stems.size(), 1U);

  const std::string pits = "id,kind,x,y,root diameter (mm)\n";
  ASSERT_TRUE(site.add(
      of("p.csv", pits + "P1,pit,430001,300000,30\n" + "P1,pit,430001,300000,thick\n", "evidence"),
      kNow));
  EXPECT_EQ(blocking(site), 1U);
  ASSERT_TRUE(site.replace(
      of("p.csv", pits + "P1,pit,430001,300000,30\n" + "P1,pit,430001,300000,40\n", "evidence"),
      kNow));
  EXPECT_EQ(blocking(site), 0U);
  ASSERT_EQ(site.read()->evidence.size(), 1U);
  EXPECT_EQ(site.read()->evidence[0].roots.size(), 2U);

  const std::string gates = "id,x,y,width (m)\n";
  ASSERT_TRUE(site.add(of("g.csv", gates + "G1,430000,300010,wide\n", "gates"), kNow));
  EXPECT_EQ(blocking(site), 1U);
  ASSERT_TRUE(site.replace(of("g.csv", gates + "G1,430000,300010,5\n", "gates"), kNow));
  EXPECT_EQ(blocking(site), 0U);
  ASSERT_EQ(site.read()->gates.size(), 1U);
  EXPECT_EQ(to_text(site.read()->gates[0].width), "5 m");
}

TEST_P(Corrected, another_soil_or_boundary_takes_its_problems_with_it) {
  Project site = project();
  ASSERT_TRUE(site.add(of("b.csv",
                          "wkt\n\"LINESTRING (430000 300000,430010 300000)\"\n" +
                              std::string("\"POLYGON ((430000 300000,430010 300000,430010 300010,"
                                          "430000 300000))\"\n"),
                          "boundary"),
                       kNow));
  EXPECT_EQ(blocking(site), 1U);
  ASSERT_TRUE(site.add(of("c.csv",
                          "wkt\n\"POLYGON ((430000 300000,430020 300000,430010 300010,"
                          "430000 300000))\"\n",
                          "boundary"),
                       kNow));
  EXPECT_EQ(blocking(site), 0U);
}

TEST_P(Corrected, what_is_taken_away_or_given_by_hand_is_no_problem_any_more) {
  Project site = project();
  ASSERT_TRUE(
      site.add(of("w.csv", kHead + trench("W1", "deep") + trench("W2", "-1"), "works"), kNow));
  ASSERT_TRUE(site.add(of("t.csv", "id,species,x,y,dbh (mm)\nT1,Tilia,,,300\n", "trees"), kNow));
  EXPECT_EQ(blocking(site), 3U);
  Site read = *site.read();

  Edits renamed;
  renamed.works = {*read.work("W1")};
  renamed.works[0].name = "drain";
  ASSERT_TRUE(site.edit(renamed, kNow));
  EXPECT_EQ(blocking(site), 3U);  // its depth is still not known

  renamed.works[0].depth = EnteredLength{0.9, LengthUnit::metre};
  ASSERT_TRUE(site.edit(renamed, kNow));
  EXPECT_EQ(blocking(site), 2U);

  Edits placed;
  placed.removed = {{ThingSort::work, "W2"}};
  placed.trees = {read.trees[0]};
  placed.trees[0].position = Position{{430005, 300005}, "plan", {}};
  ASSERT_TRUE(site.edit(placed, kNow));
  EXPECT_EQ(blocking(site), 0U);
}

}  // namespace
}  // namespace rootstead::io
