// route, ease and methods from the command line, on a small project of their own.
#include <gtest/gtest.h>

#include <filesystem>

#include "tests/cli/command_line.hpp"

namespace rootstead::test {
namespace {

const std::string work = "W1";  // of the small project

TEST(DesignCommands, RouteTellsDrawnAndOtherWays) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  const Ran ran = run({"route", project, work, "--draws", "8", "--cell", "1m", "--margin", "8m",
                       "--price", "open=100", "--json"});
  ASSERT_EQ(ran.exit, 0) << ran.err;
  const auto json = ran.json();
  EXPECT_EQ(json["prices"]["open"], 100);
  EXPECT_EQ(json["prices"]["own"][0], "open");
  for (const auto& route : json["routes"])
    EXPECT_LE(route["total"].get<double>(), json["drawn"]["total"].get<double>());
  EXPECT_FALSE(json["cautions"].empty());
  EXPECT_EQ(run({"route", project, "nowhere"}).exit, 2);
  EXPECT_EQ(run({"route", project, work, "--price", "open=-3"}).exit, 2);
  EXPECT_EQ(run({"route", project, work, "--radius", "3"}).exit, 2);  // without a unit
}

TEST(DesignCommands, EaseSaysWhatPassesOrWhyNothingDoes) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  const Ran ran = run({"ease", project, work, "--range", "1m", "--most-loss", "0.9", "--health",
                       "material", "--stability", "material", "--draws", "8", "--json"});
  ASSERT_LE(ran.exit, 1) << ran.err;
  const auto json = ran.json();
  EXPECT_EQ(json["work"], work);
  const bool any = json["passes_as_drawn"].get<bool>() ||
                   (!json["changes"].empty() && json["changes"][0]["passes"].get<bool>());
  EXPECT_EQ(ran.exit, any ? 0 : 1);
  EXPECT_EQ(run({"ease", project, "nowhere"}).exit, 2);
}

TEST(DesignCommands, MethodsMakeAPage) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  const Ran ran = run({"methods", project, work, "--draws", "8", "--json"});
  ASSERT_EQ(ran.exit, 0) << ran.err;
  EXPECT_EQ(ran.json()["methods"].size(), 5U);
  ASSERT_EQ(run({"methods", project, work, "--draws", "8", "--out", folder / "m.pdf"}).exit, 0);
  EXPECT_GT(std::filesystem::file_size(folder / "m.pdf"), 2000U);
}

}  // namespace
}  // namespace rootstead::test
