// Figures by hand, of all rooms together.
#include "engine/figures/figures.hpp"

#include <cmath>
#include <set>

#include "engine/rules/figures.hpp"
#include "tests/support/shipped_tables.hpp"

namespace rootstead {
namespace {

const Tables& tables() {
  static const Tables shipped = test::shipped_tables();
  return shipped;
}

TEST(Figures, AreSortedAndHaveOneNameEach) {
  std::string last;
  for (const FigureKind& kind : figure_kinds(tables())) {
    EXPECT_LT(last, kind.name);
    last = kind.name;
    EXPECT_FALSE(kind.meaning.empty()) << kind.name;
  }
}

TEST(Figures, OfSpeciesAreThoseOfTheTables) {
  const auto wood = figure(tables(), "species.wood-density", {{"species", "Quercus virginiana"}});
  ASSERT_TRUE(wood.ok()) << wood.error().sentence();
  EXPECT_DOUBLE_EQ(wood->front().value, 0.82);  // Global Wood Density Database
  const auto wet = figure(tables(), "species.wet-soil", {{"species", "Taxodium distichum"}});
  ASSERT_TRUE(wet.ok()) << wet.error().sentence();
  EXPECT_EQ(wet->front().word, "very tolerant");
  EXPECT_EQ(wet->front().value, 4);
  const auto intolerant = figure(tables(), "species.wet-soil", {{"species", "Quercus alba"}});
  EXPECT_EQ(intolerant->front().value, 0);
  const auto unknown = figure(tables(), "species.wet-soil", {{"species", "Tilia cordata"}});
  ASSERT_FALSE(unknown.ok());
  EXPECT_NE(unknown.error().sentence().find("Tilia cordata"), std::string::npos);
}

// The examples that a list shows must work as they stand, and tell where the answer comes from.
TEST(Figures, OfEveryRoomAnswerTheirOwnExamples) {
  std::set<std::string> of_rules;
  for (const FigureKind& kind : rule_figure_kinds(tables())) of_rules.insert(kind.name);
  std::size_t asked = 0;
  for (const FigureKind& kind : figure_kinds(tables())) {
    if (of_rules.contains(kind.name)) continue;
    FigureArguments arguments;
    for (const FigureInput& input : kind.inputs) {
      const bool other_way = kind.name == "soil.oxygen" && input.symbol == "scale";  // or rooting
      if (!other_way) arguments.emplace_back(input.symbol, input.value);
    }
    const auto figures = figure(tables(), kind.name, arguments);
    ++asked;
    if (!figures.ok()) {
      ADD_FAILURE() << figures.error().sentence();
      continue;
    }
    for (const Figure& one : *figures) {
      EXPECT_TRUE(std::isfinite(one.value)) << one.name;
      EXPECT_FALSE(one.formula.empty()) << one.name;
      EXPECT_NE(tables().source(one.from.source), nullptr) << one.name << ": " << one.from.source;
    }
  }
  EXPECT_GT(asked, 50U);
}

TEST(Figures, NameTheNearestThatIsKnown) {
  const auto none = figure(tables(), "soil.boussinseq", {});
  ASSERT_FALSE(none.ok());
  EXPECT_NE(none.error().sentence().find("perhaps \"soil.boussinesq\" is meant"), std::string::npos)
      << none.error().sentence();
}

TEST(HandValues, SayWhatIsWrongInOneSentence) {
  const auto sentence = [](const FigureArguments& arguments) {
    const auto figures = figure(tables(), "soil.boussinesq", arguments);
    return figures.ok() ? std::string() : figures.error().sentence();
  };
  EXPECT_NE(sentence({{"load", "10"}, {"depth", "0.5m"}}).find("has no unit"), std::string::npos);
  EXPECT_NE(sentence({{"load", "10m"}, {"depth", "0.5m"}}).find("in no unit of force"),
            std::string::npos);
  EXPECT_NE(sentence({{"load", "10kN"}}).find("is missing"), std::string::npos);
  EXPECT_NE(sentence({{"load", "10kN"}, {"depth", "0.5m"}, {"colour", "red"}}).find("no input"),
            std::string::npos);
  EXPECT_NE(sentence({{"load", "10kN"}, {"load", "9kN"}}).find("given twice"), std::string::npos);
}

}  // namespace
}  // namespace rootstead
