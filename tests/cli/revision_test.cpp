// Two revisions of one project: the first is made again, byte for byte, when the second is out.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iterator>

#include "tests/cli/command_line.hpp"

namespace rootstead::test {
namespace {

std::string bytes_of(const std::string& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

// A project that was assessed once, few draws, so that tests are quick.
std::string assessed_project(const OwnFolder& folder) {
  std::string project = small_project(folder);
  EXPECT_EQ(run({"assess", project, "--draws", "20"}).exit, 0);
  return project;
}

void add_late_trench(const OwnFolder& folder, const std::string& project) {
  const std::string works = folder.write(
      "late.geojson",
      R"({"type":"FeatureCollection","crs":{"type":"name","properties":{"name":"urn:ogc:def:crs:EPSG::32632"}},)"
      R"("features":[{"type":"Feature","properties":{"id":"W9","name":"late drain",)"
      R"("kind":"trench","depth":"1.2 m","width":"0.6 m"},"geometry":{"type":"LineString",)"
      R"("coordinates":[[480002,4880008],[480026,4880008]]}}]})");
  const Ran added = run({"add", project, works, "--as", "works"});
  ASSERT_EQ(added.exit, 0) << added.err;
}

Ran report(const std::string& project, const std::string& out,
           const std::vector<std::string>& more = {}) {
  std::vector<std::string> words{"report", project, "--out", out, "--sheet", "a4"};
  words.insert(words.end(), more.begin(), more.end());
  return run(words);
}

TEST(Revision, OneIsMadeAgainByteForByteWhenTwoIsOut) {
  const OwnFolder folder;
  const std::string project = assessed_project(folder);
  ASSERT_EQ(run({"issue", project, "--revision", "A", "--date", "2026-11-18"}).exit, 0);
  ASSERT_EQ(report(project, folder / "a.pdf").exit, 0);
  add_late_trench(folder, project);
  ASSERT_EQ(run({"assess", project, "--draws", "20"}).exit, 0);
  const Ran second = run({"issue", project, "--revision", "B", "--final"});
  ASSERT_EQ(second.exit, 0) << second.err;
  ASSERT_EQ(report(project, folder / "b.pdf").exit, 0);

  const Ran again = report(project, folder / "a-again.pdf", {"--of", "A"});
  ASSERT_EQ(again.exit, 0) << again.err;
  EXPECT_EQ(again.err, "");
  EXPECT_EQ(bytes_of(folder / "a.pdf"), bytes_of(folder / "a-again.pdf"));
  ASSERT_EQ(report(project, folder / "b-again.pdf", {"--of", "B"}).exit, 0);
  EXPECT_EQ(bytes_of(folder / "b.pdf"), bytes_of(folder / "b-again.pdf"));
  EXPECT_NE(bytes_of(folder / "a.pdf"), bytes_of(folder / "b.pdf"));

  const nlohmann::json changes =
      run({"compare", project, "--from", "A", "--to", "B", "--json"}).json();
  ASSERT_EQ(changes.at("things").size(), 1U) << changes.dump(1);
  EXPECT_EQ(changes.at("things")[0].at("id"), "W9");
  EXPECT_EQ(changes.at("things")[0].at("how"), "added");
  EXPECT_TRUE(holds(run({"compare", project, "--from", "A", "--to", "B"}).out, "late drain"));
}

TEST(Revision, FinalIsRefusedWhileAPlanWasLoadedAndNotAssessedAndNamesIt) {
  const OwnFolder folder;
  const std::string project = assessed_project(folder);
  add_late_trench(folder, project);
  const Ran refused = run({"issue", project, "--revision", "A", "--final"});
  EXPECT_NE(refused.exit, 0);
  EXPECT_TRUE(holds(refused.err, "late.geojson")) << refused.err;
  EXPECT_TRUE(holds(run({"issue", project}).out, "No issue was made"));
  ASSERT_EQ(run({"set", project, "status=final"}).exit, 0);
  const Ran report_refused = report(project, folder / "x.pdf");
  EXPECT_NE(report_refused.exit, 0);
  EXPECT_TRUE(holds(report_refused.err, "late.geojson")) << report_refused.err;
  EXPECT_FALSE(std::filesystem::exists(folder / "x.pdf"));
  ASSERT_EQ(run({"assess", project, "--draws", "20"}).exit, 0);
  EXPECT_EQ(run({"issue", project, "--revision", "A", "--final"}).exit, 0);
}

TEST(Revision, IsNotIssuedTwice) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  ASSERT_EQ(run({"issue", project, "--revision", "A"}).exit, 0);
  const Ran twice = run({"issue", project, "--revision", "A"});
  EXPECT_EQ(twice.exit, 2);
  EXPECT_TRUE(holds(twice.err, "revision A")) << twice.err;
  const Ran unknown = report(project, folder / "z.pdf", {"--of", "Z"});
  EXPECT_EQ(unknown.exit, 2);
  EXPECT_TRUE(holds(unknown.err, "no such issue")) << unknown.err;
}

TEST(Plans, AreRegisteredWithTheChecksumOfTheirFile) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  add_late_trench(folder, project);
  const Ran listed = run({"plans", project});
  EXPECT_TRUE(holds(listed.out, "late.geojson")) << listed.out;
  EXPECT_FALSE(holds(listed.out, "not taken")) << listed.out;
  const std::string pdf = folder.write("planting.pdf", "%PDF-1.4 not read by us");
  const Ran looked = run({"plans", project, "--file", pdf, "title=Planting", "author=Somebody"});
  EXPECT_TRUE(holds(looked.out, "planting.pdf (looked at)")) << looked.out << looked.err;
  const Ran named = run({"plans", project, "1", "revision=P02"});
  EXPECT_TRUE(holds(named.out, "P02")) << named.out << named.err;
  EXPECT_EQ(run({"plans", project, "77", "title=x"}).exit, 2);
  EXPECT_EQ(run({"plans", project, "title=x"}).exit, 2);
}

TEST(Comments, AreEnteredAndAnswered) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  EXPECT_TRUE(holds(run({"comments", project}).out, "No comment"));
  ASSERT_EQ(run({"comments", project, "from=Town", "text=Why here?"}).exit, 0);
  const Ran answered = run({"comments", project, "1", "answer=It is bored.", "where=plan"});
  EXPECT_TRUE(holds(answered.out, "Answer: It is bored. (plan)")) << answered.out << answered.err;
  EXPECT_TRUE(holds(answered.out, "Why here?"));
  EXPECT_EQ(run({"comments", project, "text=nobody said it"}).exit, 2);
  EXPECT_EQ(run({"comments", project, "colour=red"}).exit, 2);
}

}  // namespace
}  // namespace rootstead::test
