#include "engine/site/tree.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"

namespace rootstead {
namespace {

using std::numbers::pi;

Tree tree_with_crown(double n, double e, double s, double w) {
  Tree tree;
  tree.position = Position{{1000, 2000}, "tape", {}};
  tree.crown = Crown{};
  tree.crown->radius = {{{n, LengthUnit::metre},
                         {e, LengthUnit::metre},
                         {s, LengthUnit::metre},
                         {w, LengthUnit::metre}}};
  return tree;
}

double outline_area(const Tree& tree, double grown_by = 0, int segments = 32) {
  return area_of(crown_outline(tree, Length::metres(grown_by), segments)).square_metres();
}

double exact_area(const Tree& tree, double grown_by = 0) {
  return crown_area(*tree.crown, Length::metres(grown_by)).square_metres();
}

TEST(Crown, OfFourEqualRadiiIsACircle) {
  const Tree tree = tree_with_crown(5, 5, 5, 5);
  EXPECT_NEAR(exact_area(tree), 25 * pi, 1e-12);
  EXPECT_NEAR(outline_area(tree), 25 * pi, 25 * pi * 4.1e-4);
  EXPECT_NEAR(tree.crown->mean_radius().metres(), 5, 1e-12);
  for (const Point& p : crown_outline(tree).outer)
    EXPECT_NEAR(distance({1000, 2000}, p).metres(), 5, 1e-9);
}

TEST(Crown, GrownByTheGermanMarginIsTheLargerCircle) {
  // DIN 18920: crown radius 5 m and 1.5 m all round: r 6.5 m, 132.732 m2.
  EXPECT_NEAR(exact_area(tree_with_crown(5, 5, 5, 5), 1.5), 132.732, 0.0005);
}

TEST(Crown, AreaIsAQuarterPiOfTheProductOfBothWidths) {
  EXPECT_NEAR(exact_area(tree_with_crown(3, 2, 5, 4)), pi / 4 * 8 * 6, 1e-12);
  EXPECT_NEAR(tree_with_crown(3, 2, 5, 4).crown->mean_radius().metres(), std::sqrt(12), 1e-12);
  EXPECT_EQ(tree_with_crown(3, 2, 5, 4).crown->largest_radius().metres(), 5);
}

TEST(Crown, OutlineRunsThroughTheFourRadii) {
  const Polygon outline = crown_outline(tree_with_crown(3, 2, 5, 4));
  const Box box = box_of(outline.outer);
  EXPECT_NEAR(box.max_y, 2003, 1e-9);
  EXPECT_NEAR(box.max_x, 1002, 1e-9);
  EXPECT_NEAR(box.min_y, 1995, 1e-9);
  EXPECT_NEAR(box.min_x, 996, 1e-9);
  EXPECT_EQ(outline.outer.size(), 128u);
}

TEST(Crown, WithoutARadiusOnOneSideIsHalfAnEllipse) {
  EXPECT_NEAR(exact_area(tree_with_crown(0, 4, 3, 4)), pi / 2 * 4 * 3, 1e-12);
  EXPECT_TRUE(is_valid({crown_outline(tree_with_crown(0, 4, 3, 4), Length::metres(1))}));
  EXPECT_NEAR(outline_area(tree_with_crown(0, 0, 0, 0), 2), 4 * pi, 4 * pi * 4.1e-4);
}

Tree any_crowned_tree() {
  const auto radius = [] { return *rc::gen::inRange(10, 100) / 10.0; };
  return tree_with_crown(radius(), radius(), radius(), radius());
}

RC_GTEST_PROP(Crown, OutlineHasTheExactAreaAsItsLimit, ()) {
  const Tree tree = any_crowned_tree();
  const double grown_by = *rc::gen::inRange(0, 30) / 10.0;
  const double exact = exact_area(tree, grown_by);
  RC_ASSERT(outline_area(tree, grown_by) <= exact * (1 + 1e-12));
  RC_ASSERT(std::abs(outline_area(tree, grown_by, 2048) / exact - 1) < 1e-5);
}

RC_GTEST_PROP(Crown, OutlineIsValidCounterClockwiseAndHoldsTheStem, ()) {
  const Tree tree = any_crowned_tree();
  const Polygon outline = crown_outline(tree);
  RC_ASSERT(is_valid({outline}));
  RC_ASSERT(signed_area(outline.outer) > 0);
  RC_ASSERT(contains(outline, tree.position->at));
}

RC_GTEST_PROP(Crown, GrownOutlineIsThatFarOutAllRound, ()) {
  const Tree tree = any_crowned_tree();
  const MultiPolygon crown = {crown_outline(tree, {}, 512)};
  for (const Point& p : crown_outline(tree, Length::metres(1.5)).outer)
    RC_ASSERT(std::abs(distance_between(p, crown).metres() - 1.5) < 1e-3);
}

TEST(TreeWords, ReadBackAsWritten) {
  for (const auto form : {GrowthForm::unknown, GrowthForm::broadleaf, GrowthForm::conifer,
                          GrowthForm::palm, GrowthForm::other_monocot})
    EXPECT_EQ(growth_form_from(to_text(form)), form);
  for (const auto condition :
       {Condition::unknown, Condition::good, Condition::fair, Condition::poor, Condition::dead})
    EXPECT_EQ(condition_from(to_text(condition)), condition);
  for (const auto stage : {LifeStage::unknown, LifeStage::young, LifeStage::semi_mature,
                           LifeStage::mature, LifeStage::over_mature, LifeStage::veteran})
    EXPECT_EQ(life_stage_from(to_text(stage)), stage);
  for (const auto state : {Flare::State::unknown, Flare::State::visible, Flare::State::buried})
    EXPECT_EQ(flare_state_from(to_text(state)), state);
}

TEST(TreeWords, ReadSeveralLanguagesWhateverTheCaseAndAccents) {
  EXPECT_EQ(growth_form_from("PALM"), GrowthForm::palm);
  EXPECT_EQ(growth_form_from("Broad-leaved"), GrowthForm::broadleaf);
  EXPECT_EQ(growth_form_from(" Laubbaum "), GrowthForm::broadleaf);
  EXPECT_EQ(growth_form_from("Résineux"), GrowthForm::conifer);
  EXPECT_EQ(growth_form_from("EINKEIMBLÄTTRIG"), GrowthForm::other_monocot);
  EXPECT_EQ(growth_form_from("naaldboom"), GrowthForm::conifer);
  EXPECT_EQ(condition_from("Mäßig"), Condition::fair);
  EXPECT_EQ(condition_from("muerto"), Condition::dead);
  EXPECT_EQ(life_stage_from("Over_Mature"), LifeStage::over_mature);
  EXPECT_EQ(life_stage_from("jeune"), LifeStage::young);
  EXPECT_EQ(flare_state_from("verschüttet"), Flare::State::buried);
  EXPECT_FALSE(growth_form_from("shrubbery of some kind"));
  EXPECT_FALSE(growth_form_from(""));
}

TEST(Tree, AMonocotIsAPalmOrAnother) {
  Tree tree;
  EXPECT_FALSE(tree.is_monocot());
  tree.form = GrowthForm::palm;
  EXPECT_TRUE(tree.is_monocot());
  tree.form = GrowthForm::other_monocot;
  EXPECT_TRUE(tree.is_monocot());
}

}  // namespace
}  // namespace rootstead
