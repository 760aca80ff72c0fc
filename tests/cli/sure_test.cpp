// sure from the command line, on a small project of its own.
#include <gtest/gtest.h>

#include "tests/cli/command_line.hpp"

namespace rootstead::test {
namespace {

TEST(SureCommand, TellsSharesWorthAndCautions) {
  const OwnFolder folder;
  const std::string project = small_project(folder);
  const Ran ran = run({"sure", project, "--draws", "8", "--root-draws", "4", "--json"});
  ASSERT_EQ(ran.exit, 0) << ran.err;
  const auto json = ran.json();
  ASSERT_EQ(json["trees"].size(), 3U);
  EXPECT_TRUE(json["trees"][2]["size_is_height"].get<bool>());  // the palm
  EXPECT_EQ(json["trees"][0]["position_error_m"]["status"], "our assumption");
  double expected = 0;
  for (const auto& tree : json["trees"]) expected += tree["all"]["any"].get<double>() / 8;
  EXPECT_NEAR(json["expected"].get<double>(), expected, 1e-9);
  EXPECT_FALSE(json["cautions"].empty());
  EXPECT_EQ(
      run({"sure", project, "--draws", "8", "--root-draws", "4", "--threads", "1", "--json"}).out,
      ran.out);

  const Ran text = run({"sure", project, "--draws", "8", "--root-draws", "4"});
  ASSERT_EQ(text.exit, 0) << text.err;
  EXPECT_NE(text.out.find("Verdicts expected to be others"), std::string::npos) << text.out;
  EXPECT_NE(text.out.find("Caution: "), std::string::npos);
  EXPECT_EQ(run({"sure", project, "--draws", "0"}).exit, 2);
  EXPECT_EQ(run({"sure", folder / "nothing.gpkg"}).exit, 3);
}

}  // namespace
}  // namespace rootstead::test
