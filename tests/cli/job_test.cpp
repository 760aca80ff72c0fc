// A small job from nothing to everything that is issued, through the commands alone.
#include <gtest/gtest.h>

#include <filesystem>

#include "tests/cli/command_line.hpp"

namespace rootstead::test {
namespace {

using nlohmann::json;

void expect_range(const json& range) {
  ASSERT_TRUE(range.is_object()) << range;
  EXPECT_LE(range.at("low").get<double>(), range.at("best").get<double>());
  EXPECT_LE(range.at("best").get<double>(), range.at("high").get<double>());
  EXPECT_GE(range.at("low").get<double>(), 0);
  EXPECT_LE(range.at("high").get<double>(), 1);
}

void expect_zone(const json& zone) {
  EXPECT_TRUE(zone.at("rule").is_string());
  EXPECT_TRUE(zone.at("verdict").is_string());
  EXPECT_GT(zone.at("radius_m").get<double>(), 0);
  const double area = zone.at("area_m2"), affected = zone.at("affected_m2");
  EXPECT_GE(affected, 0);
  EXPECT_LE(affected, area * (1 + 1e-9));
  EXPECT_NEAR(zone.at("affected_share").get<double>(), affected / area, 1e-9);
}

void expect_tree(const json& tree) {
  for (const json& zone : tree.at("zones")) expect_zone(zone);
  expect_range(tree.at("absorbing_loss"));
  expect_range(tree.at("anchorage_kept"));
  EXPECT_TRUE(tree.at("anchorage_kept").at("worst_from_deg").is_number());
  for (const char* key : {"verdict", "vitality", "stability", "id", "label"}) {
    EXPECT_TRUE(tree.at(key).is_string()) << key;
  }
  for (const char* key : {"reasons", "notes", "missing", "measures", "rules_not_applied"}) {
    EXPECT_TRUE(tree.at(key).is_array()) << key;
  }
  for (const json& work : tree.at("by_work")) {
    EXPECT_TRUE(work.at("work").is_string());
    EXPECT_GE(work.at("affected_m2").get<double>(), 0);
    expect_range(work.at("absorbing_loss"));
  }
}

TEST(Job, AssessJsonHasTheDocumentedShape) {
  const OwnFolder folder;
  const Ran ran = run({"assess", small_project(folder), "--json"});
  ASSERT_EQ(ran.exit, 0) << ran.err;
  const json printed = ran.json();
  ASSERT_TRUE(printed.is_object());
  ASSERT_EQ(printed.at("trees").size(), 3U);
  for (const json& tree : printed.at("trees")) expect_tree(tree);
  EXPECT_FALSE(printed.at("cautions").empty());
  EXPECT_TRUE(printed.at("data_version").is_string());
  EXPECT_EQ(printed.at("seed"), 1);
}

TEST(Job, ATrenchThreeMetresOffTakesWhatTheClosedFormSays) {
  const OwnFolder folder;
  const json tree = run({"assess", small_project(folder), "--json"}).json().at("trees").at(0);
  const json zone = tree.at("zones").at(0);
  EXPECT_NEAR(zone.at("radius_m").get<double>(), 6.0, 1e-9);
  // The strip from 2.7 to 3.3 m of a circle of radius 6 m: the difference of two segments.
  EXPECT_NEAR(zone.at("affected_m2").get<double>(), 6.230758, 1e-6);
}

TEST(Job, PalmsAreNotPutThroughTheStemDiameterRule) {
  const OwnFolder folder;
  const json palm = run({"assess", small_project(folder), "--json"}).json().at("trees").at(2);
  for (const json& zone : palm.at("zones")) EXPECT_NE(zone.at("rule"), "bs5837-2012") << zone;
  EXPECT_FALSE(palm.at("rules_not_applied").empty());
}

TEST(Job, TheSameSeedGivesTheSameTextAndAnotherSeedStaysWithTheProject) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  const Ran first = run({"assess", project, "--json", "--seed", "7"});
  ASSERT_EQ(first.exit, 0) << first.err;
  const Ran again = run({"assess", project, "--json"});
  EXPECT_EQ(first.out, again.out);
  EXPECT_EQ(again.json().at("seed"), 7);
  EXPECT_NE(run({"assess", project, "--json", "--seed", "8"}).out, first.out);
}

TEST(Job, WhyGivesTheFiguresThatAssessPrinted) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  const json assessed = run({"assess", project, "--json"}).json().at("trees").at(0);
  const Ran ran = run({"why", project, "T1", "--json"});
  ASSERT_EQ(ran.exit, 0) << ran.err;
  const double kept = assessed.at("anchorage_kept").at("best");
  bool found = false;
  for (const json& figure : ran.json()) {
    EXPECT_NE(figure.value("source", ""), "") << figure;
    EXPECT_NE(figure.value("status", ""), "") << figure;
    found =
        found || (figure.at("figure").get<std::string>().find("anchorage") != std::string::npos &&
                  figure.at("value") == kept);
  }
  EXPECT_TRUE(found) << ran.out;
}

TEST(Job, WhyNarrowsToOneFigureAndNamesWhatThereIs) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  const Ran one = run({"why", project, "T1", "root-protection-area"});
  EXPECT_EQ(one.exit, 0) << one.err;
  EXPECT_NE(one.out.find("6.00 m"), std::string::npos) << one.out;
  const Ran none = run({"why", project, "T1", "sap"});
  EXPECT_EQ(none.exit, 2);
  EXPECT_NE(none.err.find("choose from"), std::string::npos) << none.err;
  EXPECT_EQ(run({"why", project, "T99"}).exit, 2);
}

TEST(Job, CheckIsQuietAboutASoundProjectAndFailsOnABlockingProblem) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  EXPECT_EQ(run({"check", project}).exit, 0);
  const std::string more = folder.write("more.csv",
                                        "Tag,Species,DBH (cm),Easting,Northing\n"
                                        "T4,Acer campestre,0,480020,4880020\n");
  const Ran added = run({"add", project, more, "--as", "trees"});
  EXPECT_EQ(added.exit, 0) << added.err;
  const Ran checked = run({"check", project, "--json"});
  const json problems = checked.json().at("problems");
  bool diameter = false, blocks = false;
  for (const json& problem : problems) {
    diameter =
        diameter || problem.at("message").get<std::string>().find("diameter") != std::string::npos;
    blocks = blocks || problem.at("blocks").get<bool>();
  }
  EXPECT_TRUE(diameter) << checked.out;
  EXPECT_EQ(checked.exit, blocks ? 1 : 0);
}

TEST(Job, AddSaysWhatItReadAndHowItUnderstoodTheColumns) {
  const OwnFolder folder;
  const std::string project = folder / "p.gpkg";
  ASSERT_EQ(run({"new", project, "--crs", "EPSG:32632"}).exit, 0);
  const std::string map = folder / "map.toml";
  const Ran ran =
      run({"add", project, example("trees.csv"), "--as", "trees", "--save-columns", map});
  ASSERT_EQ(ran.exit, 0) << ran.err;
  for (const char* part : {"43 trees", "stem_diameter", "Stem diameter (cm)", "problem"}) {
    EXPECT_NE(ran.out.find(part), std::string::npos) << part << " in " << ran.out;
  }
  EXPECT_TRUE(std::filesystem::exists(map));
  const std::string again = folder / "again.gpkg";
  ASSERT_EQ(run({"new", again, "--crs", "EPSG:32632"}).exit, 0);
  EXPECT_EQ(run({"add", again, example("trees.csv"), "--as", "trees", "--columns", map}).exit, 0);
}

TEST(Job, ADrawingWithoutUnitAsksForOne) {
  const OwnFolder folder;
  const std::string project = folder / "p.gpkg";
  ASSERT_EQ(run({"new", project, "--crs", "EPSG:32632"}).exit, 0);
  const std::string drawing = folder.write(
      "trench.dxf",
      "0\nSECTION\n2\nENTITIES\n0\nLINE\n8\nTRENCH\n10\n480000\n20\n4880000\n11\n480010\n21\n"
      "4880000\n0\nENDSEC\n0\nEOF\n");
  const Ran asked = run({"add", project, drawing, "--as", "works"});
  EXPECT_EQ(asked.exit, 2) << asked.err;
  EXPECT_NE(asked.err.find("--length-unit"), std::string::npos) << asked.err;
  EXPECT_EQ(run({"add", project, drawing, "--as", "works", "--length-unit", "m"}).exit, 0);
}

TEST(Job, ReportAndExportsAreMade) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  for (const char* name :
       {"out.dxf", "out.geojson", "out.csv", "out-results.gpkg", "out.fgb", "out.shp"}) {
    const Ran ran = run({"export", project, "--out", folder / name});
    EXPECT_EQ(ran.exit, 0) << name << ": " << ran.err;
  }
  EXPECT_EQ(run({"export", project, "--out", folder / "out.xyz"}).exit, 3);
  const Ran report = run({"report", project, "--out", folder / "out.pdf", "--sheet", "a3"});
  ASSERT_EQ(report.exit, 0) << report.err;
  EXPECT_GT(std::filesystem::file_size(folder / "out.pdf"), 10'000U);
}

TEST(Job, ExportSaysWhatTheFormatCouldNotHold) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  const std::string more =
      folder.write("more.csv", "Tag,Species,DBH (cm),Easting,Northing\nLOST,Tilia cordata,30,,\n");
  ASSERT_EQ(run({"add", project, more, "--as", "trees"}).exit, 0);
  const Ran zones = run({"export", project, "--out", folder / "out.fgb"});
  EXPECT_EQ(zones.exit, 0) << zones.err;
  EXPECT_NE(zones.out.find("Note: "), std::string::npos) << zones.out;
  EXPECT_NE(zones.out.find("position"), std::string::npos) << zones.out;
  const Ran shapes = run({"export", project, "--out", folder / "out.shp"});
  EXPECT_NE(shapes.out.find("out.fields.csv"), std::string::npos) << shapes.out;
}

TEST(Job, NewNeverOverwritesAFile) {
  const OwnFolder folder;
  const std::string file = folder.write("notes.gpkg", "not a project");
  const Ran ran = run({"new", file, "--crs", "EPSG:32632"});
  EXPECT_NE(ran.exit, 0);
  EXPECT_NE(ran.err.find("notes.gpkg"), std::string::npos) << ran.err;
  EXPECT_EQ(std::filesystem::file_size(file), 13U);
}

TEST(Demo, DoesTheWholeJobAndNamesTheFiles) {
  const OwnFolder folder;
  const Ran ran = run({"demo", "--out", folder / "demo"});
  ASSERT_EQ(ran.exit, 0) << ran.err << ran.out;
  for (const char* name :
       {"salt-walk.gpkg", "salt-walk-a3.pdf", "salt-walk.dxf", "salt-walk.csv", "salt-walk.geojson",
        "salt-walk.fgb", "salt-walk-crew.pdf", "salt-walk-owner.pdf", "salt-walk-visits.ics",
        "sources/trees.csv", "sources/ground-design.xml"}) {
    EXPECT_TRUE(std::filesystem::exists(folder.path() / "demo" / name)) << name;
    EXPECT_NE(ran.out.find(name), std::string::npos) << name;
  }
  EXPECT_NE(ran.out.find("INVENTED DATA"), std::string::npos);
  const json assessed = run({"assess", folder / "demo/salt-walk.gpkg", "--json"}).json();
  EXPECT_EQ(assessed.at("trees").size(), 46U);
  EXPECT_EQ(assessed.at("demo"), true);
  const Ran issues = run({"issue", folder / "demo/salt-walk.gpkg"});
  EXPECT_NE(issues.out.find("with the storm drain"), std::string::npos) << issues.out;
}

TEST(Demo, ReplacesAnEarlierDemoButNothingElse) {
  const OwnFolder folder;
  folder.write("salt-walk.gpkg", "something of the user's");
  const Ran ran = run({"demo", "--out", folder.path().string()});
  EXPECT_EQ(ran.exit, 3);
  EXPECT_NE(ran.err.find("in the way"), std::string::npos) << ran.err;
  EXPECT_EQ(std::filesystem::file_size(folder / "salt-walk.gpkg"), 23U);
}

}  // namespace
}  // namespace rootstead::test
