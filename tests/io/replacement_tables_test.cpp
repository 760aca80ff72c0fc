// Rules of replacement and the submittal table: shipped, and a user's own.
#include <gtest/gtest.h>

#include <fstream>

#include "io/replacement_reader.hpp"
#include "io/tables.hpp"
#include "tests/support/temp_folder.hpp"

namespace rootstead::io {
namespace {

constexpr const char* kTown = R"(id = "my-town"
title = "My town, trees to be planted"
measured_at = "4.5 ft"
source = "my-code"
status = "published"
sources = [{ id = "my-code", title = "My town, municipal code 12.3" }]

[[planting]]
kind = "by class of diameter"
gives = "trees"
rows = [{ up_to = "10 in", value = 1 }, { up_to = "30 in", value = 3 }]
at_least = "6 in"

[[planting]]
kind = "number"
factor = 2
for = { forms = ["palm"] }
clear_trunk = "8 ft"

[allowance]
share = "30 %"
order = [{ name = "softwood first", for = { forms = ["conifer"] } }]

[[fee]]
kind = "table"
currency = "USD"
rows = [{ diameter = "20 in", owed = "30 in", fee = 3900 }]
pattern_per_inch = 130

[guarantee]
basis = "planting cost"
least = "110 %"
most = "130 %"
stage = [{ share = "50 %", months = 36, condition = "after a review" }]
)";

std::string with(const std::string& from, const std::string& to) {
  std::string text = kTown;
  const auto at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return text.replace(at, from.size(), to);
}

class OwnReplacement : public ::testing::Test {
 protected:
  void write(const std::string& name, const std::string& text) {
    const auto file = folder_ / name;
    std::filesystem::create_directories(file.parent_path());
    std::ofstream(file) << text;
  }
  test::TempFolder folder_;
};

TEST(ReplacementRules, AreShippedWithSourcesAndWithoutFaults) {
  const auto tables = load_tables();
  ASSERT_TRUE(tables.ok()) << tables.error().sentence();
  EXPECT_GE(tables->replacement_rules.size(), 15u);
  ASSERT_NE(tables->replacement_rule("alachua-county-fl"), nullptr);
  EXPECT_EQ(tables->replacement_rule("alachua-county-fl")->fees[0].rows[0].fee, 19910);
  EXPECT_EQ(tables->replacement_rule("no-such-town"), nullptr);
}

TEST(ReplacementRules, AreReadPartByPart) {
  const auto reading = read_replacement_rule(kTown, "town.toml");
  for (const Error& mistake : reading.mistakes) ADD_FAILURE() << mistake.sentence();
  const ReplacementRule& rule = reading.rule;
  ASSERT_EQ(rule.terms.size(), 2u);
  EXPECT_EQ(rule.terms[0].rows[1].value, 3);
  EXPECT_EQ(rule.terms[0].from.source, "my-code");
  EXPECT_EQ(rule.terms[1].applies.forms, (std::vector<GrowthForm>{GrowthForm::palm}));
  EXPECT_EQ(rule.allowance->share, 0.3);
  EXPECT_EQ(rule.allowance->order[0].name, "softwood first");
  EXPECT_EQ(rule.fees[0].pattern_per_inch, 130);
  EXPECT_EQ(rule.guarantee->most_share, 1.3);
  EXPECT_EQ(rule.guarantee->stages[0].months, 36);
}

TEST(ReplacementRules, SayWhatIsWrongAndWhere) {
  const auto sentence = [](const std::string& text) {
    const auto reading = read_replacement_rule(text, "town.toml");
    return reading.mistakes.empty() ? "" : reading.mistakes[0].sentence();
  };
  EXPECT_NE(sentence(with("kind = \"number\"", "kind = \"nunber\"")).find("number"),
            std::string::npos);
  EXPECT_NE(sentence(with("factor = 2", "faktor = 2")).find("factor"), std::string::npos);
  EXPECT_NE(sentence(with("\"10 in\"", "10")).find("unit"), std::string::npos);
  EXPECT_NE(sentence(with("status = \"published\"", "")).find("status"), std::string::npos);
  EXPECT_NE(sentence(with("\"my-code\"\n", "\"my-cod\"\n")).find("my-code"), std::string::npos);
  EXPECT_NE(sentence("[").find("town.toml line 1"), std::string::npos);
}

TEST_F(OwnReplacement, IsAddedOrStandsInForAShippedRule) {
  write("replacement/town.toml", kTown);
  write("replacement/inch.toml", with("id = \"my-town\"", "id = \"inch-for-inch\""));
  const auto tables = load_tables(folder_.path());
  ASSERT_TRUE(tables.ok()) << tables.error().sentence();
  ASSERT_NE(tables->replacement_rule("my-town"), nullptr);
  const ReplacementRule* inch = tables->replacement_rule("inch-for-inch");
  ASSERT_FALSE(inch->notes.empty());
  EXPECT_NE(inch->notes.back().find("in place of the shipped rule"), std::string::npos);
  EXPECT_EQ(tables->replacement_rules.size(), load_tables()->replacement_rules.size() + 1);
}

TEST_F(OwnReplacement, IsRefusedWhereItsRowsDoNotRise) {
  write("replacement/town.toml", with("\"30 in\"", "\"8 in\""));
  const auto tables = load_tables(folder_.path());
  ASSERT_FALSE(tables.ok());
  EXPECT_NE(tables.error().sentence().find("do not rise"), std::string::npos)
      << tables.error().sentence();
}

TEST_F(OwnReplacement, MayChangeALineOfTheSubmittal) {
  write("submittal.csv", "id,item\nA4,girth at the height our town asks for\n");
  const auto tables = load_tables(folder_.path());
  ASSERT_TRUE(tables.ok()) << tables.error().sentence();
  ASSERT_EQ(tables->submittal_items.size(), 149u);
  EXPECT_EQ(tables->submittal_items[3].item, "girth at the height our town asks for");
  EXPECT_EQ(tables->submittal_items[3].check, "stem-diameters");
}

TEST_F(OwnReplacement, MayNotNameAnUnknownSourceInTheSubmittal) {
  write("submittal.csv", "id,sources\nA4,no-such-source\n");
  EXPECT_FALSE(load_tables(folder_.path()).ok());
}

}  // namespace
}  // namespace rootstead::io
