// Whole advice: an oak grown in place beside a palm of its height, and what holds of every tree.
#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>
#include <set>

#include "engine/base/text.hpp"
#include "engine/transplant/moved_roots.hpp"
#include "tests/engine/transplant/transplant_support.hpp"

namespace rootstead {
namespace {

using test::few_draws;
using test::grown_palm;
using test::nursery_tree;
using test::oak_from_seed;
using test::site_in_zone;
using test::tables;

TransplantAdvice advice_for(const Tree& tree, const Site& site = site_in_zone(9)) {
  auto advice = transplant_advice(tree, site, tables(), few_draws());
  EXPECT_TRUE(advice.ok()) << (advice.ok() ? "" : advice.error().sentence());
  return advice.ok() ? *advice : TransplantAdvice{};
}

void expect_sourced(const Citation& from, const std::string& what) {
  EXPECT_NE(tables().source(from.source), nullptr) << what << ": source " << from.source;
  EXPECT_FALSE(from.place.empty()) << what << ": no place";
}

void expect_all_sourced(const TransplantAdvice& advice) {
  for (const MovingReason& reason : advice.reasons) {
    expect_sourced(reason.from, "reason " + reason.topic);
    EXPECT_FALSE(reason.text.empty());
  }
  for (const Prescription& one : advice.prescriptions()) {
    expect_sourced(one.from, "prescription " + one.topic);
    EXPECT_FALSE(one.reason.empty()) << one.topic;
    for (const Figure& figure : one.figures) expect_sourced(figure.from, figure.name);
  }
  for (const Figure& figure : advice.figures) {
    expect_sourced(figure.from, figure.name);
    EXPECT_FALSE(figure.formula.empty()) << figure.name;
  }
}

// Topics on which both have something to say; their words must differ.
std::set<std::string> topics_told_alike(const TransplantAdvice& a, const TransplantAdvice& b) {
  std::set<std::string> alike;
  const auto others = b.prescriptions();
  for (const Prescription& one : a.prescriptions()) {
    const Prescription* other = test::prescribed(others, one.topic);
    if (other && (other->text == one.text || other->reason == one.reason)) alike.insert(one.topic);
  }
  return alike;
}

void expect_visibly_different(const Tree& oak, const Tree& palm) {
  ASSERT_EQ(oak.height->length(), palm.height->length());
  const TransplantAdvice of_oak = advice_for(oak), of_palm = advice_for(palm);
  EXPECT_EQ(of_oak.rules, MovingRules::woody);
  EXPECT_EQ(of_palm.rules, MovingRules::palm);
  EXPECT_GT(of_oak.feasibility, of_palm.feasibility);
  const auto all_oak = of_oak.prescriptions(), all_palm = of_palm.prescriptions();
  for (const char* topic : {"season", "root cutting ahead", "ball", "lifting", "hole",
                            "planting depth", "bracing", "irrigation", "mulch", "recovery"}) {
    EXPECT_NE(test::prescribed(all_oak, topic), nullptr) << topic;
    EXPECT_NE(test::prescribed(all_palm, topic), nullptr) << topic;
  }
  // The hook's own gear is the same for all that hangs on it, its reason too.
  std::set<std::string> alike = topics_told_alike(of_oak, of_palm);
  alike.erase("lifting gear");
  EXPECT_TRUE(alike.empty()) << *alike.begin();
  for (const char* topic : {"leaves", "holding"}) {
    EXPECT_EQ(test::prescribed(all_oak, topic), nullptr) << topic;
    EXPECT_NE(test::prescribed(all_palm, topic), nullptr) << topic;
  }
  expect_all_sourced(of_oak);
  expect_all_sourced(of_palm);
}

TEST(TransplantAdvice, OfAnOakGrownInPlaceIsNotThatOfAPalm) {
  expect_visibly_different(oak_from_seed(0.40, 9), grown_palm("Phoenix canariensis", 0.60, 9));
  // Also of an oak that the tables of balls still reach.
  Tree young = oak_from_seed(0.10, 6);
  young.stage = LifeStage::semi_mature;
  expect_visibly_different(young, grown_palm("Syagrus romanzoffiana", 0.30, 6));
}

TEST(TransplantAdvice, RefusesABallForWhatTheTablesDoNotReach) {
  const TransplantAdvice oak = advice_for(oak_from_seed(0.40, 9));
  EXPECT_EQ(oak.feasibility, Feasibility::not_advised);
  EXPECT_FALSE(oak.ball);
  EXPECT_FALSE(oak.total_weight_kg);
  EXPECT_NE(oak.no_ball.find("specialist"), std::string::npos);
  for (const Figure& figure : oak.figures)
    EXPECT_EQ(figure.name.find("ball-diameter"), std::string::npos) << figure.name;
}

TEST(TransplantAdvice, OfANurseryMapleIsFavourable) {
  const TransplantAdvice maple =
      advice_for(nursery_tree("Acer rubrum", GrowthForm::broadleaf, 3 * test::kInch, 5));
  EXPECT_EQ(maple.feasibility, Feasibility::favourable);
  ASSERT_TRUE(maple.ball);
  EXPECT_NEAR(maple.ball->diameter_m.low, 32 * test::kInch, 1e-9);   // ANSI Z60.1, recalled
  EXPECT_NEAR(maple.ball->diameter_m.high, 36 * test::kInch, 1e-9);  // 12 in an inch
  EXPECT_NEAR(maple.establishment_months->low, 9, 1e-9);             // 3 months an inch
  // Published weights of a 36 in ball reach 1150 lb: the crane is never chosen on less.
  EXPECT_GE(maple.ball->weight_kg.high, 1150 * test::kPound);
  ASSERT_TRUE(maple.roots_moved);
  EXPECT_GT(maple.roots_moved->best, 0);
  EXPECT_LT(maple.roots_moved->best, 0.6);
  // Its stem is thicker than those on which the higher share by weight was found.
  const auto has = [&](const char* name) {
    return std::any_of(maple.figures.begin(), maple.figures.end(),
                       [&](const Figure& figure) { return figure.name == name; });
  };
  EXPECT_TRUE(has("transplant.moved-weight"));
  EXPECT_FALSE(has("transplant.moved-weight-thin-stems"));
  EXPECT_TRUE(has("transplant.moved-soil-volume"));
}

TEST(TransplantAdvice, CountsUnknownHistoryAsGrownInPlace) {
  Tree tree = nursery_tree("Acer rubrum", GrowthForm::broadleaf, 3 * test::kInch, 5);
  tree.history = GrowthHistory::unknown;
  const TransplantAdvice advice = advice_for(tree);
  EXPECT_NEAR(advice.ball->diameter_m.low, 38 * test::kInch, 1e-9);
  EXPECT_EQ(advice.feasibility, Feasibility::with_preparation);
}

TEST(TransplantAdvice, SaysWhereSourcesDisagreeOnASpecies) {
  Tables two = tables();
  two.parameters.push_back({"transplant.ease.town.acer",
                            0,
                            0,
                            0,
                            "fixed",
                            "",
                            "ease of moving",
                            {"trade-practice", "a test's own row", Status::common_practice}});
  const auto advice = transplant_advice(nursery_tree("Acer rubrum", GrowthForm::broadleaf, 0.08, 5),
                                        Site{}, two, few_draws());
  ASSERT_TRUE(advice.ok());
  EXPECT_TRUE(advice->reasons.front().sources_disagree);
  EXPECT_NE(advice->reasons.front().text.find("sources disagree"), std::string::npos);
  EXPECT_EQ(advice->feasibility, Feasibility::with_preparation);
}

TEST(TransplantAdvice, SaysASpeciesOfAnotherGenusIsUnknown) {
  const TransplantAdvice advice =
      advice_for(nursery_tree("Tilia cordata", GrowthForm::broadleaf, 0.08, 5));
  EXPECT_EQ(advice.reasons.front().weighs, Feasibility::with_preparation);
  EXPECT_EQ(advice.reasons.front().from.status, Status::assumption);
}

TEST(TransplantAdvice, OfConifersGoesByHeight) {
  Tree spruce = nursery_tree("Picea abies", GrowthForm::conifer, 0.06, 8 * test::kFoot);
  EXPECT_NEAR(advice_for(spruce).ball->diameter_m.low, 30 * test::kInch, 1e-9);
  EXPECT_NEAR(advice_for(spruce).ball->diameter_m.high, 32 * test::kInch, 1e-9);
  spruce.height.reset();
  EXPECT_FALSE(advice_for(spruce).ball);
}

TEST(TransplantAdvice, OfPoorTreesIsNot) {
  Tree maple = nursery_tree("Acer rubrum", GrowthForm::broadleaf, 0.08, 5);
  maple.condition = Condition::poor;
  EXPECT_EQ(advice_for(maple).feasibility, Feasibility::not_advised);
  Tree sabal = grown_palm("Sabal palmetto", 0.3, 4);
  sabal.clear_trunk = test::metres(0);
  EXPECT_EQ(advice_for(sabal).feasibility, Feasibility::not_advised);
  sabal.clear_trunk.reset();
  EXPECT_EQ(advice_for(sabal).feasibility, Feasibility::doubtful);
}

TEST(TransplantAdvice, TakesSabalsLeavesOffAndDoesNotCutItsRootsAhead) {
  const auto sabal = advice_for(grown_palm("Sabal palmetto", 0.3, 6)).prescriptions();
  const auto queen = advice_for(grown_palm("Syagrus romanzoffiana", 0.3, 6)).prescriptions();
  EXPECT_EQ(test::prescribed(sabal, "leaves")->text.find("Cut off all leaves"), 0U);
  EXPECT_EQ(test::prescribed(queen, "leaves")->text.find("Take off dead leaves only"), 0U);
  EXPECT_EQ(test::prescribed(sabal, "root cutting ahead")->text.find("Do not"), 0U);
  EXPECT_NE(test::prescribed(queen, "root cutting ahead")->text.find("6 to 8 weeks"),
            std::string::npos);
  EXPECT_NE(test::prescribed(queen, "bracing")->text.find("never nailed"), std::string::npos);
}

TEST(TransplantAdvice, TellsNobodyHowToMoveADeadTree) {
  Tree maple = nursery_tree("Acer rubrum", GrowthForm::broadleaf, 0.08, 5);
  maple.condition = Condition::dead;
  EXPECT_TRUE(advice_for(maple).prescriptions().empty());
  maple.condition = Condition::poor;
  const TransplantAdvice poor = advice_for(maple);
  EXPECT_FALSE(poor.prescriptions().empty());
  EXPECT_TRUE(std::any_of(poor.notes.begin(), poor.notes.end(), [](const Note& note) {
    return note.code == NoteCode::moving_not_advised;
  }));
}

TEST(TransplantAdvice, TakesInWhatIsPrescribedOnWater) {
  TransplantAdvice advice = advice_for(nursery_tree("Acer rubrum", GrowthForm::broadleaf, 0.08, 5));
  Prescription litres;
  litres.topic = "irrigation";
  litres.text = "Give 30 L every second day.";
  add_watering(advice, {litres});
  const auto at = std::find_if(advice.after.begin(), advice.after.end(),
                               [](const Prescription& one) { return one.topic == "irrigation"; });
  ASSERT_NE(at, advice.after.end());
  EXPECT_EQ((at + 1)->text, litres.text);
}

TEST(TransplantAdvice, OfOtherMonocotsRefusesWhatIsNotKnown) {
  Tree yucca = nursery_tree("Yucca gloriosa", GrowthForm::unknown, 0.2, 2);
  const TransplantAdvice advice = advice_for(yucca);
  EXPECT_EQ(advice.rules, MovingRules::other_monocot);
  EXPECT_FALSE(advice.ball);
  EXPECT_TRUE(advice.figures.empty());
  EXPECT_FALSE(advice.no_ball.empty());
  expect_all_sourced(advice);
}

TEST(TransplantAdvice, FailsWithoutAStem) {
  Tree tree = nursery_tree("Acer rubrum", GrowthForm::broadleaf, 0.08, 5);
  tree.stems.clear();
  EXPECT_EQ(transplant_advice(tree, Site{}, tables(), few_draws()).error().code,
            Code::missing_measurement);
  // A palm does without one.
  Tree palm = grown_palm("Cocos nucifera", 0.3, 8);
  palm.stems.clear();
  EXPECT_TRUE(advice_for(palm).ball);
}

TEST(TransplantAdvice, SpeaksTheUnitsOfTheSheet) {
  Site site = site_in_zone(8);
  site.settings.units = UnitSystem::us_customary;
  const auto all =
      advice_for(nursery_tree("Acer rubrum", GrowthForm::broadleaf, 3 * test::kInch, 5), site)
          .prescriptions();
  EXPECT_NE(test::prescribed(all, "ball")->text.find(" ft"), std::string::npos);
  for (const Prescription& one : all)
    EXPECT_EQ(one.text.find(" kg"), std::string::npos) << one.text;
}

TEST(TransplantAdvice, WarnsOfWideLoads) {
  Tree maple = nursery_tree("Acer rubrum", GrowthForm::broadleaf, 8 * test::kInch, 12);
  maple.stems.front().measured_at = test::metres(1.4);
  maple.stems.front().size = test::metres(0.17);
  const TransplantAdvice advice = advice_for(maple);
  ASSERT_TRUE(advice.ball);
  EXPECT_EQ(advice.ball->wider_than_road, advice.ball->diameter_m.high > 8.5 * test::kFoot);
  EXPECT_TRUE(advice.ball->wider_than_road);
  EXPECT_NE(test::prescribed(advice.before, "road"), nullptr);
}

TEST(SharesMoved, AreNamedByTheirMeasure) {
  std::set<std::string> names;
  for (const Figure& share : published_shares_moved(tables())) {
    names.insert(share.name);
    EXPECT_EQ(share.from.status, Status::published);
    EXPECT_GE(share.value, 0);
    EXPECT_LE(share.range.value_or(Range{share.value, share.value, share.value}).high, 1);
  }
  for (const char* name : {"transplant.moved-soil-volume", "transplant.moved-length",
                           "transplant.moved-surface", "transplant.moved-weight"})
    EXPECT_TRUE(names.contains(name)) << name;
}

// The picture of the root model, summed up over the cylinder, is another way to the same figure.
double summed_in_cylinder(const RootModel& model, double radius, double depth) {
  constexpr int kRings = 400, kSides = 24;
  double sum = 0;
  for (int ring = 0; ring < kRings; ++ring) {
    const double r = (ring + 0.5) * radius / kRings;
    const double area = 2 * std::numbers::pi * r * radius / kRings / kSides;
    for (int side = 0; side < kSides; ++side) {
      const double a = 2 * std::numbers::pi * (side + 0.5) / kSides;
      const Point at{r * std::cos(a), r * std::sin(a)};
      sum += area * model.plan_density(at) * model.share_above(at, Length::metres(depth));
    }
  }
  return sum;
}

TEST(RootsInABall, AreThoseOfTheModelsPicture) {
  for (const bool palm : {false, true}) {
    Tree tree = palm ? grown_palm("Phoenix canariensis", 0.5, 8) : oak_from_seed(0.2, 9);
    tree.position = Position{};
    const Site site;
    const auto model = root_model(tree, site, tables());
    ASSERT_TRUE(model.ok());
    for (const auto& [radius, depth] : {std::pair{0.6, 0.4}, {1.5, 0.7}, {4.0, 1.0}}) {
      const Range share =
          (*model)->share_in_cylinder(Length::metres(radius), Length::metres(depth), {1, 0});
      EXPECT_NEAR(share.best, summed_in_cylinder(**model, radius, depth), 0.01)
          << palm << " " << radius;
    }
  }
}

// ---- what holds of every tree -------------------------------------------------------------------

void check_range(const Range& range) {
  RC_ASSERT(range.low <= range.best);
  RC_ASSERT(range.best <= range.high);
}

void check_ranges(const TransplantAdvice& advice) {
  for (const Figure& figure : advice.figures)
    if (figure.range) check_range(*figure.range);
  if (advice.ball) {
    check_range(advice.ball->diameter_m);
    check_range(advice.ball->depth_m);
    check_range(advice.ball->weight_kg);
  }
  if (advice.total_weight_kg) check_range(*advice.total_weight_kg);
  if (advice.roots_moved) {
    check_range(*advice.roots_moved);
    RC_ASSERT(advice.roots_moved->low >= 0);
    RC_ASSERT(advice.roots_moved->high <= 1);
  }
}

double between(double low, double high) {
  return low + (high - low) * *rc::gen::inRange(0, 10001) / 10000.0;
}

template <class Enum>
Enum any_of(Enum last) {
  return static_cast<Enum>(*rc::gen::inRange(0, static_cast<int>(last) + 1));
}

Tree any_woody() {
  const bool conifer = *rc::gen::arbitrary<bool>();
  Tree tree = nursery_tree(
      conifer
          ? "Picea abies"
          : *rc::gen::element<std::string>("Acer rubrum", "Quercus robur", "Betula pendula", ""),
      conifer ? GrowthForm::conifer : GrowthForm::broadleaf, between(0.005, 0.3), between(0.5, 15));
  if (*rc::gen::arbitrary<bool>()) tree.stems.front().measured_at = test::metres(1.4);
  tree.history = any_of(GrowthHistory::moved_before);
  tree.condition = any_of(Condition::dead);
  tree.stage = any_of(LifeStage::veteran);
  return tree;
}

RC_GTEST_PROP(AnyTree, HasRangesThatRise, ()) {
  const auto advice =
      transplant_advice(any_woody(), site_in_zone(*rc::gen::inRange(1, 14)), tables(), {7, 10});
  RC_ASSERT(advice.ok());
  check_ranges(*advice);
}

RC_GTEST_PROP(AnyTree, OfLargerCalliperHasNoSmallerOrLighterBall, ()) {
  Tree small = any_woody();
  small.form = GrowthForm::broadleaf;
  small.botanical_name = "Acer rubrum";
  Tree large = small;
  large.stems.front().size.value *= between(1, 2);
  const auto a = transplant_advice(small, Site{}, tables(), {1, 0});
  const auto b = transplant_advice(large, Site{}, tables(), {1, 0});
  RC_ASSERT(a.ok() && b.ok());
  if (!a->ball) RC_ASSERT(!b->ball);
  if (!a->ball || !b->ball) return;
  for (const auto side : {&Range::low, &Range::best, &Range::high}) {
    RC_ASSERT((a->ball->diameter_m.*side <= b->ball->diameter_m.*side + 1e-12));
    RC_ASSERT((a->ball->weight_kg.*side <= b->ball->weight_kg.*side * (1 + 1e-12)));
    const Range all = *a->total_weight_kg, all_larger = *b->total_weight_kg;
    RC_ASSERT((all.*side <= all_larger.*side * (1 + 1e-12)));
  }
}

const std::vector<std::string>& monocot_names() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> all = {"Latania lontaroides", ""};
    for (const Species& species : tables().species)
      if (species.form == GrowthForm::palm || species.form == GrowthForm::other_monocot)
        all.push_back(species.botanical_name);
    return all;
  }();
  return names;
}

RC_GTEST_PROP(AnyPalm, NeverMeetsACalliperRule, ()) {
  Tree palm =
      grown_palm(*rc::gen::elementOf(monocot_names()), between(0.02, 1.5), between(0.3, 30));
  // The survey may call a palm of a known name anything.
  if (tables().species_of(palm.botanical_name) && *rc::gen::arbitrary<bool>())
    palm.form = any_of(GrowthForm::other_monocot);
  palm.condition = any_of(Condition::dead);
  palm.stage = any_of(LifeStage::veteran);
  const auto advice = transplant_advice(palm, site_in_zone(10), tables(), {7, 10});
  RC_ASSERT(advice.ok());
  RC_ASSERT(advice->rules != MovingRules::woody);
  check_ranges(*advice);
  std::vector<Figure> figures = advice->figures;
  for (const Prescription& one : advice->prescriptions())
    figures.insert(figures.end(), one.figures.begin(), one.figures.end());
  for (const Figure& figure : figures) {
    RC_ASSERT(figure.name.find("calliper") == std::string::npos);
    for (const FigureInput& input : figure.inputs)
      for (const char* word : {"calliper", "stem diameter", "diameter of the stem"})
        RC_ASSERT((input.symbol + " " + input.meaning).find(word) == std::string::npos);
  }
}

RC_GTEST_PROP(AnyPalm, HasABallThatDoesNotFollowItsTrunk, ()) {
  const std::string name = *rc::gen::elementOf(monocot_names());
  const auto thin = transplant_advice(grown_palm(name, 0.1, 6), Site{}, tables(), {1, 0});
  const auto thick =
      transplant_advice(grown_palm(name, between(0.1, 1.2), 6), Site{}, tables(), {1, 0});
  RC_ASSERT(thin.ok() && thick.ok());
  RC_ASSERT(thin->ball.has_value() == thick->ball.has_value());
  if (!thin->ball) return;
  RC_ASSERT(thin->ball->depth_m == thick->ball->depth_m);
  RC_ASSERT(test::prescribed(thin->lifting_day, "ball")->text ==
            test::prescribed(thick->lifting_day, "ball")->text);
}

RC_GTEST_PROP(RootsInABall, AreMoreInALargerOne, ()) {
  const bool palm = *rc::gen::arbitrary<bool>();
  const Tree tree = palm
                        ? grown_palm("Phoenix canariensis", 0.5, 8)
                        : nursery_tree("Acer rubrum", GrowthForm::broadleaf, between(0.02, 0.2), 5);
  const double radius = between(0.3, 3), depth = between(0.1, 1.5);
  const auto small =
      share_in_ball(tree, Site{}, tables(), Length::metres(radius), Length::metres(depth), {3, 20});
  const auto large = share_in_ball(tree, Site{}, tables(), Length::metres(radius * between(1, 2)),
                                   Length::metres(depth * between(1, 2)), {3, 20});
  RC_ASSERT(small.ok() && large.ok());
  const auto range = [](const Figure& f) {
    return f.range.value_or(Range{f.value, f.value, f.value});
  };
  for (const auto side : {&Range::low, &Range::best, &Range::high}) {
    const double less = range(*small).*side, more = range(*large).*side;
    RC_ASSERT(less >= 0);
    RC_ASSERT(more <= 1);
    RC_ASSERT(less <= more + 0.01);
  }
}

}  // namespace
}  // namespace rootstead
