// Every figure by hand answers its own example, says where it comes from, and refuses nonsense.
#include "engine/water/water_figures.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "tests/support/shipped_tables.hpp"

namespace rootstead {
namespace {

const Tables& tables() {
  static const Tables shipped = test::shipped_tables();
  return shipped;
}

Result<std::vector<Figure>> asked(std::string_view name, const FigureArguments& arguments) {
  for (const HandFigure& one : water_figures(tables()))
    if (one.kind.name == name) return answer(one, arguments);
  return Error{Code::unknown_name, std::string(name), "there is none", ""};
}

TEST(WaterFigures, AnswerTheirOwnExamples) {
  std::set<std::string> names;
  for (const HandFigure& one : water_figures(tables())) {
    EXPECT_TRUE(names.insert(one.kind.name).second) << one.kind.name;
    EXPECT_TRUE(one.kind.name.starts_with("water.")) << one.kind.name;
    FigureArguments arguments;
    for (const FigureInput& input : one.kind.inputs)
      arguments.emplace_back(input.symbol, input.value);
    const auto figures = answer(one, arguments);
    ASSERT_TRUE(figures.ok()) << figures.error().sentence();
    ASSERT_FALSE(figures->empty()) << one.kind.name;
    for (const Figure& figure : *figures) {
      EXPECT_TRUE(std::isfinite(figure.value)) << figure.name;
      EXPECT_FALSE(figure.formula.empty()) << figure.name;
      EXPECT_NE(tables().source(figure.from.source), nullptr) << figure.name;
    }
  }
}

TEST(WaterFigures, GiveTheReservoirOfTheWorkedCase) {
  const auto figures = asked("water.reservoir", {{"available", "2in/ft"},
                                                 {"depth", "1.5ft"},
                                                 {"radius", "10ft"},
                                                 {"lost", "35%"},
                                                 {"depletion", "0.5"},
                                                 {"demand", "29.38gal"}});
  ASSERT_TRUE(figures.ok()) << figures.error().sentence();
  EXPECT_NEAR(figures->back().value, 6.5, 0.005);
}

TEST(WaterFigures, RefusePalmsByTheInch) {
  for (const char* name : {"water.per-calliper", "water.stem-week"}) {
    const auto figures = asked(name, {{"stem", "300mm"}, {"form", "palm"}});
    ASSERT_FALSE(figures.ok()) << name;
    EXPECT_EQ(figures.error().code, Code::outside_rule_domain);
  }
}

TEST(WaterFigures, RefuseWhatIsNone) {
  const auto refuses = [](std::string_view name, const FigureArguments& arguments) {
    const auto figures = asked(name, arguments);
    return !figures.ok() && figures.error().code != Code::unknown_name;
  };
  EXPECT_TRUE(refuses("water.sun", {{"day", "400"}, {"latitude", "10deg"}}));
  EXPECT_TRUE(refuses("water.sun", {{"day", "1e300"}, {"latitude", "10deg"}}));
  EXPECT_TRUE(refuses("water.sun", {{"day", "4"}, {"latitude", "100deg"}}));
  EXPECT_TRUE(refuses("water.wind", {{"speed", "3m/s"}, {"height", "0m"}}));
  EXPECT_TRUE(
      refuses("water.reservoir",
              {{"available", "2in/ft"}, {"depth", "1m"}, {"radius", "3m"}, {"lost", "140%"}}));
  EXPECT_TRUE(refuses("water.total-available",
                      {{"field-capacity", "10%"}, {"wilting", "20%"}, {"depth", "1m"}}));
  EXPECT_TRUE(refuses(
      "water.crown-demand",
      {{"reference", "4mm/day"}, {"coefficient", "0.5"}, {"crown", "6m"}, {"efficiency", "0"}}));
  EXPECT_FALSE(asked("water.available", {{"texture", "peat"}}).ok());
  EXPECT_FALSE(asked("water.crop", {{"name", "oaks"}}).ok());
}

}  // namespace
}  // namespace rootstead
