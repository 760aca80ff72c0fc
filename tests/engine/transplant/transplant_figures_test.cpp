#include "engine/transplant/transplant_figures.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "tests/engine/transplant/transplant_support.hpp"

namespace rootstead {
namespace {

using test::tables;

const std::vector<HandFigure>& figures() {
  static const std::vector<HandFigure> all = transplant_figures(tables());
  return all;
}

Result<std::vector<Figure>> ask(std::string_view name, const FigureArguments& arguments) {
  const auto found = std::find_if(figures().begin(), figures().end(),
                                  [&](const HandFigure& one) { return one.kind.name == name; });
  if (found == figures().end()) return Error{Code::unknown_name, std::string(name), "none", ""};
  return answer(*found, arguments);
}

TEST(TransplantFigures, AnswerTheirOwnExamples) {
  for (const HandFigure& figure : figures()) {
    FigureArguments examples;
    for (const FigureInput& input : figure.kind.inputs)
      examples.emplace_back(input.symbol, input.value);
    const auto answered = answer(figure, examples);
    ASSERT_TRUE(answered.ok()) << figure.kind.name << ": " << answered.error().sentence();
    for (const Figure& one : *answered) {
      EXPECT_NE(tables().source(one.from.source), nullptr) << one.name;
      EXPECT_FALSE(one.formula.empty()) << one.name;
    }
  }
}

TEST(TransplantFigures, RefuseACalliperRuleToPalms) {
  const FigureArguments by_species = {{"calliper", "20in"}, {"species", "Phoenix canariensis"}};
  const FigureArguments by_form = {{"calliper", "20in"}, {"form", "palm"}};
  for (const char* name : {"transplant.ball-diameter", "transplant.ball-diameter-practice"}) {
    for (const FigureArguments& arguments : {by_species, by_form}) {
      const auto refused = ask(name, arguments);
      ASSERT_FALSE(refused.ok()) << name;
      EXPECT_NE(refused.error().sentence().find("does not follow calliper"), std::string::npos);
    }
  }
  // Also where no calliper is given at all.
  const auto bare = ask("transplant.ball-diameter", {{"species", "Phoenix canariensis"}});
  EXPECT_NE(bare.error().sentence().find("does not follow calliper"), std::string::npos);
  FigureArguments recovery = by_form;
  recovery.emplace_back("zone", "9");
  EXPECT_FALSE(ask("transplant.establishment", recovery).ok());
}

TEST(TransplantFigures, SayWhatIsMissingOrWrong) {
  EXPECT_NE(ask("transplant.ball-diameter", {}).error().sentence().find("calliper=3in"),
            std::string::npos);
  EXPECT_EQ(ask("transplant.ball-diameter", {{"calliper", "3in"}, {"table", "mine"}}).error().code,
            Code::unknown_name);
  EXPECT_EQ(ask("transplant.ball-diameter", {{"calliper", "-3in"}}).error().code,
            Code::value_invalid);
  EXPECT_EQ(ask("transplant.ball-diameter", {{"calliper", "12in"}}).error().code,
            Code::outside_rule_domain);
  EXPECT_EQ(ask("transplant.establishment", {{"calliper", "3in"}, {"zone", "8.5"}}).error().code,
            Code::value_invalid);
}

}  // namespace
}  // namespace rootstead
