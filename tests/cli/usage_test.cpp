// How a command line is understood, and what a wrong one is told.
#include <gtest/gtest.h>

#include "tests/cli/command_line.hpp"

namespace rootstead::test {
namespace {

TEST(Usage, HelpNamesEveryCommandAndTheExitCodes) {
  const Ran ran = run({"--help"});
  EXPECT_EQ(ran.exit, 0);
  for (const char* word :
       {"demo",    "new",    "add",
        "set",     "check",  "assess",
        "route",   "ease",   "methods",
        "why",     "report", "issue",
        "compare", "plans",  "comments",
        "screen",  "export", "sure",
        "rule",    "figure", "0 done, 1 problems found, 2 wrong use, 3 failed"}) {
    EXPECT_NE(ran.out.find(word), std::string::npos) << word;
  }
  EXPECT_EQ(ran.err, "");
}

TEST(Usage, EveryCommandHasHelpWithAnExample) {
  const std::vector<std::vector<std::string>> commands{
      {"demo"},         {"new"},          {"add"},           {"set"},    {"check"},  {"assess"},
      {"route"},        {"ease"},         {"methods"},       {"why"},    {"report"}, {"export"},
      {"rule", "list"}, {"rule", "show"}, {"rule", "check"}, {"figure"}, {"issue"},  {"compare"},
      {"plans"},        {"comments"},     {"screen"},        {"sure"}};
  for (std::vector<std::string> command : commands) {
    std::string path = "rootstead";
    for (const std::string& word : command) path += " " + word;
    command.emplace_back("--help");
    const Ran ran = run(command);
    EXPECT_EQ(ran.exit, 0) << path;
    EXPECT_NE(ran.out.find("Example:\n  " + path), std::string::npos) << ran.out;
  }
}

TEST(Usage, VersionIsOneLine) {
  const Ran ran = run({"--version"});
  EXPECT_EQ(ran.exit, 0);
  EXPECT_EQ(ran.out.rfind("rootstead ", 0), 0U) << ran.out;
  EXPECT_EQ(ran.out.find('\n'), ran.out.size() - 1);
}

// A wrong command line: its words, the exit code, and what the one sentence must hold.
struct Wrong {
  std::vector<std::string> arguments;
  int exit;
  std::string says;
};

class WrongUse : public ::testing::TestWithParam<Wrong> {};

TEST_P(WrongUse, IsToldInOneSentence) {
  const Ran ran = run(GetParam().arguments);
  EXPECT_EQ(ran.exit, GetParam().exit) << ran.err;
  EXPECT_EQ(ran.out, "");
  EXPECT_NE(ran.err.find(GetParam().says), std::string::npos) << ran.err;
  EXPECT_EQ(ran.err.rfind("rootstead", 0), 0U) << ran.err;
  EXPECT_EQ(ran.err.find('\n'), ran.err.size() - 1) << "more than one line: " << ran.err;
  EXPECT_EQ(ran.err.substr(ran.err.size() - 2), ".\n") << ran.err;
}

INSTANTIATE_TEST_SUITE_P(
    CommandLines, WrongUse,
    ::testing::Values(
        Wrong{{}, 2, "subcommand"}, Wrong{{"grow"}, 2, "grow"},
        Wrong{{"demo", "--to", "x"}, 2, "--to"}, Wrong{{"new"}, 2, "FILE"},
        Wrong{{"new", "x.gpkg"}, 2, "--crs"},
        Wrong{{"new", "x.gpkg", "--crs", "EPSG:32632", "--units", "cubits"}, 2, "cubits"},
        Wrong{{"new", "/nowhere/x.gpkg", "--crs", "EPSG:4326"}, 2, "EPSG:4326"},
        Wrong{{"new", "/nowhere/x.gpkg", "--crs", "EPSG:3857"}, 2, "EPSG:3857"},
        Wrong{{"new", "/nowhere/x.gpkg", "--crs", "EPSG:1"}, 2, "EPSG:1"},
        Wrong{
            {"new", "/nowhere/x.gpkg", "--crs", "EPSG:32632", "--rules", "no-such"}, 2, "no-such"},
        Wrong{{"new", "/nowhere/x.gpkg", "--crs", "EPSG:32632"}, 3, "/nowhere/x.gpkg"},
        Wrong{{"add", "x.gpkg"}, 2, "SOURCE"},
        Wrong{{"add", "x.gpkg", "y.csv", "--as", "clouds"}, 2, "clouds"},
        Wrong{{"add", "x.gpkg", "y.csv", "--length-unit", "cubit"}, 2, "cubit"},
        Wrong{{"add", "/nowhere/x.gpkg", "y.csv"}, 3, "/nowhere/x.gpkg"}, Wrong{{"set"}, 2, "FILE"},
        Wrong{{"set", "/nowhere/x.gpkg", "title=x"}, 3, "/nowhere/x.gpkg"},
        Wrong{{"check"}, 2, "FILE"}, Wrong{{"check", "/nowhere/x.gpkg"}, 3, "/nowhere/x.gpkg"},
        Wrong{{"assess", "/nowhere/x.gpkg"}, 3, "/nowhere/x.gpkg"},
        Wrong{{"assess", "x.gpkg", "--draws", "0"}, 2, "--draws"},
        Wrong{{"assess", "x.gpkg", "--seed", "-4"}, 2, "--seed"},
        Wrong{{"assess", "x.gpkg", "--seed", "oak"}, 2, "--seed"},
        Wrong{{"why", "x.gpkg"}, 2, "TREE"},
        Wrong{{"why", "/nowhere/x.gpkg", "T1"}, 3, "/nowhere/x.gpkg"},
        Wrong{{"report", "x.gpkg"}, 2, "--out"},
        Wrong{{"report", "x.gpkg", "--out", "x.pdf", "--sheet", "a9"}, 2, "a9"},
        Wrong{{"report", "x.gpkg", "--out", "x.pdf", "--scale", "big"}, 2, "1:200"},
        Wrong{{"report", "x.gpkg", "--out", "x.pdf", "--scale", "1:0"}, 2, "1:200"},
        Wrong{{"report", "/nowhere/x.gpkg", "--out", "x.pdf"}, 3, "/nowhere/x.gpkg"},
        Wrong{{"export", "x.gpkg"}, 2, "--out"},
        Wrong{{"export", "/nowhere/x.gpkg", "--out", "x.dxf"}, 3, "/nowhere/x.gpkg"},
        Wrong{{"rule"}, 2, "subcommand"}, Wrong{{"rule", "bend"}, 2, "bend"},
        Wrong{{"rule", "show"}, 2, "ID"}, Wrong{{"rule", "show", "no-such"}, 2, "no-such"},
        Wrong{{"rule", "check", "/nowhere/x.toml"}, 3, "/nowhere/x.toml"},
        Wrong{{"figure"}, 2, "--list"}, Wrong{{"figure", "no-such.zone"}, 2, "no-such.zone"},
        Wrong{{"figure", "bs5837-2012.zone", "500mm"}, 2, "stem=500mm"},
        Wrong{{"figure", "bs5837-2012.zone", "=500mm"}, 2, "key"},
        Wrong{{"figure", "bs5837-2012.zone", "stem=500"}, 2, "stem"},
        Wrong{{"figure", "bs5837-2012.zone", "stem=500furlong"}, 2, "furlong"},
        Wrong{{"figure", "bs5837-2012.zone", "trunk=500mm"}, 2, "trunk"}));

}  // namespace
}  // namespace rootstead::test
