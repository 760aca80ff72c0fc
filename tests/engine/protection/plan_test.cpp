// Small drawn cases: what can be worked out on paper.
#include <cmath>

#include "tests/engine/protection/plan_fixture.hpp"

namespace rootstead {
namespace {

using namespace rootstead::test;

constexpr double kPi = 3.14159265358979323846;

SiteBuilder one_tree() {
  return std::move(SiteBuilder().rules({"twelve"}).tree("T1", {0, 0}, 0.5));
}

Site with_gate(Site site, Point at) {
  site.gates = {{"gate", at, metres(4)}};
  return site;
}

// ---- fences -------------------------------------------------------------------------------------

TEST(Plan, ALoneTreeStandsInARingOfStraightRuns) {
  // Zone of 6 m; sides that leave it by at most 0.2 m: pi / acos(6 / 6.2) = 12.3, so 13 sides of
  // 12 tan(pi / 13) = 2.958 m: shorter than the 3.0 m between posts.
  const ProtectionPlan plan = plan_of(one_tree());
  ASSERT_EQ(plan.enclosures.size(), 1u);
  ASSERT_EQ(plan.fences.size(), 1u);
  const double length = 13 * 12 * std::tan(kPi / 13);
  EXPECT_NEAR(length_of(plan.fences[0]).metres(), length, 1e-6);
  EXPECT_NEAR(quantity(plan, "fence-driven"), length - 1.2, 1e-6);
  EXPECT_EQ(quantity(plan, "fence-ballasted"), 0);
  EXPECT_EQ(quantity(plan, "posts-driven"), 15);  // 13 corners, two beside the gate
  EXPECT_EQ(quantity(plan, "gates-people"), 1);
  EXPECT_EQ(quantity(plan, "signs"), 2);  // 38.5 m at 30.48 m
  EXPECT_NEAR(plan.trees.at(0).fenced, 1, 1e-9);
  EXPECT_TRUE(plan.clashes.empty()) << words_of(plan.clashes);
}

TEST(Plan, NeighboursShareOneEnclosure) {
  const ProtectionPlan plan = plan_of(one_tree().tree("T2", {8, 0}, 0.5));
  ASSERT_EQ(plan.enclosures.size(), 1u);
  EXPECT_EQ(plan.enclosures[0].trees, (std::vector<std::string>{"T1", "T2"}));
  const ProtectionPlan apart = plan_of(one_tree().tree("T2", {20, 0}, 0.5));
  EXPECT_EQ(apart.enclosures.size(), 2u);
  EXPECT_EQ(quantity(apart, "gates-people"), 2);
}

TEST(Plan, TheStrictestRuleCanBeAskedFor) {
  const Site site = SiteBuilder().rules({"twelve", "fifteen"}).tree("T1", {0, 0}, 0.5);
  EXPECT_EQ(plan_of(site).trees.at(0).rule, "twelve");
  ProtectionOptions options;
  options.zones = ProtectionOptions::Zones::strictest;
  EXPECT_EQ(plan_of(site, options).trees.at(0).rule, "fifteen");
}

TEST(Plan, TheFenceKeepsClearOfTheWorkingRoom) {
  const Site site = one_tree().trench("W1", {{-20, 3}, {20, 3}}, 0.6, 1).with_work([](Work& work) {
    work.working_room = metres(0.5);
  });
  const ProtectionPlan plan = plan_of(site);
  ASSERT_EQ(plan.enclosures.size(), 2u);  // on both sides of the trench
  double nearest = HUGE_VAL;
  for (const Fence& fence : plan.fences)
    for (const Point& p : fence.line) nearest = std::min(nearest, std::abs(p.y - 3));
  EXPECT_NEAR(nearest, 0.3 + 0.5 + 0.1, 1e-6);
  EXPECT_TRUE(plan.clashes.empty()) << words_of(plan.clashes);
}

TEST(Plan, ProposedWorksMayBeLeftOut) {
  const Site site = one_tree().trench("W1", {{-20, 3}, {20, 3}}, 0.6, 1);
  ProtectionOptions approved;
  approved.proposed_works = false;
  EXPECT_EQ(plan_of(site, approved).enclosures.size(), 1u);
  EXPECT_EQ(plan_of(site).enclosures.size(), 2u);
}

TEST(Plan, PostsOnARootPlateAreNotDriven) {
  // The fence stands at 1.4 - 0.1 = 1.3 m; the plate has 4 x 0.5 = 2 m, so that it is crossed
  // for 2 sqrt(4 - 1.3^2) = 3.040 m.
  const Site site = one_tree().pit("W1", rectangle(-30, 1.4, 30, 30), 1);
  const ProtectionPlan plan = plan_of(site);
  double ballasted = 0;
  for (const Fence& fence : plan.fences) {
    for (const FenceStretch& stretch : fence.stretches) {
      if (stretch.footing != Footing::ballasted) continue;
      ballasted += (stretch.to - stretch.from).metres();
      EXPECT_EQ(stretch.trees, std::vector<std::string>{"T1"});
    }
    for (const FencePost& post : fence.posts) {
      const double away = std::hypot(post.at.x, post.at.y);
      EXPECT_EQ(post.footing == Footing::ballasted, away < 2 + 1e-6) << away;
    }
  }
  EXPECT_NEAR(ballasted, 2 * std::sqrt(4 - 1.3 * 1.3), 1e-6);
  EXPECT_TRUE(std::any_of(plan.prescriptions.begin(), plan.prescriptions.end(), [](const auto& p) {
    return p.topic == "fence" && p.text.find("ballasted feet") != std::string::npos &&
           p.tree == "T1";
  }));
}

TEST(Plan, BuildingsCloseTheGroundByThemselves) {
  const ProtectionPlan plan = plan_of(one_tree().building("B1", rectangle(-30, 3, 30, 20)));
  ASSERT_EQ(plan.fences.size(), 1u);
  const Fence& fence = plan.fences[0];
  EXPECT_NE(fence.line.front(), fence.line.back());  // open: it ends at the wall
  for (const Point& p : {fence.line.front(), fence.line.back()}) EXPECT_NEAR(p.y, 3, 0.01);
  EXPECT_TRUE(plan.clashes.empty()) << words_of(plan.clashes);
}

TEST(Plan, NothingStandsOutsideTheBoundary) {
  Site site = one_tree();
  site.boundary = rectangle(-3, -30, 30, 30);
  const ProtectionPlan plan = plan_of(site);
  for (const Fence& fence : plan.fences)
    for (const Point& p : fence.line) EXPECT_GE(p.x, -3 - 1e-9);
  EXPECT_TRUE(plan.clashes.empty()) << words_of(plan.clashes);
}

// ---- ways in ------------------------------------------------------------------------------------

TEST(Plan, AWorkInTheMiddleOfAZoneGetsACoveredWay) {
  const Site site =
      SiteBuilder().rules({"twelve"}).tree("T1", {0, 0}, 1).pit("W1", rectangle(5, -1, 7, 1), 1);
  const ProtectionPlan plan = plan_of(site);
  ASSERT_EQ(plan.ways.size(), 1u);
  EXPECT_EQ(plan.ways[0].work, "W1");
  EXPECT_TRUE(std::any_of(plan.covers.begin(), plan.covers.end(), [](const CoveredGround& c) {
    return c.way == "Y1" && c.load == LoadClass::heavy && c.load_assumed;
  }));
  EXPECT_TRUE(plan.clashes.empty()) << words_of(plan.clashes);
}

TEST(Plan, AGateOfTheBoundaryIsKeptFree) {
  Site site = with_gate(one_tree(), {-4, 0});
  site.boundary = rectangle(-4, -30, 30, 30);
  const ProtectionPlan plan = plan_of(site);
  ASSERT_EQ(plan.ways.size(), 1u);
  EXPECT_EQ(plan.ways[0].gate, "gate");
  EXPECT_TRUE(plan.clashes.empty()) << words_of(plan.clashes);
}

TEST(Plan, AGateOfTheSiteInAFenceStandsThere) {
  const ProtectionPlan plan = plan_of(with_gate(one_tree(), {0, 6.2}));
  ASSERT_EQ(plan.gates.size(), 2u);
  EXPECT_EQ(plan.gates[0].id, "gate");
  EXPECT_EQ(plan.gates[0].use, GateUse::machines);
  EXPECT_NEAR(plan.gates[0].width.metres(), 4, 1e-9);
  EXPECT_NEAR(quantity(plan, "fence-driven"), 13 * 12 * std::tan(kPi / 13) - 4 - 1.2, 1e-6);
}

// ---- ground and digging -------------------------------------------------------------------------

TEST(Plan, RootCutAndDigStretchesAreChords) {
  // Near edge of the trench at 2.7 m; its full width touches the zone where the middle line is
  // inside 6.3 m.
  const ProtectionPlan plan = plan_of(one_tree().trench("W1", {{-20, 3}, {20, 3}}, 0.6, 1));
  ASSERT_EQ(plan.root_cuts.size(), 1u);
  EXPECT_NEAR(length_of(plan.root_cuts[0].line).metres(), 2 * std::sqrt(36 - 2.7 * 2.7), 0.01);
  EXPECT_NEAR(plan.root_cuts[0].nearest.metres(), 2.7, 1e-6);
  ASSERT_EQ(plan.digs.size(), 1u);
  const double half = std::sqrt(6.3 * 6.3 - 9);
  EXPECT_NEAR(plan.digs[0].from.metres(), 20 - half, 0.02);
  EXPECT_NEAR(plan.digs[0].to.metres(), 20 + half, 0.02);
  EXPECT_EQ(plan.digs[0].method, DigMethod::hand);
  EXPECT_NEAR(quantity(plan, "dig-hand"), 2 * half, 0.05);
  EXPECT_EQ(quantity(plan, "dig-air"), 0);
}

// Two zones that overlap along the trench by a metre, and by 30 mm.
TEST(Plan, DigStretchesTooShortToPegOutJoinWhatTheyTouch) {
  const auto plan_at = [](double apart) {
    SiteBuilder site = one_tree();
    site.tree("T2", {apart, 0}, 0.5);
    return plan_of(site.trench("W1", {{-20, 5}, {40, 5}}, 0.6, 1));
  };
  // Half chord at 5 m of a zone grown to 6.3 m.
  const double half = std::sqrt(6.3 * 6.3 - 25);
  const ProtectionPlan wide = plan_at(2 * half - 1);
  ASSERT_EQ(wide.digs.size(), 3u);  // T1, both, T2
  const ProtectionPlan thin = plan_at(2 * half - 0.03);
  ASSERT_EQ(thin.digs.size(), 2u);
  EXPECT_EQ(thin.digs[0].trees, (std::vector<std::string>{"T1", "T2"}));
  EXPECT_EQ(thin.digs[1].trees, std::vector<std::string>{"T2"});
  EXPECT_NEAR(thin.digs[0].to.metres(), thin.digs[1].from.metres(), 1e-6);
  EXPECT_NEAR(quantity(thin, "dig-hand"), 4 * half - 0.03, 0.1);
}

// A line that only grazes a root plate: the crew is told of it, over a length it can find.
TEST(Plan, ShortDigStretchesOfMoreCareAreToldOverTheLeastLength) {
  const auto plan_at = [](double y) {
    return plan_of(one_tree().trench("W1", {{-20, y}, {20, y}}, 0.6, 1));
  };
  const ProtectionPlan grazing = plan_at(2.3 - 1e-4);  // the plate of 2 m: a chord of 43 mm
  ASSERT_EQ(grazing.digs.size(), 3u);
  EXPECT_EQ(grazing.digs[1].method, DigMethod::air);
  EXPECT_NEAR(quantity(grazing, "dig-air"), 0.1, 1e-6);
  EXPECT_NEAR(quantity(grazing, "dig-hand"), 2 * std::sqrt(6.3 * 6.3 - 2.3 * 2.3) - 0.1, 0.05);
  for (std::size_t i = 1; i < 3; ++i)
    EXPECT_NEAR(grazing.digs[i - 1].to.metres(), grazing.digs[i].from.metres(), 1e-6);
}

TEST(Plan, RootPlatesAreCrossedWithAir) {
  // Plate of 2 m and half a width of 0.3 m, the line at 1.5 m from the stem.
  const ProtectionPlan plan = plan_of(one_tree().trench("W1", {{-20, 1.5}, {20, 1.5}}, 0.6, 1));
  EXPECT_NEAR(quantity(plan, "dig-air"), 2 * std::sqrt(2.3 * 2.3 - 1.5 * 1.5), 0.01);
}

TEST(Plan, CoversTakeTheClassOfTheVehicle) {
  const auto cover_for = [](std::optional<double> kilograms, DigMethod method) {
    const Site site =
        one_tree().trench("W1", {{-20, 4}, {20, 4}}, 0.6, 1).with_work([&](Work& work) {
          work.working_room = metres(1);
          work.method = method;
          if (kilograms) work.vehicle = Vehicle{"plant", kilograms, {}, {}, {}, {}, {}};
        });
    return plan_of(site).covers.at(0);
  };
  EXPECT_EQ(cover_for(1500, DigMethod::machine).load, LoadClass::light_plant);
  EXPECT_EQ(cover_for(8000, DigMethod::machine).load, LoadClass::heavy);
  EXPECT_EQ(cover_for({}, DigMethod::hand).load, LoadClass::foot);
  EXPECT_TRUE(cover_for({}, DigMethod::machine).load_assumed);
  EXPECT_FALSE(cover_for(8000, DigMethod::machine).load_assumed);
}

TEST(Plan, PavingOverRootsIsBuiltOnTheGround) {
  const ProtectionPlan plan = plan_of(one_tree().paving("W1", rectangle(2, -1, 4, 1)));
  EXPECT_NEAR(quantity(plan, "no-dig"), 4, 1e-9);
}

// One prescription for one piece of ground: no line says to cut roots along what is not dug.
TEST(Plan, PavingOverRootsHasNoRootCutLine) {
  const auto deep = [](Work& work) { work.depth = metres(0.3); };
  const Site paved = one_tree().paving("W1", rectangle(2, -1, 4, 1)).with_work(deep);
  const ProtectionPlan plan = plan_of(paved);
  EXPECT_EQ(plan.no_dig.size(), 1u);
  EXPECT_TRUE(plan.root_cuts.empty());
  // A pit of the same outline is dug, and cut along its edges.
  Site dug = paved;
  dug.works.at(0).kind = WorkKind::pit;
  const ProtectionPlan cut = plan_of(dug);
  EXPECT_TRUE(cut.no_dig.empty());
  EXPECT_FALSE(cut.root_cuts.empty());
}

TEST(Plan, ABoreIsNamedWithItsPits) {
  Site site = one_tree();
  Work bore;
  bore.id = "W1";
  bore.kind = WorkKind::bore;
  bore.shape.lines = {{{-20, 1}, {20, 1}}};
  bore.depth = metres(2);
  bore.bore_diameter = metres(0.2);
  bore.bore_pits = {rectangle(4, 0, 5, 2).front(), rectangle(15, 0, 17, 2).front()};
  site.works.push_back(bore);
  const ProtectionPlan plan = plan_of(site);
  ASSERT_EQ(plan.bores.size(), 1u);
  EXPECT_EQ(plan.bores[0].pits_in_ground, 1u);
  EXPECT_NEAR((plan.bores[0].to - plan.bores[0].from).metres(), 2 * std::sqrt(6.1 * 6.1 - 1), 0.01);
}

// ---- trees that are not fenced ------------------------------------------------------------------

TEST(Plan, EveryTreeIsProtectedOrNamed) {
  const Site site = one_tree()
                        .tree("T2", {40, 0}, 0.5)
                        .with_tree([](Tree& tree) { tree.intent = Intent::remove; })
                        .tree("T3", {80, 0}, 0.5)
                        .with_tree([](Tree& tree) { tree.position.reset(); })
                        .palm("P1", {120, 0})
                        .tree("T4", {160, 0}, 0.3)
                        .pit("W1", rectangle(150, -10, 170, 10), 1);
  const ProtectionPlan plan = plan_of(site);
  ASSERT_EQ(plan.not_kept.size(), 1u);
  EXPECT_EQ(plan.not_kept[0].tree, "T2");
  ASSERT_EQ(plan.clashes.size(), 3u) << words_of(plan.clashes);
  EXPECT_TRUE(has_clash(plan.clashes, ClashKind::tree_unprotected, {"T3"}));
  EXPECT_TRUE(has_clash(plan.clashes, ClashKind::tree_unprotected, {"P1"}));
  EXPECT_TRUE(has_clash(plan.clashes, ClashKind::tree_unprotected, {"T4", "W1"}));
  ASSERT_EQ(plan.guards.size(), 1u);
  EXPECT_EQ(plan.guards[0].tree, "T4");
}

TEST(Plan, AVerdictOfRemovalCountsOnlyWhereNobodyDecided) {
  Site site = one_tree();
  Assessment assessment = zones_only(site);
  assessment.trees[0].verdict.action = Action::remove;
  EXPECT_EQ(protection_plan(site, plan_tables(), assessment)->not_kept.size(), 1u);
  site.trees[0].intent = Intent::keep;
  EXPECT_TRUE(protection_plan(site, plan_tables(), assessment)->not_kept.empty());
}

TEST(Plan, RefusesASiteWithoutTrees) {
  const auto plan = protection_plan(Site{}, plan_tables(), Assessment{});
  ASSERT_FALSE(plan.ok());
  EXPECT_EQ(plan.error().sentence(),
            "project: it has no trees to protect; add a tree survey first.");
}

// ---- words --------------------------------------------------------------------------------------

TEST(Plan, PrescribesStretchByStretchInTheUnitsOfTheSheet) {
  const Site site = one_tree()
                        .trench("W1", {{-20, 3}, {20, 3}}, 0.6, 1)
                        .with_work([](Work& work) { work.working_room = metres(0.5); })
                        .paving("W2", rectangle(2, -1, 4, 1));
  const ProtectionPlan plan = plan_of(site);
  for (const char* topic :
       {"fence", "ground protection", "dig by hand", "no-dig", "root cut", "signs", "hold point"})
    EXPECT_TRUE(std::any_of(plan.prescriptions.begin(), plan.prescriptions.end(),
                            [&](const Prescription& p) { return p.topic == topic; }))
        << topic;
  for (const Prescription& p : plan.prescriptions) {
    EXPECT_TRUE(p.text.ends_with(".")) << p.text;
    EXPECT_NE(plan_tables().source(p.from.source), nullptr) << p.from.source;
  }
  const auto feet = prescriptions_of(plan, site, plan_tables(), UnitSystem::us_customary);
  ASSERT_EQ(feet.size(), plan.prescriptions.size());
  EXPECT_NE(feet[0].text.find(" ft"), std::string::npos) << feet[0].text;
}

TEST(Plan, StepsAreNumberedAndHoldPointsSayWhoAttends) {
  const ProtectionPlan plan = plan_of(one_tree().trench("W1", {{-20, 3}, {20, 3}}, 0.6, 1));
  int number = 0, holds = 0;
  for (const Step& step : plan.steps) {
    EXPECT_EQ(step.number, ++number);
    EXPECT_FALSE(step.attends.empty());
    EXPECT_NE(plan_tables().source(step.from.source), nullptr) << step.from.source;
    holds += step.hold ? 1 : 0;
  }
  EXPECT_EQ(holds, 6);  // meeting, measures in place, line marked, roots cut, hand digging, end
}

TEST(Plan, VisitsFollowEventsAndTheLengthOfTheWorks) {
  ProtectionOptions options;
  options.months = 5;
  // Three events of any site, five months, nothing is dug.
  EXPECT_EQ(quantity(plan_of(one_tree(), options), "inspections"), 8);
}

TEST(Plan, EveryQuantityHasATrail) {
  const ProtectionPlan plan = plan_of(one_tree());
  const auto figures = figures_of(plan);
  ASSERT_EQ(figures.size(), plan.bill.size());
  for (const Figure& figure : figures) {
    EXPECT_FALSE(figure.formula.empty());
    EXPECT_NE(plan_tables().source(figure.from.source), nullptr) << figure.from.source;
  }
}

}  // namespace
}  // namespace rootstead
