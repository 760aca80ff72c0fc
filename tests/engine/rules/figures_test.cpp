#include "engine/rules/figures.hpp"

#include <gtest/gtest.h>

#include <set>

#include "tests/engine/rules/rule_builder.hpp"

namespace rootstead {
namespace {

Tables one_rule() {
  ZoneDefinition root_zone =
      test::zone_of({test::term(ZoneTerm::Kind::stem_multiple, 12)}, "root-zone");
  root_zone.at_most = test::metres(15);
  ZoneDefinition trench = test::zone_of({test::term(ZoneTerm::Kind::fixed, 1, 1)}, "trench");
  trench.centre = ZoneCentre::bark;
  ZoneDefinition crown = test::zone_of({test::term(ZoneTerm::Kind::crown_outline)}, "crown");
  Tables tables;
  tables.rules = {test::rule_of({root_zone, trench, crown})};
  LimitDefinition limit;
  limit.id = "paving";
  limit.zone = "root-zone";
  limit.measure = LimitDefinition::Measure::unsurfaced_share;
  limit.threshold = 0.2;
  limit.triggers = "too much paving";
  tables.rules[0].limits = {limit};
  return tables;
}

std::string sentence(std::string_view name, const FigureArguments& arguments) {
  const auto figures = rule_figure(one_rule(), name, arguments);
  return figures ? "" : figures.error().sentence();
}

TEST(FigureKinds, AreSortedUniqueAndAllHaveInputs) {
  std::set<std::string> names;
  std::string last;
  for (const FigureKind& kind : rule_figure_kinds(one_rule())) {
    EXPECT_LT(last, kind.name);
    last = kind.name;
    EXPECT_FALSE(kind.inputs.empty()) << kind.name;
    EXPECT_FALSE(kind.meaning.empty()) << kind.name;
    names.insert(kind.name);
  }
  for (const char* name : {"rule.zone", "rule.root-zone", "rule.root-zone.radius",
                           "rule.root-zone.area", "rule.trench.radius-from-bark", "rule.paving",
                           "diameter.root-sum-square", "straight-cut.share", "equal-area-radius"}) {
    EXPECT_TRUE(names.contains(name)) << name;
  }
}

TEST(Figure, GivesRadiusAndAreaOfOneZone) {
  const auto figures = rule_figure(one_rule(), "rule.root-zone", {{"stem", "500mm"}});
  ASSERT_TRUE(figures.ok());
  ASSERT_EQ(figures->size(), 2u);
  EXPECT_EQ((*figures)[0].name, "rule.root-zone.radius");
  EXPECT_NEAR((*figures)[0].value, 6, 1e-12);
  EXPECT_EQ((*figures)[1].unit, "m2");
  EXPECT_NEAR((*figures)[1].value, 113.0973355, 1e-6);
}

TEST(Figure, TakesSeveralStemsEitherWay) {
  const auto listed = rule_figure(one_rule(), "rule.root-zone.radius", {{"stem", "300mm,400mm"}});
  const auto repeated =
      rule_figure(one_rule(), "rule.root-zone.radius", {{"stem", "300mm"}, {"stem", "400mm"}});
  ASSERT_TRUE(listed.ok() && repeated.ok());
  EXPECT_EQ(listed->front().value, repeated->front().value);
  EXPECT_NEAR(listed->front().value, 6, 1e-12);
}

TEST(Figure, GivesWhatALimitAllows) {
  const auto figures =
      rule_figure(one_rule(), "rule.paving", {{"area", "113.097m2"}, {"surfaced", "30m2"}});
  ASSERT_TRUE(figures.ok());
  EXPECT_NEAR(figures->front().value, 16.6194, 5e-5);
}

TEST(Figure, SaysThatThereIsNoneOfThatName) {
  EXPECT_EQ(sentence("rule.zoen", {}),
            "figure: there is no figure \"rule.zoen\"; list them with `rootstead figure --list`.");
}

TEST(Figure, NamesTheNearestInputThatIsKnown) {
  EXPECT_EQ(sentence("rule.root-zone", {{"steem", "500mm"}}),
            "rule.root-zone: there is no input \"steem\" here; perhaps \"stem\" is meant.");
}

TEST(Figure, AsksForAUnit) {
  const auto figures = rule_figure(one_rule(), "rule.root-zone", {{"stem", "500"}});
  ASSERT_FALSE(figures.ok());
  EXPECT_EQ(figures.error().code, Code::unit_missing);
  EXPECT_EQ(sentence("rule.root-zone", {{"stem", "300,400mm"}}),
            "rule.root-zone: stem=300 has no unit; write the unit with the number, e.g. stem=1.5m "
            "or stem=20in.");
}

TEST(Figure, AsksForWhatIsMissing) {
  EXPECT_EQ(sentence("rule.root-zone", {}),
            "rule.root-zone: there is no stem diameter above zero; add it, e.g. stem=500mm.");
  EXPECT_EQ(sentence("rule.zone", {{"stem", "500mm"}}),
            "rule.zone: the crown spread is missing; add it, e.g. crown=4m.");
  EXPECT_EQ(sentence("straight-cut.share", {{"radius", "6m"}}),
            "straight-cut.share: distance is missing; add it, e.g. distance=6m.");
}

TEST(Figure, RefusesAPalmUnderAStemRule) {
  const auto figures =
      rule_figure(one_rule(), "rule.root-zone", {{"stem", "300mm"}, {"form", "palm"}});
  ASSERT_FALSE(figures.ok());
  EXPECT_EQ(figures.error().code, Code::outside_rule_domain);
}

struct BadInput {
  const char* key;
  const char* text;
};
class FigureBadInput : public ::testing::TestWithParam<BadInput> {};

TEST_P(FigureBadInput, IsOneSentence) {
  const auto [key, text] = GetParam();
  const std::string told = sentence("rule.zone", {{key, text}, {"crown", "4m"}});
  EXPECT_NE(told.find(key), std::string::npos) << told;
  EXPECT_EQ(told.find('\n'), std::string::npos);
  EXPECT_TRUE(told.ends_with('.')) << told;
}

INSTANTIATE_TEST_SUITE_P(Values, FigureBadInput,
                         ::testing::Values(BadInput{"stem", "thick"}, BadInput{"stem", "-3cm"},
                                           BadInput{"stem", "5 parsecs"}, BadInput{"girth", "1.5"},
                                           BadInput{"crown_n", "wide"}, BadInput{"form", "shrubby"},
                                           BadInput{"age", "12"}));

}  // namespace
}  // namespace rootstead
