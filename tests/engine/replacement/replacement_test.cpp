// What removed trees owe: published rules by their printed figures, invented rules for the parts
// that no shipped rule has, and what must hold of any rule.
#include "engine/replacement/replacement.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>

#include "engine/figures/figures.hpp"
#include "tests/support/loaded_tables.hpp"
#include "tests/support/site_builder.hpp"

namespace rootstead {
namespace {

using test::loaded_tables;
using test::SiteBuilder;

constexpr double kInch = 0.0254;

// Trees of these diameters in inches, all wanted away.
Site removed_site(const std::vector<double>& inches) {
  SiteBuilder builder;
  for (std::size_t i = 0; i < inches.size(); ++i)
    builder.tree("T" + std::to_string(i + 1), {10.0 * static_cast<double>(i), 0}, inches[i] * kInch)
        .with_tree([&](Tree& tree) { tree.intent = Intent::remove; });
  return builder;
}

RuleReplacement under(const Site& site, const std::string& rule, const Assessment& assessment = {},
                      const Tables& tables = loaded_tables()) {
  const auto advice = replacement_for(site, tables, assessment, {rule});
  EXPECT_EQ(advice.rules.size(), 1u) << rule;
  return advice.rules.empty() ? RuleReplacement{} : advice.rules.front();
}

double inches(const std::optional<Length>& length) {
  return length ? length->metres() / kInch : -1;
}

bool says(const std::vector<Note>& notes, NoteCode code) {
  return std::any_of(notes.begin(), notes.end(),
                     [&](const Note& note) { return note.code == code; });
}

// The printed row of 56 in: 107 in owed, 19,910 USD; 130 USD an inch would be 13,910.
TEST(Replacement, UsesAPrintedFeeThatBreaksItsPatternAndSaysSo) {
  const auto result = under(removed_site({56}), "alachua-county-fl");
  ASSERT_TRUE(result.wanted.fee);
  EXPECT_EQ(*result.wanted.fee, (Money{19910, "USD"}));
  EXPECT_NEAR(inches(result.wanted.diameter_owed), 107, 1e-9);
  ASSERT_EQ(result.anomalies.size(), 1u);
  EXPECT_EQ(result.anomalies[0].printed, 19910);
  EXPECT_NEAR(result.anomalies[0].pattern, 13910, 1e-6);
  EXPECT_NE(result.anomalies[0].sentence().find("19910"), std::string::npos);
  EXPECT_NE(result.anomalies[0].sentence().find("13910"), std::string::npos);
  EXPECT_TRUE(says(result.notes, NoteCode::table_row_odd));
}

TEST(Replacement, RefusesARowThatOurCopyOfATableLacks) {
  const auto result = under(removed_site({30}), "alachua-county-fl");
  ASSERT_TRUE(result.trees[0].refused);
  EXPECT_FALSE(result.wanted.fee);
  EXPECT_FALSE(result.wanted.complete());
  EXPECT_TRUE(says(result.notes, NoteCode::total_is_a_least));
}

TEST(Replacement, OwesInchForInchAndFiveQuarters) {
  const Site site = removed_site({10, 14});
  EXPECT_NEAR(inches(under(site, "inch-for-inch").wanted.diameter_owed), 24, 1e-9);
  EXPECT_NEAR(inches(under(site, "five-quarters").wanted.diameter_owed), 30, 1e-9);
}

TEST(Replacement, OwesANumberOfTrees) {
  const Site site = removed_site({10, 14});
  EXPECT_EQ(under(site, "pleasanton-ca").wanted.trees_owed, 12);
  EXPECT_EQ(under(site, "canterbury-bankstown").wanted.trees_owed, 6);
}

TEST(Replacement, OwesByTheClassThatAPersonEntered) {
  Site site = removed_site({10, 10, 10});
  site.trees[0].category = "Two for one";
  site.trees[1].category = "half for one";
  const auto result = under(site, "class-ratios");
  EXPECT_EQ(result.wanted.trees_owed, 3);  // 2.5 trees, rounded up
  EXPECT_EQ(result.wanted.left_out, (std::vector<std::string>{"T3"}));
}

TEST(Replacement, TakesTreesByTheSumOfDiameters) {
  EXPECT_EQ(under(removed_site({10, 8}), "miami-fl").wanted.trees_owed, 6);  // 18 in is the bound
  EXPECT_EQ(under(removed_site({10, 8.5}), "miami-fl").wanted.trees_owed, 8);
  const auto above = under(removed_site({40, 30}), "miami-fl");
  EXPECT_FALSE(above.wanted.trees_owed);
  EXPECT_TRUE(says(above.notes, NoteCode::outside_rule_domain));
}

// 30 % of all surveyed: 100 in surveyed, 50 in removed, 30 in free.
TEST(Replacement, LetsTheAllowanceGoFree) {
  Site site = removed_site({20, 30, 50});
  site.trees[2].intent = Intent::keep;
  const auto result = under(site, "lake-elmo-mn");
  EXPECT_NEAR(inches(result.wanted.allowed), 30, 1e-9);
  EXPECT_NEAR(inches(result.wanted.free), 30, 1e-9);
  EXPECT_NEAR(inches(result.wanted.removed), 50, 1e-9);
  site.trees[2].ownership = "neighbour";  // no longer in the base
  const auto less = under(site, "lake-elmo-mn");
  EXPECT_NEAR(inches(less.wanted.allowed), 15, 1e-9);
  EXPECT_TRUE(says(less.notes, NoteCode::allowance_base_partial));
}

TEST(Replacement, AddsFeesOfOneDue) {
  // 100 USD a tree and 30 USD an inch, from memory.
  const auto result = under(removed_site({10, 14}), "atlanta-ga");
  ASSERT_TRUE(result.wanted.fee);
  EXPECT_NEAR(result.wanted.fee->amount, 2 * 100 + 24 * 30, 1e-9);
  ASSERT_FALSE(result.figures.empty());
  EXPECT_EQ(result.figures[0].from.status, Status::memory);
}

TEST(Replacement, KeepsRemovalWithoutLeaveApart) {
  const auto result = under(removed_site({10}), "woodway-wa");
  EXPECT_EQ(result.trees[0].trees_without_leave, 3);
  EXPECT_EQ(result.trees[0].fee_without_leave, (Money{1000, "USD"}));
  EXPECT_FALSE(result.wanted.trees_owed);
  EXPECT_FALSE(result.wanted.fee);
}

TEST(Replacement, KeepsWhatIsWantedAndWhatIsAdvisedApart) {
  Site site = removed_site({10, 20, 30});
  site.trees[1].intent = Intent::keep;
  site.trees[2].intent = Intent::keep;
  Assessment assessment;
  assessment.trees.resize(site.trees.size());
  for (std::size_t i = 0; i < 3; ++i) assessment.trees[i].tree = site.trees[i].id;
  assessment.trees[0].verdict.action = Action::remove;
  assessment.trees[1].verdict.action = Action::remove;
  const auto advice = replacement_for(site, loaded_tables(), assessment, {"inch-for-inch"});
  EXPECT_EQ(advice.wanted, (std::vector<std::string>{"T1"}));
  EXPECT_EQ(advice.advised, (std::vector<std::string>{"T2"}));
  const auto& rule = advice.rules[0];
  EXPECT_EQ(rule.trees[0].why, RemovedBecause::wanted_and_advised);
  EXPECT_EQ(rule.trees[1].why, RemovedBecause::advised);
  EXPECT_NEAR(inches(rule.wanted.diameter_owed), 10, 1e-9);
  EXPECT_NEAR(inches(rule.with_advised.diameter_owed), 30, 1e-9);
  ASSERT_EQ(advice.prescriptions.size(), 2u);
  EXPECT_NE(advice.prescriptions[0].text.find("254 mm of stem diameter for T1"), std::string::npos)
      << advice.prescriptions[0].text;
}

TEST(Replacement, PutsRulesSideBySideAndNamesTheUnknown) {
  const auto advice = replacement_for(removed_site({10}), loaded_tables(), {},
                                      {"inch-for-inch", "five-quaters", "five-quarters"});
  ASSERT_EQ(advice.rules.size(), 2u);
  EXPECT_NEAR(inches(advice.rules[0].wanted.diameter_owed), 10, 1e-9);
  EXPECT_NEAR(inches(advice.rules[1].wanted.diameter_owed), 12.5, 1e-9);
  ASSERT_EQ(advice.not_applied.size(), 1u);
  EXPECT_NE(advice.not_applied[0].sentence().find("five-quarters"), std::string::npos);
}

// ---- palms --------------------------------------------------------------------------------------

ReplacementRule own_rule(ReplacementTerm term) {
  ReplacementRule rule;
  rule.id = "own";
  rule.title = "A rule for the test";
  term.from = {"rootstead", "", Status::assumption};
  rule.terms = {std::move(term)};
  return rule;
}

Tables with(ReplacementRule rule) {
  Tables tables;
  tables.replacement_rules = {std::move(rule)};
  return tables;
}

Site one_palm() {
  return SiteBuilder().palm("P1", {0, 0}).with_tree([](Tree& t) { t.intent = Intent::remove; });
}

TEST(ReplacementOfPalms, IsRefusedByEveryShippedRuleOfPlantingOrFees) {
  for (const ReplacementRule& rule : loaded_tables().replacement_rules) {
    if (rule.terms.empty() && rule.terms_without_leave.empty() && rule.fees.empty()) continue;
    const auto result = under(one_palm(), rule.id);
    ASSERT_TRUE(result.trees[0].refused) << rule.id;
    EXPECT_NE(result.trees[0].refused->message.find("palm"), std::string::npos) << rule.id;
    EXPECT_FALSE(result.trees[0].diameter) << rule.id;
    EXPECT_FALSE(result.trees[0].diameter_owed) << rule.id;
  }
}

TEST(ReplacementOfPalms, FollowsThePalmClauseOfTheRule) {
  ReplacementTerm term;
  term.kind = ReplacementTerm::Kind::number;
  term.gives = ReplacementTerm::Gives::trees;
  term.factor = 2;
  term.applies.forms = {GrowthForm::palm};
  term.clear_trunk = EnteredLength{8, LengthUnit::foot};
  const Tables tables = with(own_rule(term));
  Site site = one_palm();
  EXPECT_EQ(under(site, "own", {}, tables).trees[0].refused->code, Code::missing_measurement);
  site.trees[0].clear_trunk = EnteredLength{10, LengthUnit::foot};
  const auto tall = under(site, "own", {}, tables);
  EXPECT_EQ(tall.wanted.trees_owed, 2);
  EXPECT_FALSE(tall.trees[0].diameter);
  site.trees[0].clear_trunk = EnteredLength{6, LengthUnit::foot};
  EXPECT_EQ(under(site, "own", {}, tables).wanted.trees_owed, 0);
}

TEST(ReplacementOfPalms, SaysWhereTheRuleItselfTakesTheirDiameter) {
  ReplacementTerm term;
  term.applies.forms = {GrowthForm::palm};
  const auto result = under(one_palm(), "own", {}, with(own_rule(term)));
  EXPECT_NEAR(result.wanted.diameter_owed->metres(), 0.35, 1e-12);
  EXPECT_TRUE(says(result.trees[0].notes, NoteCode::palm_by_stem_diameter));
}

// ---- guarantees ---------------------------------------------------------------------------------

TEST(Guarantees, AreAShareOfWhatAPersonEnters) {
  ReplacementCosts costs{10000, 250000};
  const auto advice =
      replacement_for(removed_site({10}), loaded_tables(), {},
                      {"georgia-bond", "pleasanton-ca", "palos-heights-il", "edina-mn"}, costs);
  EXPECT_NEAR(advice.rules[0].guarantee->amount->low, 11000, 1e-6);   // 110 %
  EXPECT_NEAR(advice.rules[0].guarantee->amount->high, 13000, 1e-6);  // 130 %
  EXPECT_EQ(advice.rules[1].guarantee->amount->high, 100000);         // up to 100,000 USD
  ASSERT_EQ(advice.rules[1].guarantee->stages.size(), 1u);
  EXPECT_EQ(advice.rules[1].guarantee->stages[0].amount->high, 100000);
  EXPECT_EQ(advice.rules[2].guarantee->amount->high, 10000);
  const auto& edina = *advice.rules[3].guarantee;
  EXPECT_FALSE(edina.amount);
  EXPECT_FALSE(edina.needs.empty());
  ASSERT_EQ(edina.stages.size(), 2u);
  EXPECT_EQ(edina.stages[0].share, 0.5);
  EXPECT_EQ(edina.stages[1].months, 36);
}

TEST(Guarantees, ReadTheCostFromTheSettings) {
  Site site = removed_site({10});
  EXPECT_FALSE(under(site, "georgia-bond").guarantee->amount);
  site.settings.other["planting cost"] = "2000";
  EXPECT_NEAR(under(site, "georgia-bond").guarantee->amount->high, 2600, 1e-9);
}

// ---- tables -------------------------------------------------------------------------------------

ReplacementFee fee_table(std::vector<double> fees) {
  ReplacementFee fee;
  fee.kind = ReplacementFee::Kind::table;
  fee.amount.currency = "USD";
  for (std::size_t i = 0; i < fees.size(); ++i) {
    const double inch = 10.0 * static_cast<double>(i + 1);
    fee.rows.push_back({{inch, LengthUnit::inch}, {inch, LengthUnit::inch}, fees[i], ""});
  }
  return fee;
}

TEST(Anomalies, AreFoundByTheMiddleOfTheTableItself) {
  ReplacementRule rule;
  rule.fees = {fee_table({1300, 2600, 3900, 5200})};
  EXPECT_TRUE(anomalies_of(rule).empty());
  rule.fees = {fee_table({1300, 2600, 9900, 5200})};
  ASSERT_EQ(anomalies_of(rule).size(), 1u);
  EXPECT_NEAR(anomalies_of(rule)[0].pattern, 3900, 1e-9);
}

TEST(Anomalies, AreClassesInWhichAThickerTreeOwesLess) {
  ReplacementTerm term;
  term.kind = ReplacementTerm::Kind::by_class;
  term.gives = ReplacementTerm::Gives::trees;
  term.rows = {{{10, LengthUnit::inch}, "", 2}, {{20, LengthUnit::inch}, "", 1}};
  EXPECT_EQ(anomalies_of(own_rule(term)).size(), 1u);
}

TEST(Coherence, SaysWhatIsWrongWithARule) {
  ReplacementTerm term;
  term.kind = ReplacementTerm::Kind::by_class;
  ReplacementRule rule = own_rule(term);
  const std::vector<Source> sources = {{"rootstead", "", ""}};
  EXPECT_EQ(coherence(rule, sources).size(), 1u);  // no rows
  rule.terms[0].rows = {{{20, LengthUnit::inch}, "", 2}, {{10, LengthUnit::inch}, "", 3}};
  EXPECT_EQ(coherence(rule, sources).size(), 1u);  // do not rise
  std::swap(rule.terms[0].rows[0].up_to, rule.terms[0].rows[1].up_to);
  EXPECT_TRUE(coherence(rule, sources).empty());
  rule.guarantee.emplace().from = rule.terms[0].from;
  rule.guarantee->stages = {{0.6, {}, "a"}, {0.6, {}, "b"}};
  EXPECT_EQ(coherence(rule, sources).size(), 1u);  // more than the whole
  rule.guarantee.reset();
  EXPECT_EQ(coherence(rule, {}).size(), 1u);  // source unknown
}

// ---- properties ---------------------------------------------------------------------------------

std::vector<double> random_inches() {
  std::vector<double> all;
  for (const int tenths : *rc::gen::container<std::vector<int>>(6, rc::gen::inRange(20, 80)))
    all.push_back(tenths / 10.0);
  return all;
}

// An allowance over two classes that owe differently.
Tables allowance_over_classes() {
  ReplacementTerm term;
  term.kind = ReplacementTerm::Kind::by_class;
  term.rows = {{{4, LengthUnit::inch}, "", 0.5}, {{90, LengthUnit::inch}, "", 1.5}};
  ReplacementRule rule = own_rule(term);
  rule.allowance.emplace().share = 0.3;
  rule.allowance->from = rule.terms[0].from;
  return with(rule);
}

RC_GTEST_PROP(ReplacementProperties, MoreRemovedNeverOwesLess, ()) {
  static const Tables own = allowance_over_classes();
  Site site = removed_site(random_inches());
  const auto kept = *rc::gen::inRange<std::size_t>(0, site.trees.size());
  Site fewer = site;
  fewer.trees[kept].intent = Intent::keep;
  for (const char* id : {"inch-for-inch", "pleasanton-ca", "miami-fl", "atlanta-ga"}) {
    const auto more = under(site, id).wanted, less = under(fewer, id).wanted;
    RC_ASSERT(more.diameter_owed.value_or(Length{}) >= less.diameter_owed.value_or(Length{}));
    RC_ASSERT(more.trees_owed.value_or(0) >= less.trees_owed.value_or(0));
    RC_ASSERT(more.fee.value_or(Money{}).amount >= less.fee.value_or(Money{}).amount);
  }
  const auto more = under(site, "own", {}, own).wanted, less = under(fewer, "own", {}, own).wanted;
  constexpr double kRounding = 1e-12;
  RC_ASSERT(more.diameter_owed->metres() >= less.diameter_owed->metres() - kRounding);
}

RC_GTEST_PROP(ReplacementProperties, TheOrderOfTreesDoesNotMatter, ()) {
  static const Tables own = allowance_over_classes();
  Site site = removed_site(random_inches());
  Site turned = site;
  std::reverse(turned.trees.begin(), turned.trees.end());
  const auto a = under(site, "own", {}, own).wanted, b = under(turned, "own", {}, own).wanted;
  RC_ASSERT(a.diameter_owed == b.diameter_owed);
  RC_ASSERT(a.free == b.free);
  RC_ASSERT(a.removed == b.removed);
}

// ---- figures by hand ----------------------------------------------------------------------------

TEST(ReplacementFigures, AreThereForEveryRuleAndAnswerTheirOwnExamples) {
  for (const ReplacementRule& rule : loaded_tables().replacement_rules) {
    const std::string name = "replacement." + rule.id;
    const auto kinds = figure_kinds(loaded_tables());
    const auto kind = std::find_if(kinds.begin(), kinds.end(),
                                   [&](const FigureKind& one) { return one.name == name; });
    ASSERT_NE(kind, kinds.end()) << name;
    FigureArguments arguments;
    for (const FigureInput& input : kind->inputs) arguments.emplace_back(input.symbol, input.value);
    const auto figures = figure(loaded_tables(), name, arguments);
    ASSERT_TRUE(figures.ok()) << figures.error().sentence();
    for (const Figure& one : *figures) {
      EXPECT_FALSE(one.formula.empty()) << one.name;
      EXPECT_FALSE(one.from.source.empty()) << one.name;
    }
  }
}

TEST(ReplacementFigures, ChargeAnInchInNoRowByThePatternAsOurAssumption) {
  const auto fee = figure(loaded_tables(), "replacement.alachua-county-fl", {{"owed", "100in"}});
  ASSERT_TRUE(fee.ok()) << fee.error().sentence();
  EXPECT_NEAR(fee->front().value, 13000, 1e-6);
  EXPECT_EQ(fee->front().from.status, Status::assumption);
  EXPECT_FALSE(figure(loaded_tables(), "replacement.alachua-county-fl", {}).ok());
}

}  // namespace
}  // namespace rootstead
