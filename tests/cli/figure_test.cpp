// figure: published values by hand, as a person would type them.
#include <gtest/gtest.h>

#include "tests/cli/command_line.hpp"

namespace rootstead::test {
namespace {

// The figure of this name in what was printed: the object itself, or one of an array.
nlohmann::json named(const nlohmann::json& printed, const std::string& name) {
  if (!printed.is_array()) return printed;
  for (const auto& figure : printed) {
    if (figure.value("figure", "").find(name) != std::string::npos) return figure;
  }
  return {};
}

struct Example {
  std::vector<std::string> arguments;
  std::string figure;  // part of its name
  double value;        // metres
  double within;
};

class PublishedFigure : public ::testing::TestWithParam<Example> {};

TEST_P(PublishedFigure, IsGivenWithItsTrail) {
  std::vector<std::string> arguments = GetParam().arguments;
  arguments.insert(arguments.begin(), "figure");
  arguments.emplace_back("--json");
  const Ran ran = run(arguments);
  ASSERT_EQ(ran.exit, 0) << ran.err;
  const nlohmann::json figure = named(ran.json(), GetParam().figure);
  ASSERT_TRUE(figure.is_object()) << ran.out;
  EXPECT_NEAR(figure.at("value").get<double>(), GetParam().value, GetParam().within) << ran.out;
  EXPECT_EQ(figure.value("unit", ""), "m");
  EXPECT_TRUE(figure.contains("inputs") && figure["inputs"].is_object());
  EXPECT_NE(figure.value("formula", ""), "");
  EXPECT_NE(figure.value("source", ""), "");
  EXPECT_NE(figure.value("status", ""), "");
}

// 12 D and its cap: BS 5837:2012 Table D.1 (rows for 300, 500 and 1000 mm as reported by others,
// 1250 mm is the cap); equal stems by root-sum-square. AS 4970-2009: 12 D from 2 to 15 m, and the
// structural zone 0.64 (50 D)^0.42 for D at the buttress.
INSTANTIATE_TEST_SUITE_P(
    ByHand, PublishedFigure,
    ::testing::Values(
        Example{{"bs5837-2012.zone", "stem=300mm"}, "root-protection-area", 3.60, 1e-9},
        Example{{"bs5837-2012.zone", "stem=500mm"}, "root-protection-area", 6.00, 1e-9},
        Example{{"bs5837-2012.zone", "stem=50cm"}, "root-protection-area", 6.00, 1e-9},
        Example{{"bs5837-2012.zone", "stem=1000mm"}, "root-protection-area", 12.00, 1e-9},
        Example{{"bs5837-2012.zone", "stem=1250mm"}, "root-protection-area", 15.00, 1e-9},
        Example{{"bs5837-2012.zone", "stem=2000mm"}, "root-protection-area", 15.00, 1e-9},
        Example{{"as4970-2009.zone", "stem=0.32m", "basal=0.5m"}, "tree-protection", 3.84, 1e-9},
        Example{{"as4970-2009.zone", "stem=1.6m", "basal=1.8m"}, "tree-protection", 15.0, 1e-9},
        Example{{"as4970-2009.zone", "stem=0.4m", "basal=0.5m"}, "structural", 2.4735, 5e-5},
        Example{{"as4970-2009.zone", "stem=0.9m", "basal=1.0m"}, "structural", 3.3094, 5e-5}));

TEST(FigureCommand, PrintsValueFormulaInputSourceAndStatus) {
  const Ran ran = run({"figure", "bs5837-2012.zone", "stem=500mm"});
  ASSERT_EQ(ran.exit, 0) << ran.err;
  for (const char* part : {"6.00 m", "500 mm", "12", "BS 5837", "[published]"}) {
    EXPECT_NE(ran.out.find(part), std::string::npos) << part << " in " << ran.out;
  }
}

bool is_whole_rule(const std::string& figure) {
  return figure.ends_with(".zone");
}

// Alternatives to another input, and the growth form, which is broadleaf if not given.
bool is_optional(const nlohmann::json& input) {
  const std::string meaning = input.at("meaning");
  return meaning.find("in place of") != std::string::npos || input.at("key") == "form";
}

TEST(FigureCommand, ListsEveryFigureWithExamplesThatWork) {
  const Ran list = run({"figure", "--list", "--json"});
  ASSERT_EQ(list.exit, 0) << list.err;
  const nlohmann::json kinds = list.json();
  ASSERT_TRUE(kinds.is_array());
  EXPECT_GE(kinds.size(), 20U);
  for (const auto& kind : kinds) {
    if (!is_whole_rule(kind.at("figure"))) continue;  // the others are its parts
    std::vector<std::string> arguments{"figure", kind.at("figure")};
    for (const auto& input : kind.at("inputs")) {
      if (is_optional(input)) continue;
      arguments.push_back(input.at("key").get<std::string>() + "=" +
                          input.at("example").get<std::string>());
    }
    const Ran ran = run(arguments);
    EXPECT_EQ(ran.exit, 0) << kind.dump() << '\n' << ran.err;
  }
}

TEST(FigureCommand, RefusesAPalmUnderAStemDiameterRule) {
  const Ran ran = run({"figure", "bs5837-2012.zone", "stem=500mm", "form=palm"});
  EXPECT_NE(ran.exit, 0);
  EXPECT_EQ(ran.out, "");
}

}  // namespace
}  // namespace rootstead::test
