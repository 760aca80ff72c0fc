// Figures of the user's own, by --rules-dir.
#include <gtest/gtest.h>

#include <algorithm>

#include "tests/cli/command_line.hpp"

namespace rootstead::test {
namespace {

TEST(OwnFigures, ChangeTheAnswerAndAreNamedInTheTrail) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  std::filesystem::create_directories(folder.path() / "mine" / "parameters");
  folder.write("mine/parameters/clay.csv", "id,low,best,high\nroots.radius_limit,5,6,8\n");
  const Ran shipped = run({"why", project, "T1", "roots.extent"});
  const Ran own = run({"why", project, "T1", "roots.extent", "--rules-dir", folder / "mine"});
  ASSERT_EQ(shipped.exit, 0) << shipped.err;
  ASSERT_EQ(own.exit, 0) << own.err;
  EXPECT_NE(own.out, shipped.out);
  EXPECT_EQ(shipped.out.find("your own figure"), std::string::npos);
  EXPECT_NE(own.out.find("6 m (5 to 8); your own figure, "), std::string::npos) << own.out;
  EXPECT_NE(own.out.find("clay.csv row 2, in place of rootstead"), std::string::npos) << own.out;
}

TEST(OwnFigures, ThatAreWrongStopWithOneSentence) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  std::filesystem::create_directories(folder.path() / "mine");
  folder.write("mine/species.csv", "botanical_name,tolerance\nQuercus robur,splendid\n");
  const Ran ran = run({"assess", project, "--rules-dir", folder / "mine"});
  EXPECT_EQ(ran.exit, 3);
  EXPECT_TRUE(ran.out.empty());
  EXPECT_NE(
      ran.err.find("species.csv row 2: \"splendid\" is not known as tolerance; check the word."),
      std::string::npos)
      << ran.err;
  EXPECT_EQ(std::count(ran.err.begin(), ran.err.end(), '\n'), 1);
}

}  // namespace
}  // namespace rootstead::test
