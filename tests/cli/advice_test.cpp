// What is to be done, through the commands: works from levels, choices, trails, what goes out.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iterator>

#include "tests/cli/command_line.hpp"

namespace rootstead::test {
namespace {

using nlohmann::json;

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

std::string text_of(const std::string& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

// A square of LandXML ground from 479980 to 480080, flat at 10 m but for its middle column of
// points at 480030, which is `rise` higher.
std::string ground(double rise, const std::string& datum = "Ellander") {
  std::string points, faces;
  for (int row = 0; row < 2; ++row) {
    for (int column = 0; column < 5; ++column) {
      const double east[] = {479980, 480026, 480030, 480034, 480080};
      points += "<P id=\"" + std::to_string(row * 5 + column + 1) + "\">" +
                std::to_string(4879980 + row * 60) + " " + std::to_string(east[column]) + " " +
                std::to_string(column == 2 ? 10 + rise : 10.0) + "</P>";
    }
  }
  for (int column = 1; column < 5; ++column) {
    const auto face = [&faces](int a, int b, int c) {
      faces +=
          "<F>" + std::to_string(a) + " " + std::to_string(b) + " " + std::to_string(c) + "</F>";
    };
    face(column, column + 1, column + 6);
    face(column, column + 6, column + 5);
  }
  return "<?xml version=\"1.0\"?><LandXML xmlns=\"http://www.landxml.org/schema/LandXML-1.2\" "
         "version=\"1.2\"><Units><Metric linearUnit=\"meter\"/></Units><CoordinateSystem "
         "epsgCode=\"32632\" verticalDatum=\"" +
         datum + "\"/><Surfaces><Surface name=\"Ground\"><Definition surfType=\"TIN\"><Pnts>" +
         points + "</Pnts><Faces>" + faces + "</Faces></Definition></Surface></Surfaces></LandXML>";
}

// The small project with the ground raised by 0.6 m at tree T2.
std::string raised_project(const OwnFolder& folder) {
  const std::string project = small_project(folder);
  const std::string before = folder.write("before.xml", ground(0));
  const std::string after = folder.write("after.xml", ground(0.6));
  EXPECT_EQ(run({"add", project, before, "--as", "levels"}).exit, 0);
  EXPECT_EQ(run({"add", project, after, "--as", "levels", "--state", "proposed"}).exit, 0);
  return project;
}

TEST(LevelsOnTheCommandLine, FillsBecomeWorksOfTheAssessment) {
  const OwnFolder folder;
  const std::string project = raised_project(folder);
  const Ran ran = run({"assess", project, "--json"});
  ASSERT_EQ(ran.exit, 0) << ran.err;
  bool filled = false;
  const json printed = ran.json();
  for (const json& work : printed.at("trees").at(1).at("by_work"))
    filled = filled || work.at("work") == "levels-fill-1";
  EXPECT_TRUE(filled) << ran.out;
  // The works are made anew: a second assessment has them once, and the project none of them.
  EXPECT_EQ(run({"assess", project, "--json"}).out, ran.out);
}

TEST(LevelsOnTheCommandLine, WhyTellsOfTheFillWithItsWork) {
  const OwnFolder folder;
  const std::string project = raised_project(folder);
  const Ran ran = run({"why", project, "T2", "--json"});
  ASSERT_EQ(ran.exit, 0) << ran.err;
  bool told = false;
  for (const json& figure : ran.json())
    told = told || (figure.value("work", "") == "levels-fill-1" &&
                    holds(figure.at("figure").get<std::string>(), "fill"));
  EXPECT_TRUE(told) << ran.out;
}

TEST(Advise, GroupsWhatIsToBeDoneAndBillsIt) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  const Ran ran = run({"advise", project});
  EXPECT_TRUE(ran.exit == 0 || ran.exit == 1) << ran.err;
  for (const char* part : {"The whole site\n", "W1 Drain, tree T1 (Quercus robur)\n",
                           "root cut: ", "    why: ", "Bill of protection: ", "Caution: "}) {
    EXPECT_TRUE(holds(ran.out, part)) << part << " in " << ran.out;
  }
}

TEST(Advise, JsonHasTheDocumentedShapeAndItsExitTellsOfClashes) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  const Ran ran = run({"advise", project, "--json"});
  const json printed = ran.json();
  ASSERT_TRUE(printed.is_object()) << ran.err;
  EXPECT_EQ(ran.exit, printed.at("clashes").empty() ? 0 : 1);
  ASSERT_FALSE(printed.at("prescriptions").empty());
  for (const json& one : printed.at("prescriptions")) {
    for (const char* key : {"topic", "work", "tree", "text", "reason", "source", "status"})
      EXPECT_TRUE(one.at(key).is_string()) << key << " of " << one;
    EXPECT_NE(one.at("text"), "");
    EXPECT_NE(one.at("source"), "");
  }
  ASSERT_FALSE(printed.at("bill").empty());
  for (const json& item : printed.at("bill")) {
    EXPECT_GT(item.at("quantity").get<double>(), 0) << item;
    EXPECT_TRUE(item.at("parts").is_array());
  }
  EXPECT_FALSE(printed.at("cautions").empty());
}

TEST(Advise, SaysWhyAPalmAndATreeGetDifferentAnswers) {
  const OwnFolder folder;
  const std::string project = folder / "moves.gpkg";
  ASSERT_EQ(run({"new", project, "--crs", "EPSG:32632", "--date", "2026-11-25"}).exit, 0);
  const std::string trees =
      folder.write("trees.csv",
                   "Tag,Species,Type,DBH (cm),Height (m),Crown radius (m),Condition,Life stage,"
                   "History,Intent,Easting,Northing\n"
                   "O1,Quercus robur,broadleaf,31,11,4,good,mature,from seed in place,move,480010,"
                   "4880010\n"
                   "P1,Phoenix canariensis,palm,60,11,3.5,good,mature,,move,480040,4880010\n");
  ASSERT_EQ(run({"add", project, trees, "--as", "trees"}).exit, 0);
  const Ran advised = run({"advise", project, "--json"});
  EXPECT_TRUE(holds(advised.json().at("not_said").dump(), "tree O1: No ball figure"))
      << advised.out;
  EXPECT_FALSE(holds(advised.json().at("not_said").dump(), "tree P1")) << advised.out;
  const Ran palm = run({"why", project, "P1", "transplant.palm"});
  EXPECT_EQ(palm.exit, 0) << palm.err;
  EXPECT_FALSE(holds(palm.out, "calliper")) << palm.out;
}

TEST(Report, WritesTheCalendarOfVisits) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  ASSERT_EQ(run({"set", project, "date=2026-11-25", "works_begin=2027-03-01",
                 "works_end=2027-09-30", "years_of_care=2"})
                .exit,
            0);
  const Ran ran =
      run({"report", project, "--out", folder / "r.pdf", "--calendar", folder / "v.ics"});
  ASSERT_EQ(ran.exit, 0) << ran.err;
  EXPECT_TRUE(holds(ran.out, "v.ics, the visits for a calendar")) << ran.out;
  const std::string calendar = text_of(folder / "v.ics");
  EXPECT_EQ(calendar.rfind("BEGIN:VCALENDAR\r\n", 0), 0U);
  EXPECT_TRUE(holds(calendar, "BEGIN:VEVENT\r\n")) << calendar;
  EXPECT_TRUE(holds(calendar, "DTSTART;VALUE=DATE:2027")) << calendar;
}

TEST(Set, KeepsWhatIsAdvisedByAndTakesItAway) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  const Ran ran = run({"set", project, "works_end=2027-09-30", "works_begin=2027-03-01",
                       "years_of_care=3", "cut_standard=bs5837-2012", "planting_cost=4200",
                       "tree_value=18500", "replacement_rules=five-quarters, miami-fl"});
  ASSERT_EQ(ran.exit, 0) << ran.err;
  const std::string all = run({"set", project}).out;
  for (const char* line :
       {"works_begin ", "2027-03-01", "2027-09-30", "five-quarters, miami-fl", "18500", "4200"})
    EXPECT_TRUE(holds(all, line)) << line << " in " << all;
  ASSERT_EQ(run({"set", project, "works_end=", "planting_cost="}).exit, 0);
  EXPECT_FALSE(holds(run({"set", project}).out, "2027-09-30"));
}

// ---- bad input ----------------------------------------------------------------------------------

struct BadInput {
  const char* choice;
  const char* sentence;  // whole, on standard error
};

TEST(BadAdviceInput, ChoicesAreRefusedInOneSentenceAndNothingIsKept) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  ASSERT_EQ(run({"set", project, "works_begin=2027-03-01"}).exit, 0);
  const BadInput bad[] = {
      {"works_end=2027-02-28",
       "rootstead: works_end: the works would end on 2027-02-28, before they begin on 2027-03-01; "
       "give a day on or after works_begin, or take one of them away.\n"},
      {"works_end=03/04/2027",
       "rootstead: works_end: \"03/04/2027\" cannot be taken; give one day, such as 2026-09-30, "
       "not before works_begin.\n"},
      {"works_begin=soon",
       "rootstead: works_begin: \"soon\" cannot be taken; give one day, such as 2026-03-02.\n"},
      {"works_begin=2027-03",
       "rootstead: works_begin: \"2027-03\" cannot be taken; give one day, such as 2026-03-02.\n"},
      {"years_of_care=0",
       "rootstead: years_of_care: \"0\" cannot be taken; give whole years from 1 to 5, such as "
       "3.\n"},
      {"years_of_care=2.5",
       "rootstead: years_of_care: \"2.5\" cannot be taken; give whole years from 1 to 5, such as "
       "3.\n"},
      {"planting_cost=-5",
       "rootstead: planting_cost: \"-5\" cannot be taken; give a sum above 0, in the money of the "
       "rule: what planting all replacement trees costs, such as 4200.\n"},
      {"tree_value=much",
       "rootstead: tree_value: \"much\" cannot be taken; give a sum above 0, in the money of the "
       "rule: the appraised value of the trees kept or moved, such as 18500.\n"},
  };
  for (const BadInput& input : bad) {
    const Ran ran = run({"set", project, "client=Nobody", input.choice});
    EXPECT_EQ(ran.exit, 2) << input.choice;
    EXPECT_EQ(ran.err, input.sentence);
    EXPECT_EQ(ran.out, "");
  }
  EXPECT_FALSE(holds(run({"set", project}).out, "Nobody"));
}

TEST(BadAdviceInput, UnknownStandardsAndRulesAreToldWithThoseThereAre) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  const Ran standard = run({"set", project, "cut_standard=bs5837"});
  EXPECT_EQ(standard.exit, 2);
  EXPECT_TRUE(holds(standard.err,
                    "cut_standard: \"bs5837\" cannot be taken; give the id of one standard of root "
                    "cutting: "))
      << standard.err;
  EXPECT_TRUE(holds(standard.err, "bs5837-2012")) << standard.err;
  const Ran rule = run({"set", project, "replacement_rules=five-quarters,nowhere"});
  EXPECT_EQ(rule.exit, 2);
  EXPECT_TRUE(holds(rule.err,
                    "replacement_rules: \"five-quarters,nowhere\" cannot be taken; give ids of "
                    "replacement rules, separated by commas, each once: alachua-county-fl, "))
      << rule.err;
}

TEST(BadAdviceInput, SurfacesAboveDifferentDatumsBlockAndMakeNoWork) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  const std::string before = folder.write("before.xml", ground(0, "Harbour"));
  const std::string after = folder.write("after.xml", ground(0.6, "Sea"));
  ASSERT_EQ(run({"add", project, before, "--as", "levels"}).exit, 0);
  ASSERT_EQ(run({"add", project, after, "--as", "levels", "--state", "proposed"}).exit, 0);
  const Ran check = run({"check", project});
  EXPECT_EQ(check.exit, 1);
  EXPECT_TRUE(holds(check.out, "its heights are above Sea and those of ")) << check.out;
  EXPECT_TRUE(holds(check.out,
                    " above Harbour; have one of them brought to the other's datum by the "
                    "surveyor; nothing was compared.\n"))
      << check.out;
  const Ran assessed = run({"assess", project, "--json"});
  EXPECT_EQ(assessed.exit, 0);
  EXPECT_TRUE(holds(assessed.err, "nothing was compared. No work was made from the levels.\n"))
      << assessed.err;
  EXPECT_TRUE(holds(assessed.json().at("cautions").dump(), "No work was made from the levels."));
  EXPECT_FALSE(holds(assessed.out, "levels-fill-1"));
}

TEST(BadAdviceInput, AZoneThatTheLevelsDoNotCoverIsToldByCheck) {
  const OwnFolder folder;
  const std::string project = raised_project(folder);
  const std::string more = folder.write("more.csv",
                                        "Tag,Species,DBH (cm),Easting,Northing\n"
                                        "EDGE,Tilia cordata,40,479981,4880010\n");
  ASSERT_EQ(run({"add", project, more, "--as", "trees"}).exit, 0);
  const Ran check = run({"check", project});
  EXPECT_EQ(check.exit, 0) << check.out;
  EXPECT_TRUE(holds(check.out, "look    ground levels: ")) << check.out;
  EXPECT_TRUE(holds(check.out, "tree EDGE, ")) << check.out;
}

TEST(BadAdviceInput, OneSurfaceAloneIsToldByCheck) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  const std::string before = folder.write("before.xml", ground(0));
  ASSERT_EQ(run({"add", project, before, "--as", "levels"}).exit, 0);
  EXPECT_TRUE(holds(run({"check", project}).out,
                    "look    ground levels: only the existing levels are known: no cut or fill can "
                    "be worked out from them.\n"));
}

TEST(BadAdviceInput, ATextureThatSumsTo97IsNotTaken) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  const std::string log =
      folder.write("log.csv", "bottom (cm),sand (%),silt (%),clay (%)\n30,40,37,20\n");
  ASSERT_EQ(run({"add", project, log, "--as", "soil"}).exit, 0);
  const Ran check = run({"check", project});
  EXPECT_EQ(check.exit, 1);
  EXPECT_TRUE(holds(check.out,
                    "blocks  soil: the shares of sand, silt and clay of layer 1 add up to 97 %, "
                    "not to 100; correct them, or leave them out.\n"))
      << check.out;
  const Ran figure = run({"figure", "soil.texture", "sand=40%", "silt=37%", "clay=20%"});
  EXPECT_NE(figure.exit, 0);
  EXPECT_TRUE(holds(figure.err, "sand, silt and clay sum to 97.0 %, not to 100 %")) << figure.err;
}

TEST(BadAdviceInput, ANegativeDepthBlocks) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  const std::string works =
      folder.write("more.csv",
                   "id,kind,width,depth,wkt\n"
                   "W2,trench,0.6 m,-1.2 m,\"LINESTRING (480000 4880016, 480060 4880016)\"\n");
  const Ran added = run({"add", project, works, "--as", "works"});
  ASSERT_EQ(added.exit, 0) << added.err;
  const Ran check = run({"check", project});
  EXPECT_NE(check.exit, 0);
  EXPECT_TRUE(holds(check.out,
                    "blocks  more.csv row 2, W2: the depth \"-1.2 m\" cannot be read; column "
                    "\"depth\": write a number with its unit, such as 900 mm"))
      << check.out;
}

TEST(BadAdviceInput, ACorrectedFileBlocksNoMore) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  const auto works = [&](const std::string& depth) {
    return folder.write("more.csv",
                        "id,kind,width,depth,wkt\n"
                        "W2,trench,0.6 m," +
                            depth + ",\"LINESTRING (480000 4880016, 480060 4880016)\"\n");
  };
  ASSERT_EQ(run({"add", project, works("-1.2 m"), "--as", "works"}).exit, 0);
  EXPECT_EQ(run({"check", project}).exit, 1);
  const Ran refused = run({"add", project, works("1.2 m"), "--as", "works"});
  EXPECT_EQ(refused.exit, 2);
  EXPECT_TRUE(holds(refused.err, "add --replace")) << refused.err;
  const Ran replaced = run({"add", project, works("1.2 m"), "--as", "works", "--replace"});
  EXPECT_EQ(replaced.exit, 0) << replaced.err;
  EXPECT_TRUE(holds(replaced.out, "It stands in place of what it brought before.\n"));
  EXPECT_EQ(run({"check", project}).exit, 0);
  const Ran layer =
      run({"add", project, works("1 m"), "--as", "works", "--replace", "--layer", "x"});
  EXPECT_EQ(layer.exit, 2);
  const std::string unknown = folder.write("unknown.csv", "id,kind,wkt\nW7,trench,\n");
  const Ran never = run({"add", project, unknown, "--as", "works", "--replace"});
  EXPECT_EQ(never.exit, 2);
  EXPECT_TRUE(holds(never.err, "the project has nothing from a file of this name")) << never.err;
}

TEST(BadAdviceInput, APalmHasNoBallByCalliper) {
  const Ran ran = run({"figure", "transplant.ball-diameter", "calliper=3in", "form=palm"});
  EXPECT_EQ(ran.exit, 3);
  EXPECT_EQ(ran.err,
            "rootstead: transplant.ball-diameter: a palm or other monocot does not follow "
            "calliper: its trunk never thickens with age and its roots all come anew from the base "
            "of the trunk, so neither tells of the other; ask for transplant.palm-ball with its "
            "species.\n");
  EXPECT_EQ(ran.out, "");
}

TEST(BadAdviceInput, ACalendarNeedsADate) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  const std::string calendar = folder / "v.ics";
  const Ran ran = run({"report", project, "--out", folder / "r.pdf", "--calendar", calendar});
  EXPECT_EQ(ran.exit, 3);
  EXPECT_EQ(ran.err, "rootstead: " + calendar +
                         ": the project has no date, so no visit has a day; set one: rootstead set "
                         "FILE date=2026-03-02.\n");
  EXPECT_FALSE(std::filesystem::exists(calendar));
  EXPECT_FALSE(std::filesystem::exists(folder / "r.pdf")) << "nothing may be written before";
}

}  // namespace
}  // namespace rootstead::test
