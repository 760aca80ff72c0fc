// The screening of buried flares, the risk of girdling roots and what is done about them.
#include "engine/root_crown/root_crown.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>

#include "engine/root_crown/root_crown_figures.hpp"
#include "tests/support/shipped_tables.hpp"
#include "tests/support/site_builder.hpp"

namespace rootstead {
namespace {

using test::metres;
using test::millimetres;

const Tables& tables() {
  static const Tables shipped = test::shipped_tables();
  return shipped;
}

Tree maple(double diameter = 0.25) {
  Tree tree = test::SiteBuilder().tree("T1", {0, 0}, diameter).site().trees.front();
  tree.botanical_name = "Acer platanoides";
  return tree;
}

RootCrownAdvice advise(const Tree& tree, UnitSystem units = UnitSystem::metric) {
  Site site;
  site.settings.units = units;
  return root_crown_advice(tree, site, tables());
}

const Figure* figure(const RootCrownAdvice& advice, std::string_view name) {
  for (const Figure& one : advice.figures)
    if (one.name == name) return &one;
  return nullptr;
}

bool says(const RootCrownAdvice& advice, std::string_view words) {
  return std::any_of(
      advice.prescriptions.begin(), advice.prescriptions.end(),
      [&](const Prescription& one) { return one.text.find(words) != std::string::npos; });
}

bool notes(const RootCrownAdvice& advice, NoteCode code) {
  return std::any_of(advice.notes.begin(), advice.notes.end(),
                     [&](const Note& note) { return note.code == code; });
}

// Hauer & Johnson 2021: 3.3 % encircled and 1 % girdled per centimetre.
TEST(GirdlingRisk, IsThatOfThePublishedLine) {
  const auto ten = girdling_risk({0.10, 0.10, 0.10}, "Tilia cordata", tables());
  EXPECT_NEAR(ten.encircled.best, 0.33, 1e-12);
  EXPECT_NEAR(ten.girdled.best, 0.10, 1e-12);
  EXPECT_FALSE(ten.beyond_trees);
  const auto fifteen = girdling_risk({0.15, 0.15, 0.15}, "Quercus robur", tables());
  EXPECT_NEAR(fifteen.encircled.best, 0.495, 1e-12);
  EXPECT_NEAR(fifteen.girdled.best, 0.15, 1e-12);
  EXPECT_TRUE(fifteen.beyond_trees);
  EXPECT_EQ(fifteen.figures.front().from.status, Status::published);
}

TEST(GirdlingRisk, StopsAtTheWholeCircumference) {
  const auto deep = girdling_risk({0.2, 0.4, 1.5}, "Acer", tables());
  EXPECT_EQ(deep.encircled.high, 1);
  EXPECT_EQ(deep.encircled.best, 1);
  EXPECT_EQ(deep.girdled.high, 1);
  EXPECT_TRUE(deep.beyond_depth);
}

RC_GTEST_PROP(GirdlingRiskOfAnyDepth, RisesWithDepthAndGirdledIsNeverMore, ()) {
  const double a = *rc::gen::inRange(0, 2000) / 1000.0;
  const double b = a + *rc::gen::inRange(0, 1000) / 1000.0;
  const auto risk = girdling_risk({a, (a + b) / 2, b}, "Acer", tables());
  for (const Range& share : {risk.encircled, risk.girdled}) {
    RC_ASSERT(share.low >= 0 && share.high <= 1);
    RC_ASSERT(share.low <= share.best && share.best <= share.high);
  }
  RC_ASSERT(risk.girdled.best <= risk.encircled.best);
}

TEST(RootCrown, CannotTellFromNothing) {
  const auto advice = advise(maple());
  EXPECT_EQ(advice.answer, FlareAnswer::cannot_tell);
  EXPECT_EQ(advice.reasons.size(), 1U);
  EXPECT_TRUE(advice.prescriptions.empty());
  EXPECT_FALSE(advice.depth_m);
  EXPECT_FALSE(advice.risk);
}

TEST(RootCrown, IsSeenWhereSomebodySawIt) {
  Tree tree = maple();
  tree.flare.state = Flare::State::visible;
  EXPECT_EQ(advise(tree).answer, FlareAnswer::flare_seen);
  EXPECT_TRUE(advise(tree).prescriptions.empty());
}

TEST(RootCrown, TakesTheSignThatAsksForMost) {
  Tree tree = maple();
  tree.flare.signs = {FlareSign::soil_or_mulch_heaped};
  EXPECT_EQ(advise(tree).answer, FlareAnswer::dig_to_see);
  EXPECT_TRUE(says(advise(tree), "on three sides"));
  tree.flare.signs.push_back(FlareSign::no_flare_all_round);
  const auto advice = advise(tree);
  EXPECT_EQ(advice.answer, FlareAnswer::burial_likely);
  EXPECT_NE(advice.reasons.front().find("like a pole"), std::string::npos);
  EXPECT_EQ(advice.reasons.size(), 2U);
}

TEST(RootCrown, SendsSomebodyToLookWhereRecordAndSignsDisagree) {
  Tree tree = maple();
  tree.flare.state = Flare::State::visible;
  tree.flare.signs = {FlareSign::no_flare_all_round};
  const auto advice = advise(tree);
  EXPECT_EQ(advice.answer, FlareAnswer::dig_to_see);
  EXPECT_TRUE(notes(advice, NoteCode::flare_signs_disagree));
}

TEST(RootCrown, ReadsTheTaperAndMarksItAsOurAssumption) {
  Tree tree = maple();
  tree.flare.taper = {{metres(0), millimetres(255)}, {metres(0.3), millimetres(250)}};
  const auto advice = advise(tree);
  EXPECT_EQ(advice.answer, FlareAnswer::burial_likely);
  EXPECT_TRUE(notes(advice, NoteCode::taper_is_assumed));
  ASSERT_NE(figure(advice, "root-crown.taper.ratio"), nullptr);
  EXPECT_NEAR(figure(advice, "root-crown.taper.ratio")->value, 1.02, 1e-12);
  EXPECT_FALSE(advice.depth_m) << "how deep a flare lies is not read from taper";
  EXPECT_FALSE(advice.excavation->depth_known);
}

TEST(RootCrown, PlansTheUncovering) {
  Tree tree = maple(0.25);
  tree.flare.state = Flare::State::buried;
  tree.flare.buried_by = millimetres(100);
  const auto advice = advise(tree);
  EXPECT_EQ(advice.answer, FlareAnswer::burial_likely);
  EXPECT_NEAR(advice.risk->encircled.best, 0.33, 1e-12);
  ASSERT_TRUE(advice.excavation);
  // 2 to 3 ft for stems up to 12 in; 2 in below the first main roots.
  EXPECT_NEAR(advice.excavation->radius_m.low, 0.6096, 1e-9);
  EXPECT_NEAR(advice.excavation->radius_m.high, 0.9144, 1e-9);
  EXPECT_NEAR(advice.excavation->depth_m.best, 0.1508, 1e-9);
  EXPECT_TRUE(advice.excavation->depth_known);
  // Services before any digging, and covered the same day.
  EXPECT_NE(advice.prescriptions.front().text.find("services"), std::string::npos);
  EXPECT_TRUE(says(advice, "the same day"));
  EXPECT_TRUE(says(advice, "in stages"));
  for (const Prescription& one : advice.prescriptions) {
    EXPECT_EQ(one.topic, "uncover the flare");
    EXPECT_FALSE(one.from.source.empty());
    EXPECT_NE(tables().source(one.from.source), nullptr) << one.from.source;
  }
}

TEST(RootCrown, OpensThreeDiametersRoundAThickTrunk) {
  Tree tree = maple(0.5);
  tree.flare.state = Flare::State::buried;
  EXPECT_NEAR(advise(tree).excavation->radius_m.best, 1.5, 1e-12);
  EXPECT_FALSE(advise(tree).excavation->depth_known);
}

TEST(RootCrown, ComparesWhatWasFoundWithTheSigns) {
  Tree tree = maple();
  tree.flare.signs = {FlareSign::no_flare_all_round};
  tree.flare.found = FlareRecord{"2026-05-04", "A. Climber", {}, millimetres(150), 0.2, {}, ""};
  const auto deep = advise(tree);
  EXPECT_EQ(deep.answer, FlareAnswer::found);
  ASSERT_TRUE(deep.compared);
  EXPECT_TRUE(deep.compared->deep);
  EXPECT_EQ(deep.compared->expected, FlareAnswer::burial_likely);
  EXPECT_EQ(deep.compared->as_expected, true);
  EXPECT_NEAR(deep.risk->encircled.best, 0.495, 1e-12);
  EXPECT_TRUE(says(deep, "girdling roots in stages"));

  tree.flare.found->first_main_root = millimetres(20);
  tree.flare.found->girdled_share = 0;
  const auto sound = advise(tree);
  EXPECT_FALSE(sound.compared->deep);
  EXPECT_EQ(sound.compared->as_expected, false);
  EXPECT_TRUE(sound.prescriptions.empty());
}

TEST(RootCrown, HasAStricterCriterionForTreesProneToGirdling) {
  // 1 in for prone species, 1 to 3 in else.
  Tree tree = maple();
  tree.flare.found = FlareRecord{"", "", {}, millimetres(50), {}, {}, ""};
  EXPECT_TRUE(advise(tree).compared->deep);
  tree.botanical_name = "Quercus robur";
  EXPECT_FALSE(advise(tree).compared->deep);
}

TEST(RootCrown, RefusesPalmsByRecordOrByName) {
  Tree tree = test::SiteBuilder().palm("P1", {0, 0}).site().trees.front();
  tree.flare.state = Flare::State::buried;
  tree.flare.taper = {{metres(0), millimetres(500)}, {metres(0.3), millimetres(490)}};
  const auto advice = advise(tree);
  EXPECT_EQ(advice.answer, FlareAnswer::refused);
  ASSERT_TRUE(advice.refused);
  EXPECT_NE(advice.refused->sentence().find("normal"), std::string::npos);
  EXPECT_TRUE(advice.prescriptions.empty());
  EXPECT_TRUE(advice.figures.empty());
  tree.form = GrowthForm::unknown;
  tree.botanical_name = "Phoenix canariensis";
  EXPECT_EQ(advise(tree).answer, FlareAnswer::refused);
}

TEST(RootCrown, SpeaksTheUnitsOfTheSite) {
  Tree tree = maple();
  tree.flare.buried_by = millimetres(100);
  for (const Prescription& one : advise(tree, UnitSystem::us_customary).prescriptions)
    EXPECT_EQ(one.text.find(" mm"), std::string::npos) << one.text;
  for (const Prescription& one : advise(tree).prescriptions)
    EXPECT_EQ(one.text.find(" ft"), std::string::npos) << one.text;
}

TEST(RootCrown, NeverSaysSafe) {
  Tree tree = maple();
  for (const auto state : {Flare::State::unknown, Flare::State::visible, Flare::State::buried}) {
    tree.flare.state = state;
    const auto advice = advise(tree);
    for (const Prescription& one : advice.prescriptions)
      EXPECT_EQ((one.text + one.reason).find("safe"), std::string::npos);
    for (const std::string& reason : advice.reasons)
      EXPECT_EQ(reason.find("safe"), std::string::npos);
  }
}

RC_GTEST_PROP(RootCrownOfAnyTree, NeverAsksForLessWithOneMoreSign, ()) {
  const auto rank = [](FlareAnswer answer) {
    return answer == FlareAnswer::burial_likely ? 3 : answer == FlareAnswer::dig_to_see ? 2 : 1;
  };
  Tree tree = maple();
  tree.flare.state =
      *rc::gen::element(Flare::State::unknown, Flare::State::visible, Flare::State::buried);
  const int count = *rc::gen::inRange(0, 4);
  const auto any = [] {
    return static_cast<FlareSign>(
        *rc::gen::inRange(0, static_cast<int>(FlareSign::stem_roots) + 1));
  };
  for (int i = 0; i < count; ++i) tree.flare.signs.push_back(any());
  const int before = rank(advise(tree).answer);
  tree.flare.signs.push_back(any());
  RC_ASSERT(rank(advise(tree).answer) >= before);
}

// ---- by hand ------------------------------------------------------------------------------------

Result<std::vector<Figure>> by_hand(const std::string& name, const FigureArguments& arguments) {
  for (const HandFigure& one : root_crown_figures(tables()))
    if (one.kind.name == name) return answer(one, arguments);
  return Error{};
}

TEST(RootCrownFigures, AreAnsweredByHand) {
  const auto risk = by_hand("root-crown.girdling", {{"depth", "10cm"}});
  ASSERT_TRUE(risk);
  EXPECT_EQ((*risk)[0].name, "root-crown.girdling.encircled");
  EXPECT_NEAR((*risk)[0].value, 0.33, 1e-12);
  const auto taper = by_hand("root-crown.taper", {{"ground", "24in"}, {"above", "23in"}});
  ASSERT_TRUE(taper);
  EXPECT_NEAR((*taper)[0].value, 24.0 / 23, 1e-9);
  EXPECT_EQ((*taper)[1].word, "like a pole");
}

TEST(RootCrownFigures, RefuseWhatTheyCannotUse) {
  EXPECT_FALSE(by_hand("root-crown.girdling", {{"depth", "-1cm"}}));
  EXPECT_FALSE(by_hand("root-crown.girdling", {{"depth", "10"}})) << "no unit";
  EXPECT_FALSE(by_hand("root-crown.taper", {{"ground", "0mm"}, {"above", "23in"}}));
}

}  // namespace
}  // namespace rootstead
