// screen: a small town and a network through the command line, in one run and in many.
#include <gtest/gtest.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <thread>

#include "tests/cli/command_line.hpp"

namespace rootstead::test {
namespace {

namespace fs = std::filesystem;

std::string text_of(const fs::path& file) {
  std::ifstream stream(file, std::ios::binary);
  std::ostringstream text;
  text << stream.rdbuf();
  return text.str();
}

std::vector<std::string> lines_of(const fs::path& file) {
  std::vector<std::string> lines;
  std::ifstream stream(file);
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

// A trench along y = 0 from x = 0 to x = 1000, 1 m wide, and an old one that no longer counts.
constexpr const char* kWorks =
    "id,kind,state,width_m,depth_m,wkt\n"
    "W1,trench,proposed,1,1,\"LINESTRING (0 0, 1000 0)\"\n"
    "W2,trench,existing,1,1,\"LINESTRING (0 6, 1000 6)\"\n";

constexpr const char* kTrees =
    "id,species,form,dbh_mm,easting,northing\n"
    "near,Quercus robur,broadleaf,500,100,4\n"
    "far,Quercus robur,broadleaf,200,100,20\n"
    "palm,Phoenix canariensis,palm,500,300,2\n"
    "bare,Tilia cordata,broadleaf,,400,3\n"
    "lost,Tilia cordata,broadleaf,300,,\n"
    "\"a, \"\"b\"\"\",Tilia cordata,broadleaf,300,600,0\n";

struct Town {
  OwnFolder folder;
  std::string trees = folder.write("trees.csv", kTrees);
  std::string works = folder.write("works.csv", kWorks);

  std::vector<std::string> command(const std::string& out) const {
    return {"screen",      "--trees", trees,        "--works", works,       "--rule",
            "bs5837-2012", "--crs",   "EPSG:32632", "--out",   folder / out};
  }
  Ran screen(const std::string& out, const std::vector<std::string>& more = {}) const {
    std::vector<std::string> words = command(out);
    words.insert(words.end(), more.begin(), more.end());
    return run(words);
  }
};

TEST(Screen, TellsOfEveryTreeAndLosesNone) {
  const Town town;
  const Ran ran = town.screen("near.csv");
  ASSERT_EQ(ran.exit, 0) << ran.err;
  const auto lines = lines_of(town.folder / "near.csv");
  ASSERT_EQ(lines.size(), 7u);
  EXPECT_EQ(lines[0],
            "row,tree,rule,zone,radius_m,status,share,taken_m2,nearest_work,nearest_m,worst_work,"
            "worst_share,x,y,remark");
  // A circle of 6 m, 4 m from a trench of 1 m: segments at 3.5 and 4.5 m; 8.910409 m2 by hand.
  EXPECT_TRUE(lines[1].starts_with(
      "2,near,bs5837-2012,root-protection-area,6.000,in reach,0.078785313,8.910409,"))
      << lines[1];
  EXPECT_NE(lines[1].find(",W1,3.500,W1,"), std::string::npos) << lines[1];
  EXPECT_TRUE(
      lines[2].starts_with("3,far,bs5837-2012,root-protection-area,2.400,clear,0.000000000"))
      << lines[2];
  EXPECT_NE(lines[2].find(",W1,19.500,,,"), std::string::npos) << lines[2];
  EXPECT_TRUE(lines[3].starts_with("4,palm,bs5837-2012,,,no figure,,,W1,1.500,,,300.000,2.000,"))
      << lines[3];
  EXPECT_NE(lines[3].find("palms"), std::string::npos) << lines[3];
  EXPECT_TRUE(lines[4].starts_with("5,bare,bs5837-2012,,,no figure,,,W1,2.500,")) << lines[4];
  EXPECT_NE(lines[4].find("diameter"), std::string::npos) << lines[4];
  EXPECT_TRUE(lines[5].starts_with("6,lost,bs5837-2012,root-protection-area,3.600,no position,"))
      << lines[5];
  EXPECT_TRUE(lines[6].starts_with("7,\"a, \"\"b\"\"\",")) << lines[6];
  EXPECT_FALSE(fs::exists(town.folder / "near.csv.parts"));
}

TEST(Screen, SaysWhatItIsAndHowToGoOn) {
  const Town town;
  const Ran ran = town.screen("near.csv", {"--note", "INVENTED WORKS."});
  ASSERT_EQ(ran.exit, 0) << ran.err;
  for (const std::string said : {"INVENTED WORKS.", "6 trees", "1 of the works exist already",
                                 "2: in reach", "2: no figure", "Caution: ", "rootstead assess"})
    EXPECT_NE(ran.out.find(said), std::string::npos) << said << '\n' << ran.out;
  const std::string about = text_of(town.folder / "near.about.txt");
  for (const std::string said : {"INVENTED WORKS.", "never be the only ground", "bs5837-2012",
                                 "published", "EPSG:32632", "Not looked at: barriers"})
    EXPECT_NE(about.find(said), std::string::npos) << said << '\n' << about;
}

TEST(Screen, RefusesInOneSentence) {
  const Town town;
  const auto refused = [&](std::vector<std::string> more, int exit, const std::string& why) {
    const Ran ran = town.screen("near.csv", more);
    EXPECT_EQ(ran.exit, exit) << ran.out;
    EXPECT_NE(ran.err.find(why), std::string::npos) << ran.err;
  };
  refused({"--zone", "moon"}, 2, "root-protection-area");
  refused({"--part", "3/2"}, 2, "2/8");
  refused({"--look", "far"}, 2, "30m");
  const Ran format = town.screen("near.xlsx");
  EXPECT_EQ(format.exit, 3) << format.err;
  EXPECT_NE(format.err.find(".gpkg"), std::string::npos) << format.err;
  EXPECT_FALSE(fs::exists(town.folder / "near.csv"));
}

// Many trees on many works, so that there are several blocks.
void grow(const Town& town, int trees) {
  std::string rows = "id,form,dbh_mm,easting,northing\n";
  for (int i = 0; i < trees; ++i) {
    rows += "T" + std::to_string(i) + (i % 11 == 0 ? ",palm," : ",broadleaf,") +
            (i % 13 == 0 ? "" : std::to_string(100 + i % 900)) + ',' +
            std::to_string(i * 37 % 1000) + '.' + std::to_string(i % 10) + ',' +
            std::to_string(i % 20 - 10) + '\n';
  }
  town.folder.write("trees.csv", rows);
}

TEST(Screen, IsTheSameInAnyNumberOfThreadsAndParts) {
  const Town town;
  grow(town, 20'000);
  ASSERT_EQ(town.screen("one.csv", {"--threads", "1"}).exit, 0);
  const std::string one = text_of(town.folder / "one.csv");
  EXPECT_EQ(lines_of(town.folder / "one.csv").size(), 20'001u);
  ASSERT_EQ(town.screen("three.csv", {"--threads", "3"}).exit, 0);
  EXPECT_EQ(text_of(town.folder / "three.csv"), one);
  const Ran second = town.screen("parts.csv", {"--part", "2/2"});
  ASSERT_EQ(second.exit, 0) << second.err;
  EXPECT_FALSE(fs::exists(town.folder / "parts.csv"));
  const Ran first = town.screen("parts.csv", {"--part", "1/2"});
  ASSERT_EQ(first.exit, 0) << first.err;
  EXPECT_EQ(text_of(town.folder / "parts.csv"), one);
}

TEST(Screen, PartsOfAnotherScreeningAreNotTaken) {
  const Town town;
  grow(town, 20'000);
  ASSERT_EQ(town.screen("near.csv", {"--part", "2/2"}).exit, 0);
  const Ran ran = town.screen("near.csv", {"--look", "50m"});
  EXPECT_EQ(ran.exit, 2);
  EXPECT_NE(ran.err.find("parts of another screening"), std::string::npos) << ran.err;
}

// The streets of a town in degrees, read as metres, lie all on one another.
TEST(Screen, ATownInDegreesIsRefusedAtOnce) {
  const Town town;
  std::ofstream works(town.works);
  works << "id,kind,state,width_m,depth_m,wkt\n";
  for (int i = 0; i < 2'001; ++i)
    works << "W" << i << ",trench,proposed,1,1,\"LINESTRING (8.4 49.0, 8.5 49.1)\"\n";
  works.close();
  const Ran ran = town.screen("near.csv");
  EXPECT_EQ(ran.exit, 2);
  EXPECT_NE(ran.err.find("works.csv, work W2000: it is one of more than 2000 works on one spot"),
            std::string::npos)
      << ran.err;
  EXPECT_FALSE(fs::exists(town.folder / "near.csv"));
}

std::size_t blocks_in(const fs::path& folder) {
  std::size_t blocks = 0;
  std::error_code ignored;
  for (const auto& entry : fs::directory_iterator(folder, ignored))
    if (entry.path().extension() == ".csv") ++blocks;
  return blocks;
}

// Killed as soon as a block lies there; true where the kill came before the end.
bool killed_with_a_block(const Town& town, const std::string& out) {
  std::vector<std::string> words = town.command(out);
  words.insert(words.end(), {"--threads", "1"});
  const pid_t child = start_program(words);
  const fs::path parts = town.folder / (out + ".parts");
  int status = 0;
  while (blocks_in(parts) == 0 && waitpid(child, &status, WNOHANG) == 0)
    std::this_thread::sleep_for(std::chrono::milliseconds(2));
  kill(child, SIGKILL);
  waitpid(child, &status, 0);
  return blocks_in(parts) > 0 && !fs::exists(town.folder / out);
}

TEST(Screen, GoesOnAfterAKillAndMakesTheSame) {
  const Town town;
  grow(town, 30'000);
  ASSERT_EQ(town.screen("whole.csv").exit, 0);
  bool killed = false;
  for (int tries = 0; tries < 5 && !killed; ++tries) {
    fs::remove(town.folder / "near.csv");
    killed = killed_with_a_block(town, "near.csv");
  }
  ASSERT_TRUE(killed);
  const Ran ran = town.screen("near.csv");
  ASSERT_EQ(ran.exit, 0) << ran.err;
  EXPECT_NE(ran.out.find("from an earlier run"), std::string::npos) << ran.out;
  EXPECT_EQ(text_of(town.folder / "near.csv"), text_of(town.folder / "whole.csv"));
}

// What one format says every other says too: GeoPackage and FlatGeobuf are screened from and to.
TEST(Screen, ReadsWhatItWrites) {
  const Town town;
  ASSERT_EQ(town.screen("near.gpkg").exit, 0);
  ASSERT_EQ(town.screen("near.csv").exit, 0);
  const std::string map = town.folder.write(
      "map.toml",
      "[columns]\nid = \"tree\"\ncrown_radius = { column = \"radius_m\", unit = \"m\" }\n");
  const Ran again = run({"screen", "--trees", town.folder / "near.gpkg", "--tree-layer",
                         "screening", "--tree-columns", map, "--crs", "EPSG:32632", "--works",
                         town.works, "--rule", "bs5837-2012", "--out", town.folder / "again.fgb"});
  ASSERT_EQ(again.exit, 0) << again.err;
  EXPECT_NE(again.out.find("6 trees"), std::string::npos) << again.out;
  EXPECT_NE(again.out.find("5: no figure"), std::string::npos) << again.out;
  EXPECT_NE(again.out.find("without a position are left out"), std::string::npos) << again.out;
  EXPECT_GT(fs::file_size(town.folder / "again.fgb"), 500u);
}

}  // namespace
}  // namespace rootstead::test
