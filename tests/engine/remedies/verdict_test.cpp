#include "engine/remedies/verdict.hpp"

#include <gtest/gtest.h>

#include "tests/support/loaded_tables.hpp"
#include "tests/support/site_builder.hpp"

namespace rootstead {
namespace {

using namespace rootstead::test;
using Weight = LimitDefinition::Weight;

// A tree of moderate tolerance that loses nothing; tests change what they are about.
struct Scene {
  Site site = SiteBuilder().tree("T1", {0, 0}, 0.5).pit("W1", rectangle(3, 3, 5, 5), 1.0);
  Species species;
  VerdictInputs inputs;

  Scene() {
    species.botanical_name = "Acer platanoides";
    species.tolerance = Tolerance::moderate;
    inputs.roots = RootLoss{};
    inputs.anchorage = kept(1, 1, 1);
  }

  static AnchorageKept kept(double low, double best, double high) {
    AnchorageKept anchorage;
    anchorage.kept = {low, best, high};
    if (low < 1) anchorage.works = {"W1"};
    return anchorage;
  }

  Tree& tree() { return site.trees.front(); }

  void loses(Range share) {
    inputs.roots = RootLoss{share, {{"W1", share}}};
    inputs.works_in_zones = {"W1"};
  }

  void passes(const std::string& zone, const std::string& limit, Weight weight) {
    LimitResult result;
    result.rule = "as4970-2009";
    result.zone = zone;
    result.limit = limit;
    result.passed_over = true;
    result.value = 0.2;
    result.threshold = 0.1;
    result.weight = weight;
    result.triggers = "what it triggers";
    result.works = {"W1"};
    result.figure.from = {"as4970-2009", "3.3.3", Status::published};
    inputs.limits.push_back(result);
    inputs.works_in_zones = {"W1"};
  }

  Verdict verdict() {
    inputs.tree = &site.trees.front();
    inputs.species = &species;
    inputs.works = &site.works;
    return verdict_of(inputs, loaded_tables());
  }
};

std::string all_text(const Verdict& verdict) {
  std::string text;
  for (const Reason& reason : verdict.reasons) text += reason.text + '\n';
  for (const std::string& measure : verdict.measures) text += measure + '\n';
  return text;
}

bool mentions(const Verdict& verdict, std::string_view words) {
  return all_text(verdict).find(words) != std::string::npos;
}

TEST(Verdict, ATreeOutOfReachIsKeptWithoutAWord) {
  const Verdict verdict = Scene().verdict();
  EXPECT_EQ(verdict.action, Action::keep);
  EXPECT_EQ(verdict.vitality, Concern::none);
  EXPECT_EQ(verdict.stability, Concern::none);
  EXPECT_TRUE(verdict.reasons.empty());
  EXPECT_TRUE(verdict.measures.empty());
}

TEST(Verdict, AWorkInAZoneAsksForMeasuresThoughNoLimitIsPassed) {
  Scene scene;
  scene.inputs.works_in_zones = {"W1"};
  const Verdict verdict = scene.verdict();
  EXPECT_EQ(verdict.action, Action::keep_with_measures);
  EXPECT_EQ(verdict.vitality, Concern::small);
  EXPECT_FALSE(verdict.measures.empty());
}

TEST(Verdict, TheWeightOfAPassedLimitDecides) {
  const auto action = [](Weight weight) {
    Scene scene;
    scene.passes("tree-protection-zone", "major-encroachment", weight);
    return scene.verdict().action;
  };
  EXPECT_EQ(action(Weight::note), Action::keep_with_measures);
  EXPECT_EQ(action(Weight::measures), Action::keep_with_measures);
  EXPECT_EQ(action(Weight::justify), Action::assess_further);
  EXPECT_EQ(action(Weight::refuse), Action::assess_further);
}

TEST(Verdict, GroundEnteredIsToldWithTheLargerShareOfTheSameZone) {
  const auto told = [](const Verdict& verdict, std::string_view limit) {
    return std::any_of(verdict.reasons.begin(), verdict.reasons.end(),
                       [&](const Reason& reason) { return reason.limit == limit; });
  };
  Scene alone;
  alone.passes("tree-protection-zone", "minor-encroachment", Weight::measures);
  EXPECT_TRUE(told(alone.verdict(), "minor-encroachment"));
  Scene both;
  both.passes("tree-protection-zone", "minor-encroachment", Weight::measures);
  both.passes("tree-protection-zone", "major-encroachment", Weight::justify);
  EXPECT_FALSE(told(both.verdict(), "minor-encroachment"));
  EXPECT_TRUE(told(both.verdict(), "major-encroachment"));
  Scene elsewhere;  // of another zone: told beside it
  elsewhere.passes("structural-root-zone", "structural-entry", Weight::measures);
  elsewhere.passes("tree-protection-zone", "major-encroachment", Weight::justify);
  EXPECT_TRUE(told(elsewhere.verdict(), "structural-entry"));
}

TEST(Verdict, NoThicknessIsNamedForTheRootsOfAPalm) {
  Scene scene;
  scene.inputs.works_in_zones = {"W1"};
  EXPECT_TRUE(mentions(scene.verdict(), "roots of 25 mm and thicker"));
  scene.site.trees.front().form = GrowthForm::palm;
  scene.species.form = GrowthForm::palm;
  EXPECT_FALSE(mentions(scene.verdict(), "25 mm"));
  EXPECT_TRUE(mentions(scene.verdict(), "before cutting any"));
}

TEST(Verdict, AReasonNamesRuleLimitAndWork) {
  Scene scene;
  scene.site.works.front().name = "storm drain";
  scene.passes("tree-protection-zone", "major-encroachment", Weight::justify);
  const Verdict verdict = scene.verdict();
  ASSERT_FALSE(verdict.reasons.empty());
  const Reason& reason = verdict.reasons.front();
  EXPECT_EQ(reason.about, Reason::About::vitality);
  EXPECT_EQ(reason.rule, "as4970-2009");
  EXPECT_EQ(reason.limit, "major-encroachment");
  EXPECT_EQ(reason.work, "W1");
  for (const char* words : {"W1 (storm drain)", "20.0 %", "10.0 %", "Tree protection zone",
                            "what it triggers", "published"}) {
    EXPECT_TRUE(mentions(verdict, words)) << words << "\nin: " << all_text(verdict);
  }
}

TEST(Verdict, AStructuralLimitSpeaksOfStabilityAndNeverOfVitality) {
  Scene scene;
  scene.passes("structural-root-zone", "structural-entry", Weight::justify);
  const Verdict verdict = scene.verdict();
  EXPECT_EQ(verdict.stability, Concern::material);
  EXPECT_EQ(verdict.vitality, Concern::small);  // it reaches a zone, that is all
  for (const Reason& reason : verdict.reasons) {
    const bool about_limit = reason.limit == "structural-entry";
    EXPECT_EQ(reason.about == Reason::About::stability, about_limit) << reason.text;
  }
}

TEST(Verdict, AnchorageAloneMovesStabilityAlone) {
  const auto stability = [](double low) {
    Scene scene;
    scene.inputs.anchorage = Scene::kept(low, std::min(1.0, low + 0.05), 1);
    const Verdict verdict = scene.verdict();
    EXPECT_EQ(verdict.vitality, Concern::none);
    return verdict.stability;
  };
  EXPECT_EQ(stability(0.96), Concern::none);
  EXPECT_EQ(stability(0.95), Concern::none);
  EXPECT_EQ(stability(0.94), Concern::small);
  EXPECT_EQ(stability(0.84), Concern::material);
  EXPECT_EQ(stability(0.69), Concern::large);
}

TEST(Verdict, RootLossAloneMovesVitalityAlone) {
  const auto vitality = [](Range loss) {
    Scene scene;
    scene.loses(loss);
    const Verdict verdict = scene.verdict();
    EXPECT_EQ(verdict.stability, Concern::none);
    return verdict.vitality;
  };
  EXPECT_EQ(vitality({0.01, 0.05, 0.10}), Concern::small);
  EXPECT_EQ(vitality({0.10, 0.20, 0.33}), Concern::material);  // the high end reaches T low
  EXPECT_EQ(vitality({0.10, 0.25, 0.31}), Concern::material);  // 25 %, Johnson (Minnesota)
  EXPECT_EQ(vitality({0.20, 0.40, 0.50}), Concern::large);
}

TEST(Verdict, AReasonToInspectSendsAPersonWhateverTheFigure) {
  Scene scene;
  scene.inputs.anchorage = Scene::kept(0.97, 0.98, 1);
  scene.inputs.anchorage->reasons_to_inspect = {"a cut comes within 3 stem diameters"};
  const Verdict verdict = scene.verdict();
  EXPECT_EQ(verdict.stability, Concern::material);
  EXPECT_EQ(verdict.action, Action::assess_further);
  EXPECT_TRUE(mentions(verdict, "3 stem diameters"));
}

TEST(Verdict, OneWitnessNeverFells) {
  Scene scene;
  scene.loses({0.60, 0.80, 0.95});
  EXPECT_EQ(scene.verdict().action, Action::assess_further);  // the estimate alone
  Scene rule;
  rule.passes("tree-protection-zone", "major-encroachment", Weight::refuse);
  EXPECT_EQ(rule.verdict().action, Action::assess_further);  // the rule alone
  Scene anchorage;
  anchorage.inputs.anchorage = Scene::kept(0.2, 0.3, 0.4);
  EXPECT_EQ(anchorage.verdict().action, Action::assess_further);  // stability never fells
}

TEST(Verdict, TwoWitnessesFellAndSayThatThePlansComeFirst) {
  Scene refused;
  refused.loses({0.30, 0.45, 0.60});
  refused.passes("tree-protection-zone", "major-encroachment", Weight::refuse);
  EXPECT_EQ(refused.verdict().action, Action::remove);
  EXPECT_TRUE(mentions(refused.verdict(), "first look for a way to build them elsewhere"));

  Scene justified;
  justified.loses({0.50, 0.60, 0.70});
  justified.passes("tree-protection-zone", "major-encroachment", Weight::justify);
  EXPECT_EQ(justified.verdict().action, Action::remove);

  Scene hopeful;  // the low end stays below what such a tree may stand
  hopeful.loses({0.40, 0.60, 0.70});
  hopeful.passes("tree-protection-zone", "major-encroachment", Weight::justify);
  EXPECT_EQ(hopeful.verdict().action, Action::assess_further);
}

TEST(Verdict, ATrunkThatIsDugAwayCannotStay) {
  Scene scene;
  scene.inputs.works_on_stem = {"W1"};
  const Verdict verdict = scene.verdict();
  EXPECT_EQ(verdict.action, Action::remove);
  EXPECT_TRUE(mentions(verdict, "digs where the trunk stands"));
}

TEST(Verdict, ASmallTreeOrAPalmMayBeACandidateForMoving) {
  Scene small;
  small.tree().stems.front().size = metres(0.15);
  small.inputs.works_on_stem = {"W1"};
  EXPECT_EQ(small.verdict().action, Action::transplant);
  EXPECT_TRUE(mentions(small.verdict(), "candidate"));

  Scene palm;
  palm.tree().form = GrowthForm::palm;
  palm.inputs.works_on_stem = {"W1"};
  EXPECT_EQ(palm.verdict().action, Action::transplant);

  Scene poor;
  poor.tree().stems.front().size = metres(0.15);
  poor.tree().condition = Condition::poor;
  poor.inputs.works_on_stem = {"W1"};
  EXPECT_EQ(poor.verdict().action, Action::remove);
}

TEST(Verdict, FillAgainstTheTrunkIsHeldBack) {
  Scene scene;
  scene.site.works.front().kind = WorkKind::fill;
  scene.inputs.works_on_stem = scene.inputs.works_in_zones = {"W1"};
  const Verdict verdict = scene.verdict();
  EXPECT_EQ(verdict.action, Action::keep_with_measures);
  EXPECT_TRUE(mentions(verdict, "back from the trunk and the root flare"));
}

TEST(Verdict, MissingDataAreNamedAndNothingIsDecided) {
  Scene nowhere;
  nowhere.tree().position.reset();
  nowhere.tree().stems.clear();
  nowhere.inputs.roots.reset();
  nowhere.inputs.anchorage.reset();
  const Verdict verdict = nowhere.verdict();
  EXPECT_EQ(verdict.action, Action::undecided);
  EXPECT_EQ(verdict.vitality, Concern::unknown);
  EXPECT_EQ(verdict.stability, Concern::unknown);
  EXPECT_EQ(verdict.missing, (std::vector<std::string>{"position", "stem diameter"}));
}

TEST(Verdict, APalmNeedsNoStemDiameter) {
  Scene palm;
  palm.tree().form = GrowthForm::palm;
  palm.tree().stems.clear();
  EXPECT_EQ(palm.verdict().action, Action::keep);
}

TEST(Verdict, ADeadTreeIsForAPersonToDecide) {
  Scene scene;
  scene.tree().condition = Condition::dead;
  EXPECT_EQ(scene.verdict().action, Action::assess_further);
  EXPECT_TRUE(mentions(scene.verdict(), "recorded as dead"));
}

TEST(Verdict, StressAndUnknownToleranceMakeItMoreCareful) {
  const Range loss{0.10, 0.20, 0.31};
  Scene vigorous, stressed, unknown;
  for (Scene* scene : {&vigorous, &stressed, &unknown}) scene->loses(loss);
  stressed.tree().condition = Condition::poor;
  unknown.species.tolerance = Tolerance::unknown;
  EXPECT_EQ(vigorous.verdict().vitality, Concern::small);
  EXPECT_EQ(stressed.verdict().vitality, Concern::material);
  EXPECT_EQ(unknown.verdict().vitality, Concern::material);
  EXPECT_TRUE(mentions(unknown.verdict(), "from poor to good"));
}

TEST(Verdict, EveryKindOfWorkHasItsOwnMeasures) {
  for (const WorkKind kind : {WorkKind::trench, WorkKind::pit, WorkKind::cut, WorkKind::fill,
                              WorkKind::paving, WorkKind::traffic, WorkKind::building,
                              WorkKind::fence_posts, WorkKind::bore, WorkKind::root_cut}) {
    Scene scene;
    scene.site.works.front().kind = kind;
    scene.inputs.works_in_zones = {"W1"};
    const Verdict verdict = scene.verdict();
    ASSERT_FALSE(verdict.measures.empty()) << to_text(kind);
    EXPECT_NE(verdict.measures.front().find("W1"), std::string::npos) << verdict.measures.front();
    for (const std::string& sentence : verdict.measures) EXPECT_EQ(sentence.back(), '.');
  }
}

TEST(Verdict, AnUsSheetSpeaksOfFeet) {
  Scene scene;
  Zone zone;
  zone.rule = "crz-1.0";
  zone.name = "Critical root zone";
  zone.radius = Length::metres(6.096);
  scene.inputs.zones = {&zone};
  scene.inputs.works_in_zones = {"W1"};
  scene.inputs.units = UnitSystem::us_customary;
  EXPECT_TRUE(mentions(scene.verdict(), "20.0 ft")) << all_text(scene.verdict());
}

TEST(Verdict, WordsAreThoseOfTheTrade) {
  EXPECT_EQ(to_text(Action::keep_with_measures), "keep with measures");
  EXPECT_EQ(to_text(Action::assess_further), "assess further");
  EXPECT_EQ(to_text(Concern::material), "material");
}

// More loss, or less anchorage, never makes a verdict milder.
RC_GTEST_PROP(VerdictProperty, MoreLossIsNeverTakenMoreLightly, ()) {
  const auto share = [] { return *rc::gen::inRange(0, 101) / 100.0; };
  std::array<double, 3> a{share(), share(), share()};
  std::sort(a.begin(), a.end());
  const double more = *rc::gen::inRange(0, 50) / 100.0;
  const auto plus = [&](double v) { return std::min(1.0, v + more); };
  Scene less, larger_loss;
  less.loses({a[0], a[1], a[2]});
  larger_loss.loses({plus(a[0]), plus(a[1]), plus(a[2])});
  RC_ASSERT(less.verdict().vitality <= larger_loss.verdict().vitality);
  less.inputs.anchorage = Scene::kept(plus(a[0]), plus(a[1]), plus(a[2]));
  larger_loss.inputs.anchorage = Scene::kept(a[0], a[1], a[2]);
  RC_ASSERT(less.verdict().stability <= larger_loss.verdict().stability);
}

}  // namespace
}  // namespace rootstead
