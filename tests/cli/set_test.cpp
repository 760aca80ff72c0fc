// What a person chooses for a project by `set`, and that evidence and soil come in and show.
#include <gtest/gtest.h>

#include "tests/cli/command_line.hpp"

namespace rootstead::test {
namespace {

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

// The line of a key in the list.
std::string line_of(const std::string& project, const std::string& key) {
  const std::string all = "\n" + run({"set", project}).out;
  const auto at = all.find("\n" + key + " ");
  return at == std::string::npos ? "" : all.substr(at + 1, all.find('\n', at + 1) - at - 1);
}

TEST(Set, ListsEveryKeyWithItsPresentValueAndWhatItTakes) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  const Ran ran = run({"set", project});
  ASSERT_EQ(ran.exit, 0) << ran.err;
  for (const char* key : {"title",
                          "client",
                          "author",
                          "date",
                          "revision",
                          "status",
                          "rules",
                          "units",
                          "soil.texture",
                          "soil.drainage",
                          "soil.rooting_depth",
                          "soil.water_table",
                          "soil.compacted",
                          "wind.standard",
                          "wind.speed",
                          "wind.terrain",
                          "wind.return_years",
                          "wind.elevation",
                          "climate.hardiness_zone",
                          "climate.latitude",
                          "climate.elevation",
                          "climate.et0",
                          "climate.rain",
                          "climate.source"}) {
    EXPECT_NE(line_of(project, key), "") << key << "\n" << ran.out;
  }
  EXPECT_TRUE(holds(line_of(project, "rules"), "bs5837-2012"));
  EXPECT_TRUE(holds(line_of(project, "wind.standard"), "none, en1991, asce7-16 or asce7-22"));
}

TEST(Set, KeepsWhatIsSetAndWritesOneLineOfTheJournal) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  const Ran ran =
      run({"set", project, "client=Harbour Trust", "rules=crz-1.0, bs5837-2012", "units=us",
           "soil.texture=clay", "soil.drainage=poor", "soil.rooting_depth=0.6m",
           "soil.water_table=4 ft", "soil.compacted=yes", "wind.standard=en1991",
           "wind.speed=24m/s", "wind.terrain=iii", "wind.return_years=25", "wind.elevation=120m"});
  ASSERT_EQ(ran.exit, 0) << ran.err;
  EXPECT_TRUE(holds(ran.out, "soil.rooting_depth = 0.6 m\n")) << ran.out;
  EXPECT_TRUE(holds(line_of(project, "client"), "Harbour Trust"));
  EXPECT_TRUE(holds(line_of(project, "rules"), "crz-1.0,bs5837-2012"));
  EXPECT_TRUE(holds(line_of(project, "units"), "us "));
  EXPECT_TRUE(holds(line_of(project, "soil.texture"), " clay "));
  EXPECT_TRUE(holds(line_of(project, "soil.drainage"), " poor "));
  EXPECT_TRUE(holds(line_of(project, "soil.water_table"), " 4 ft "));
  EXPECT_TRUE(holds(line_of(project, "soil.compacted"), " yes "));
  EXPECT_TRUE(holds(line_of(project, "wind.standard"), " en1991 "));
  EXPECT_TRUE(holds(line_of(project, "wind.speed"), " 24 m/s "));
  EXPECT_TRUE(holds(line_of(project, "wind.terrain"), " III "));
  EXPECT_TRUE(holds(line_of(project, "wind.return_years"), " 25 "));
  EXPECT_TRUE(holds(line_of(project, "wind.elevation"), " 120 m "));
  EXPECT_EQ(run({"assess", project}).exit, 0);  // the choices do not stop it
}

TEST(Set, KeepsTheClimateAndTakesItAway) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  const std::string et0 = "0.5,0.8,1.5,2.4,3.2,3.8,3.9,3.3,2.2,1.2,0.6,0.4";
  const Ran ran =
      run({"set", project, "climate.hardiness_zone=8b", "climate.latitude=-33.9",
           "climate.elevation=400 ft", "climate.et0=" + et0,
           "climate.rain=1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12", "climate.source=station 12"});
  ASSERT_EQ(ran.exit, 0) << ran.err;
  EXPECT_TRUE(holds(line_of(project, "climate.hardiness_zone"), " 8 "));
  EXPECT_TRUE(holds(line_of(project, "climate.latitude"), " -33.9 "));
  EXPECT_TRUE(holds(line_of(project, "climate.elevation"), " 121.92 m "));
  EXPECT_TRUE(holds(line_of(project, "climate.et0"), " " + et0 + " "));
  EXPECT_TRUE(holds(line_of(project, "climate.rain"), " 1,2,3,4,5,6,7,8,9,10,11,12 "));
  EXPECT_TRUE(holds(line_of(project, "climate.source"), "station 12"));
  ASSERT_EQ(run({"set", project, "climate.hardiness_zone=", "climate.et0="}).exit, 0);
  EXPECT_TRUE(holds(line_of(project, "climate.hardiness_zone"), " - "));
  EXPECT_TRUE(holds(line_of(project, "climate.et0"), " - "));
}

TEST(Set, TakesSpeedsInOtherUnitsAndTakesThingsAway) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  ASSERT_EQ(run({"set", project, "wind.speed=90km/h"}).exit, 0);
  EXPECT_TRUE(holds(line_of(project, "wind.speed"), " 25 m/s "));
  ASSERT_EQ(run({"set", project, "wind.speed=100 mph"}).exit, 0);
  EXPECT_TRUE(holds(line_of(project, "wind.speed"), " 44.704 m/s "));  // 100 x 1609.344 / 3600
  ASSERT_EQ(run({"set", project, "wind.speed=", "soil.rooting_depth=600mm"}).exit, 0);
  EXPECT_FALSE(holds(line_of(project, "wind.speed"), "44.704"));
  ASSERT_EQ(run({"set", project, "soil.rooting_depth="}).exit, 0);
  EXPECT_FALSE(holds(line_of(project, "soil.rooting_depth"), "600"));
}

struct BadChoice {
  const char* text;
  const char* sentence;
};

TEST(Set, TellsABadChoiceInOneSentenceAndSetsNothing) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  const BadChoice bad[] = {
      {"soil.colour=red", "\"soil.colour\": there is no such key; use one of title, address,"},
      {"title", "\"title\": this is no KEY=VALUE; write for example soil.texture=clay."},
      {"=x", "this is no KEY=VALUE"},
      {"soil.texture=marble",
       "soil.texture: \"marble\" cannot be taken; give unknown, sand, loam, "
       "silt or clay."},
      {"soil.drainage=quick", "give unknown, free or poor."},
      {"soil.rooting_depth=0.6", "such as 0.6m."},
      {"soil.rooting_depth=-1m", "such as 0.6m."},
      {"soil.compacted=rather", "give yes or no."},
      {"units=cubits", "give metric or us."},
      {"rules=no-such", "rules: \"no-such\" cannot be taken; give ids of `rootstead rule list`"},
      {"rules=", "give ids of"},
      {"wind.standard=beaufort", "give none, en1991, asce7-16 or asce7-22."},
      {"wind.speed=24", "such as 24m/s, 53mph."},
      {"wind.speed=-3m/s", "wind.speed: \"-3m/s\" cannot be taken"},
      {"wind.speed=24furlongs", "wind.speed"},
      {"wind.terrain=V", "give 0, I, II, III, IV (en1991) or B, C, D (asce7)."},
      {"wind.return_years=1", "give years above 1"},
      {"wind.elevation=high", "such as 120m."},
      {"climate.hardiness_zone=14", "give a USDA zone from 1 to 13"},
      {"climate.hardiness_zone=8.5", "give a USDA zone from 1 to 13"},
      {"climate.latitude=91", "give degrees from -90 to 90"},
      {"climate.elevation=high", "such as 120m."},
      {"climate.et0=1,2,3", "give twelve means of reference evapotranspiration in mm a day"},
      {"climate.et0=1,2,3,4,5,6,7,8,9,10,11,21", "climate.et0"},
      {"climate.rain=1,2,3,4,5,6,7,8,9,10,11,-1", "give twelve means of rain in mm a day"},
  };
  for (const BadChoice& choice : bad) {
    const Ran ran = run({"set", project, "client=Nobody", choice.text});
    EXPECT_EQ(ran.exit, 2) << choice.text;
    EXPECT_TRUE(holds(ran.err, choice.sentence)) << ran.err;
    EXPECT_EQ(ran.err.find('\n'), ran.err.size() - 1) << ran.err;
    EXPECT_EQ(ran.out, "");
  }
  EXPECT_FALSE(holds(line_of(project, "client"), "Nobody"));
}

TEST(Set, AWindThatDoesNotFitItsStandardIsToldByCheck) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  ASSERT_EQ(
      run({"set", project, "wind.standard=asce7-22", "wind.speed=50m/s", "wind.terrain=II"}).exit,
      0);
  const Ran ran = run({"check", project});
  EXPECT_EQ(ran.exit, 1);
  EXPECT_TRUE(holds(ran.out, "blocks  wind: the terrain \"II\" is none of asce7-22")) << ran.out;
}

TEST(Adding, EvidenceAndSoilSaysWhatCameIn) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  const std::string pits =
      folder.write("pits.csv",
                   "pit,kind,tree,x,y,depth (mm),root diameter (mm),root depth (mm),date\n"
                   "P1,pit,T1,480003,4880002,600,35,200,2026-03-04\nP1,,,,,,60,900,\n"
                   "P2,pit,T99,480005,4880002,600,,,someday\n");
  const Ran added = run({"add", project, pits, "--as", "evidence"});
  ASSERT_EQ(added.exit, 0) << added.err;
  EXPECT_TRUE(holds(added.out, "2 openings, 2 roots found in them")) << added.out;
  const std::string log = folder.write("log.csv", "bottom (cm),texture\n30,loam\n90,clay\n");
  const Ran soil = run({"add", project, log, "--as", "soil"});
  ASSERT_EQ(soil.exit, 0) << soil.err;
  EXPECT_TRUE(holds(soil.out, "soil, 2 layers")) << soil.out;
  EXPECT_TRUE(holds(run({"set", project}).out, "2 soil layers"));
  const Ran check = run({"check", project});
  EXPECT_TRUE(holds(check.out,
                    "pits.csv row 2, pit P1: root 2 of 60 mm at 900 mm is deeper than "
                    "the opening, 600 mm"))
      << check.out;
  EXPECT_TRUE(holds(check.out, "of the tree T99, which is not in the survey")) << check.out;
  EXPECT_TRUE(holds(check.out, "the date \"someday\" is no date")) << check.out;
}

TEST(Adding, BoundaryAndGatesSaysWhatCameInAndChecksThem) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  const std::string outline =
      folder.write("outline.csv",
                   "wkt\n\"POLYGON ((479900 4879900,480200 4879900,480200 4880100,479900 "
                   "4880100,479900 4879900))\"\n");
  const Ran added = run({"add", project, outline, "--as", "boundary"});
  ASSERT_EQ(added.exit, 0) << added.err;
  EXPECT_TRUE(holds(added.out, "1 area of the boundary")) << added.out;
  const std::string gates = folder.write(
      "gates.csv", "id,x,y,width (m)\nmain,479900,4880000,4.5\nfar,479000,4880000,4\n");
  const Ran in = run({"add", project, gates, "--as", "gates"});
  ASSERT_EQ(in.exit, 0) << in.err;
  EXPECT_TRUE(holds(in.out, "2 gates")) << in.out;
  const Ran again = run({"add", project, gates, "--as", "gates"});
  EXPECT_EQ(again.exit, 2);
  EXPECT_TRUE(holds(again.err, "gates.csv: the project has a gate main already")) << again.err;
  const Ran check = run({"check", project});
  EXPECT_TRUE(holds(check.out, "gate far: it lies 900 m outside the boundary")) << check.out;
  EXPECT_FALSE(holds(check.out, "gate main")) << check.out;
}

TEST(Checking, TellsAFaultOfASourceOnce) {
  const OwnFolder folder;
  const std::string project = folder / "twice.gpkg";
  ASSERT_EQ(run({"new", project, "--crs", "EPSG:32632"}).exit, 0);
  const std::string trees =
      folder.write("trees.csv",
                   "tag,species,dbh (cm),height (m),x,y\nT1,Quercus robur,,12,480000,4880000\n"
                   "T2,Quercus robur,40,12,,\nT3,Quercus robur,40,12,480010,4880000\n"
                   "T4,Quercus robur,thick,12,480020,4880000\n");
  ASSERT_EQ(run({"add", project, trees}).exit, 0);
  const Ran ran = run({"check", project, "--json"});
  const nlohmann::json told = ran.json();
  int no_diameter = 0, no_position = 0, unreadable = 0;
  for (const auto& problem : told.at("problems")) {
    const std::string subject = problem.at("subject");
    const int code = problem.at("code");
    no_diameter += code == 102 && holds(subject, "tree T1") ? 1 : 0;
    no_position += code == 100 ? 1 : 0;
    unreadable += code == 140 ? 1 : 0;
  }
  EXPECT_EQ(no_diameter, 1) << ran.out;
  EXPECT_EQ(no_position, 1) << ran.out;
  EXPECT_EQ(unreadable, 1) << ran.out;  // told by the source alone, and kept
}

}  // namespace
}  // namespace rootstead::test
