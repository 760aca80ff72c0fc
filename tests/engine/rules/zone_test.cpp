#include "engine/rules/zone.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>

#include "engine/geom/measure.hpp"
#include "engine/rules/crown_zone.hpp"
#include "tests/engine/rules/rule_builder.hpp"

namespace rootstead {
namespace {

using Kind = ZoneTerm::Kind;
using test::has_note;
using test::metres;
using test::rule_of;
using test::term;
using test::tree_of;
using test::zone_of;

ZoneRule twelve_diameters() {
  ZoneDefinition zone = zone_of({term(Kind::stem_multiple, 12)});
  zone.at_least = metres(2);
  zone.at_most = metres(15);
  zone.redraw_at_barriers = true;
  zone.redraw_status = Status::memory;
  return rule_of({zone});
}

Zone only_zone(const Tree& tree, const ZoneRule& rule, const std::vector<Barrier>& barriers = {},
               const Tables& tables = {}) {
  const auto zones = zones_of(tree, rule, tables, barriers);
  EXPECT_TRUE(zones.ok()) << (zones.ok() ? "" : zones.error().sentence());
  return zones.ok() ? zones->front() : Zone{};
}

TEST(Zones, AreCirclesRoundTheStem) {
  Tree tree = tree_of(0.5);
  tree.position->at = {100, 200};
  const Zone zone = only_zone(tree, twelve_diameters());
  EXPECT_EQ(zone.centre, (Point{100, 200}));
  EXPECT_NEAR(zone.radius.metres(), 6.0, 1e-12);
  EXPECT_NEAR(zone.area.square_metres(), 113.0973355, 1e-6);
  EXPECT_EQ(zone.reach, zone.radius);
  EXPECT_FALSE(zone.outline.has_value());
  EXPECT_FALSE(zone.capped || zone.raised || zone.redrawn);
}

TEST(Zones, NeedNoPositionForTheirSize) {
  Tree tree = tree_of(0.5);
  tree.position.reset();
  const Zone zone = only_zone(tree, twelve_diameters(), {test::wall_from({3, -99}, {3, 99})});
  EXPECT_NEAR(zone.radius.metres(), 6.0, 1e-12);
  EXPECT_FALSE(zone.redrawn);
}

TEST(Zones, AreRaisedAndCappedAndSayIt) {
  const Zone small = only_zone(tree_of(0.1), twelve_diameters());
  EXPECT_EQ(small.radius.metres(), 2.0);
  EXPECT_TRUE(small.raised && has_note(small, NoteCode::rule_raised_to_minimum));
  const Zone large = only_zone(tree_of(2), twelve_diameters());
  EXPECT_EQ(large.radius.metres(), 15.0);
  EXPECT_TRUE(large.capped && has_note(large, NoteCode::rule_capped));
}

TEST(Zones, AreNeverDrawnForAPalmByItsStem) {
  Tree palm = tree_of(0.4);
  palm.form = GrowthForm::palm;
  const auto zones = zones_of(palm, twelve_diameters(), {});
  ASSERT_FALSE(zones.ok());
  EXPECT_EQ(zones.error().code, Code::outside_rule_domain);
  EXPECT_NE(zones.error().sentence().find("palm"), std::string::npos);
}

TEST(Zones, KnowAPalmByItsSpeciesWhereTheSurveyDoesNotSayIt) {
  Tree tree = tree_of(0.4);
  tree.form = GrowthForm::unknown;
  tree.botanical_name = "Phoenix canariensis";
  Tables tables;
  tables.species.push_back({});
  tables.species.back().botanical_name = "Phoenix";
  tables.species.back().form = GrowthForm::palm;
  EXPECT_FALSE(zones_of(tree, twelve_diameters(), tables).ok());
}

TEST(Zones, TakeTheFirstAlternativeThatIsForTheTree) {
  ZoneDefinition palms = zone_of({term(Kind::crown_outline, 1, 1)});
  palms.applies.forms = {GrowthForm::palm};
  ZoneDefinition first = zone_of({term(Kind::stem_multiple, 15)});
  first.applies.categories = {"A"};
  const ZoneRule rule = rule_of({palms, first, zone_of({term(Kind::stem_multiple, 12)})});
  Tree palm = tree_of(0.4, 2.5);
  palm.form = GrowthForm::palm;
  EXPECT_NEAR(only_zone(palm, rule).radius.metres(), 3.5, 1e-12);
  Tree best = tree_of(1);
  best.category = "A1";
  EXPECT_NEAR(only_zone(best, rule).radius.metres(), 15, 1e-12);
  best.category = "B1";
  EXPECT_NEAR(only_zone(best, rule).radius.metres(), 12, 1e-12);
  EXPECT_EQ(zones_of(best, rule, {})->size(), 1u);
}

TEST(Zones, CountFromTheBarkWhereTheRuleDoes) {
  ZoneDefinition zone = zone_of({term(Kind::fixed, 1, 1)});
  zone.centre = ZoneCentre::bark;
  EXPECT_NEAR(only_zone(tree_of(0.8), rule_of({zone})).radius.metres(), 1.4, 1e-12);
}

TEST(Zones, TakeTheBasalDiameterOrSayThatItIsMissing) {
  ZoneDefinition zone = zone_of({term(Kind::power, 0.64)}, "structural");
  zone.terms[0].base = 50;
  zone.terms[0].exponent = 0.42;
  zone.measure = StemMeasure::basal;
  Tree tree = tree_of(0.5);
  const Zone estimated = only_zone(tree, rule_of({zone}));
  EXPECT_NEAR(estimated.radius.metres(), 2.4735, 5e-5);
  EXPECT_TRUE(has_note(estimated, NoteCode::basal_diameter_estimated));
  EXPECT_EQ(estimated.figure.from.status, Status::assumption);
  tree.basal_diameter = metres(0.6);
  const Zone measured = only_zone(tree, rule_of({zone}));
  EXPECT_NEAR(measured.radius.metres(), 2.6704, 5e-5);
  EXPECT_FALSE(has_note(measured, NoteCode::basal_diameter_estimated));
  EXPECT_EQ(measured.figure.from.status, Status::published);
}

TEST(Zones, FailWhereTheOnlyMeasurementIsMissing) {
  const auto no_stem = zones_of(tree_of(0), twelve_diameters(), {});
  ASSERT_FALSE(no_stem.ok());
  EXPECT_EQ(no_stem.error().code, Code::missing_measurement);
  const auto no_crown = zones_of(tree_of(0.5), rule_of({zone_of({term(Kind::crown_outline)})}), {});
  ASSERT_FALSE(no_crown.ok());
  EXPECT_EQ(no_crown.error().sentence(),
            "tree T1: the crown spread is missing; measure the crown radii.");
}

TEST(Zones, SayWhatIsLeftOutForAMissingCrown) {
  const ZoneRule two_terms =
      rule_of({zone_of({term(Kind::crown_outline), term(Kind::stem_multiple, 15)})});
  EXPECT_TRUE(has_note(only_zone(tree_of(0.5), two_terms), NoteCode::crown_missing));
  const ZoneRule two_zones = rule_of({zone_of({term(Kind::stem_multiple, 6)}, "trench"),
                                      zone_of({term(Kind::crown_outline)}, "dripline")});
  const auto zones = zones_of(tree_of(0.5), two_zones, {});
  ASSERT_TRUE(zones.ok());
  EXPECT_EQ(zones->size(), 1u);
  EXPECT_TRUE(has_note(zones->front(), NoteCode::crown_missing));
}

TEST(Zones, OfUnevenCrownsAreOutlines) {
  Tree tree = tree_of(0.5);
  tree.crown.emplace().radius = {metres(2), metres(3), metres(4), metres(5)};
  const Zone zone = only_zone(tree, rule_of({zone_of({term(Kind::crown_outline)})}));
  ASSERT_TRUE(zone.outline.has_value());
  EXPECT_NEAR(zone.area.square_metres(), 12 * std::numbers::pi, 1e-9);
  EXPECT_NEAR(zone.radius.metres(), std::sqrt(12.0), 1e-9);
  EXPECT_NEAR(zone.reach.metres(), 5, 1e-12);
}

TEST(Zones, UniteACircleAndAnOutlineThatCross) {
  Tree tree = tree_of(0.5);
  tree.crown.emplace().radius = {metres(2), metres(9), metres(2), metres(9)};
  const ZoneRule rule = rule_of({zone_of({term(Kind::crown_outline), term(Kind::fixed, 1, 6)})});
  const Zone zone = only_zone(tree, rule);
  ASSERT_TRUE(zone.outline.has_value());
  EXPECT_GT(zone.area.square_metres(), std::numbers::pi * 36);
  EXPECT_NEAR(area_of(*zone.outline).square_metres(), zone.area.square_metres(), 0.05);
  EXPECT_NEAR(zone.reach.metres(), 9, 1e-12);
}

TEST(Zones, CanTakeTheLargerAreaAlone) {
  Tree tree = tree_of(0.5);
  tree.crown.emplace().radius = {metres(2), metres(9), metres(2), metres(9)};
  ZoneDefinition zone = zone_of({term(Kind::crown_outline), term(Kind::fixed, 1, 6)});
  zone.largest_by = LargestBy::area;
  const Zone chosen = only_zone(tree, rule_of({zone}));  // pi 18 < pi 36
  EXPECT_FALSE(chosen.outline.has_value());
  EXPECT_NEAR(chosen.area.square_metres(), std::numbers::pi * 36, 1e-9);
}

TEST(Zones, AreRedrawnAtAWallWithTheSameAreaAndTheWeakerStatus) {
  const Zone zone =
      only_zone(tree_of(0.5), twelve_diameters(), {test::wall_from({3, -99}, {3, 99})});
  EXPECT_TRUE(zone.redrawn && has_note(zone, NoteCode::rule_zone_redrawn));
  EXPECT_NEAR(zone.area.square_metres(), 36 * std::numbers::pi, 1e-9);
  EXPECT_NEAR(zone.radius.metres(), 6, 1e-9);
  EXPECT_NEAR(zone.reach.metres(), 6.8372, 5e-5);
  EXPECT_EQ(zone.figure.from.status, Status::memory);
  ASSERT_TRUE(zone.outline.has_value());
  EXPECT_FALSE(contains(*zone.outline, Point{3.5, 0}));
  EXPECT_TRUE(contains(*zone.outline, Point{-6.5, 0}));
}

TEST(Zones, NoteAStemMeasuredAtAnotherHeight) {
  Tree tree = tree_of(0.5);
  tree.stems[0].measured_at = metres(1.0);
  EXPECT_TRUE(has_note(only_zone(tree, twelve_diameters()), NoteCode::measuring_height_differs));
  tree.stems[0].measured_at = metres(1.39);
  EXPECT_FALSE(has_note(only_zone(tree, twelve_diameters()), NoteCode::measuring_height_differs));
}

TEST(Zones, CarryTheirTrail) {
  Tree tree = tree_of(0.3);
  tree.stems[0].size = {300, LengthUnit::millimetre};
  tree.stems.push_back({Stem::Read::girth, {40, LengthUnit::inch}, {}});
  const Figure trail = only_zone(tree, twelve_diameters()).figure;
  EXPECT_EQ(trail.name, "rule.zone-1.radius");
  EXPECT_EQ(trail.unit, "m");
  EXPECT_EQ(trail.from.source, "a-2001");
  ASSERT_EQ(trail.inputs.size(), 3u);
  EXPECT_EQ(trail.inputs[0].value, "300 mm");
  EXPECT_EQ(trail.inputs[1].value, "40 in");
  EXPECT_EQ(trail.inputs[2].symbol, "D");
  EXPECT_NE(trail.formula.find("12 D"), std::string::npos);
  EXPECT_NE(trail.formula.find("at most 15 m"), std::string::npos);
}

TEST(Zones, TakeTheCautiousCellWhereToleranceAndAgeAreUnknown) {
  ZoneDefinition zone = zone_of({term(Kind::vigour_table)});
  zone.terms[0].matrix = {{6, 9, 12}, {9, 12, 15}, {12, 15, 18}};
  const Zone cautious = only_zone(tree_of(0.5), rule_of({zone}));
  EXPECT_NEAR(cautious.radius.metres(), 9, 1e-12);
  EXPECT_TRUE(has_note(cautious, NoteCode::tolerance_assumed));
  EXPECT_EQ(cautious.figure.from.status, Status::assumption);
}

RC_GTEST_PROP(Zones, OfAThickerStemAreNeverSmaller, ()) {
  const double stem = *rc::gen::inRange(1, 300) / 100.0, more = *rc::gen::inRange(0, 100) / 100.0;
  ZoneRule rule = twelve_diameters();
  ZoneDefinition table = zone_of({term(Kind::class_table)}, "table");
  table.terms[0].rows = {{metres(0.2), metres(1.2), {}}, {metres(0.5), metres(2.4), {}}};
  table.terms[0].beyond_factor = 6;
  rule.zones.push_back(table);
  const auto thin = zones_of(tree_of(stem), rule, {}),
             thick = zones_of(tree_of(stem + more), rule, {});
  RC_ASSERT(thin.ok() && thick.ok());
  for (std::size_t i = 0; i < thin->size(); ++i) {
    RC_ASSERT((*thick)[i].radius >= (*thin)[i].radius * (1 - 1e-12));
    RC_ASSERT((*thick)[i].area >= (*thin)[i].area * (1 - 1e-12));
  }
}

RC_GTEST_PROP(Zones, OfMixedTermsCoverEachTermAlone, ()) {
  const auto length = rc::gen::map(rc::gen::inRange(1, 120), [](int v) { return v / 10.0; });
  Tree tree = tree_of(0.5);
  tree.crown.emplace().radius = {metres(*length), metres(*length), metres(*length),
                                 metres(*length)};
  const double radius = *length, offset = *length;
  const ZoneTerm crown = term(Kind::crown_outline, 1, offset), fixed = term(Kind::fixed, 1, radius);
  const Zone both = only_zone(tree, rule_of({zone_of({crown, fixed})}));
  const Zone one = only_zone(tree, rule_of({zone_of({crown})}));
  const Zone other = only_zone(tree, rule_of({zone_of({fixed})}));
  RC_ASSERT(both.area >= one.area * (1 - 5e-4));
  RC_ASSERT(both.area >= other.area * (1 - 5e-4));
  RC_ASSERT(both.area <= (one.area + other.area) * (1 + 1e-9));
  RC_ASSERT(both.reach >= one.reach && both.reach >= other.reach);
}

}  // namespace
}  // namespace rootstead
