#include "engine/assess/assess.hpp"

#include <gtest/gtest.h>

#include <set>

#include "engine/rootstead.hpp"
#include "tests/engine/assess/fingerprint.hpp"
#include "tests/support/loaded_tables.hpp"
#include "tests/support/site_builder.hpp"

namespace rootstead {
namespace {

using namespace rootstead::test;

AssessOptions quick(int draws = 60, int threads = 1, std::uint64_t seed = 1) {
  AssessOptions options;
  options.simulation = {seed, draws};
  options.threads = threads;
  return options;
}

Assessment assessed(const Site& site, const AssessOptions& options = quick()) {
  auto result = assess(site, loaded_tables(), options);
  if (!result.ok()) ADD_FAILURE() << result.error().sentence();
  return result.ok() ? std::move(result).value() : Assessment{};
}

const ZoneAssessment* zone_named(const TreeAssessment& tree, std::string_view zone) {
  for (const ZoneAssessment& one : tree.zones) {
    if (one.zone.zone == zone) return &one;
  }
  return nullptr;
}

const LimitResult* limit_named(const TreeAssessment& tree, std::string_view limit) {
  for (const ZoneAssessment& one : tree.zones) {
    for (const LimitResult& result : one.limits) {
      if (result.limit == limit) return &result;
    }
  }
  return nullptr;
}

SiteBuilder australian() {
  return std::move(SiteBuilder().rules({"as4970-2009"}));
}

// ---- published values, end to end ---------------------------------------------------------------

TEST(Assess, AHalfMetreStemUnderAs4970) {
  // AS 4970-2009: 12 x 0.5 = 6 m, 10 % line; straight cuts at 4.5 m (7.215 %) and 3.0 m (19.550 %).
  const auto cut_at = [](double at) {
    return assessed(australian().tree("T1", {0, 0}, 0.5).pit("W1", ground_north_of(at), 1))
        .trees[0];
  };
  const TreeAssessment minor = cut_at(4.5), major = cut_at(3.0);
  EXPECT_NEAR(zone_named(minor, "tree-protection-zone")->loss.share, 0.07215, 5e-6);
  EXPECT_FALSE(limit_named(minor, "major-encroachment")->passed_over);
  EXPECT_NEAR(zone_named(major, "tree-protection-zone")->loss.share, 0.19550, 5e-6);
  EXPECT_TRUE(limit_named(major, "major-encroachment")->passed_over);
  EXPECT_EQ(major.verdict.action, Action::assess_further);
}

TEST(Assess, ANarrowPitInsideTheStructuralZoneIsMajor) {
  const Site site = australian()
                        .tree("T1", {0, 0}, 0.5)
                        .with_tree([](Tree& tree) { tree.basal_diameter = metres(0.6); })
                        .pit("W1", rectangle(-0.3, 2.5, 0.3, 8.2), 1);
  const TreeAssessment tree = assessed(site).trees[0];
  EXPECT_NEAR(zone_named(tree, "structural-root-zone")->zone.radius.metres(), 2.6704, 5e-5);
  EXPECT_TRUE(limit_named(tree, "structural-entry")->passed_over);
  EXPECT_FALSE(limit_named(tree, "major-encroachment")->passed_over);
  EXPECT_GE(tree.verdict.stability, Concern::material);
}

TEST(Assess, SurfacingUnderBs5837IsAShareOfBareGround) {
  // BS 5837:2012 7.4.2.3: 113.097 m2 with 30 m2 paved today: 16.619 m2 of new surfacing.
  const auto paved = [](double area) {
    return assessed(SiteBuilder()
                        .rules({"bs5837-2012"})
                        .tree("T1", {0, 0}, 0.5)
                        .surface("S1", rectangle(-3, -5, 3, 0))
                        .paving("W1", rectangle(-area / 8, 0.5, area / 8, 4.5)))
        .trees[0];
  };
  EXPECT_FALSE(limit_named(paved(16.61), "new-hard-surface")->passed_over);
  EXPECT_TRUE(limit_named(paved(16.63), "new-hard-surface")->passed_over);
}

// ---- what is missing or out of reach ------------------------------------------------------------

TEST(Assess, RefusesAProjectWithoutTreesAndARuleNobodyKnows) {
  const auto empty = assess(Site{}, loaded_tables(), quick());
  ASSERT_FALSE(empty.ok());
  EXPECT_EQ(empty.error().sentence(),
            "project: it has no trees; add a tree survey before assessing.");
  const Site site = SiteBuilder().rules({"no-such-rule"}).tree("T1", {0, 0}, 0.5);
  const auto unknown = assess(site, loaded_tables(), quick());
  ASSERT_FALSE(unknown.ok());
  EXPECT_EQ(unknown.error().code, Code::unknown_name);
  EXPECT_NE(unknown.error().sentence().find("no-such-rule"), std::string::npos);
}

TEST(Assess, SaysWhichRuleItTookWhereNoneIsChosen) {
  const Assessment assessment = assessed(SiteBuilder().tree("T1", {0, 0}, 0.5));
  EXPECT_EQ(assessment.trees[0].zones.front().zone.rule, "bs5837-2012");
  EXPECT_TRUE(std::any_of(
      assessment.problems.begin(), assessment.problems.end(),
      [](const auto& p) { return p.code == NoteCode::rule_chosen_by_default && !p.blocks; }));
}

TEST(Assess, ATreeOutOfReachLosesExactlyNothing) {
  const TreeAssessment tree =
      assessed(australian().tree("T1", {0, 0}, 0.5).pit("W1", ground_north_of(300), 1)).trees[0];
  EXPECT_EQ(tree.verdict.action, Action::keep);
  ASSERT_TRUE(tree.roots && tree.anchorage);
  EXPECT_EQ(tree.roots->all, (Range{0, 0, 0}));
  EXPECT_EQ(tree.anchorage->kept, (Range{1, 1, 1}));
  EXPECT_FALSE(tree.affected());
}

TEST(Assess, ATreeWithoutPositionOrDiameterIsUndecidedAndNeverDropped) {
  const Site site = australian()
                        .tree("T1", {0, 0}, 0.5)
                        .with_tree([](Tree& tree) { tree.position.reset(); })
                        .tree("T2", {5, 0}, 0.5)
                        .with_tree([](Tree& tree) {
                          tree.stems.clear();
                          tree.basal_diameter.reset();
                        })
                        .tree("T3", {9, 0}, 0.5)
                        .pit("W1", rectangle(3, 3, 4, 4), 1);
  const Assessment assessment = assessed(site);
  ASSERT_EQ(assessment.trees.size(), 3u);
  EXPECT_EQ(assessment.trees[0].verdict.action, Action::undecided);
  EXPECT_EQ(assessment.trees[0].verdict.missing.front(), "position");
  EXPECT_NEAR(zone_named(assessment.trees[0], "tree-protection-zone")->zone.radius.metres(), 6,
              1e-12);
  EXPECT_EQ(assessment.trees[1].verdict.action, Action::undecided);
  EXPECT_EQ(assessment.trees[1].verdict.missing.front(), "stem diameter");
  EXPECT_NE(assessment.trees[2].verdict.action, Action::undecided);
}

TEST(Assess, APalmIsNeverPutThroughAStemRule) {
  const Site site = SiteBuilder()
                        .rules({"bs5837-2012", "as4970-2009"})
                        .palm("P1", {0, 0})
                        .pit("W1", rectangle(2, -1, 3, 1), 1);
  const TreeAssessment palm = assessed(site).trees[0];
  ASSERT_EQ(palm.rules_not_applied.size(), 1u);
  EXPECT_EQ(palm.rules_not_applied[0].code, Code::outside_rule_domain);
  for (const ZoneAssessment& one : palm.zones) EXPECT_EQ(one.zone.rule, "as4970-2009");
  EXPECT_NEAR(palm.zones.front().zone.area.square_metres(), 3.1416 * 3.5 * 3.5, 0.05);
  EXPECT_NE(palm.verdict.action, Action::undecided);
}

TEST(Assess, ExistingWorksAreNotedAndTakeNothing) {
  const Site site = australian()
                        .tree("T1", {0, 0}, 0.5)
                        .pit("W1", rectangle(-9, 2, 9, 3), 1)
                        .with_work([](Work& work) { work.state = WorkState::existing; });
  const TreeAssessment tree = assessed(site).trees[0];
  EXPECT_EQ(tree.verdict.action, Action::keep);
  EXPECT_FALSE(tree.affected());
  EXPECT_TRUE(std::any_of(tree.notes.begin(), tree.notes.end(), [](const Note& note) {
    return note.code == NoteCode::existing_work_near;
  }));
}

TEST(Assess, AssumedDepthsAndWidthsAreNoted) {
  const Site site = australian()
                        .tree("T1", {0, 0}, 0.5)
                        .trench("W1", {{-9, 3}, {9, 3}}, 0.5, 1)
                        .with_work([](Work& work) {
                          work.depth.reset();
                          work.width.reset();
                        });
  std::set<NoteCode> codes;
  const TreeAssessment tree = assessed(site).trees[0];
  for (const Note& note : tree.notes) codes.insert(note.code);
  EXPECT_TRUE(codes.count(NoteCode::depth_assumed) && codes.count(NoteCode::width_assumed));
}

// ---- same input, same bits ----------------------------------------------------------------------

Site busy_site(std::uint64_t seed, int trees = 12, int works = 10) {
  Site site = random_site(seed, trees, works, 45);
  site.settings.rules = {"as4970-2009", "bs5837-2012"};
  return site;
}

TEST(Assess, TheNumberOfThreadsChangesNothing) {
  const Site site = busy_site(7);
  const std::string one = bits(assessed(site, quick(60, 1)));
  EXPECT_EQ(one, bits(assessed(site, quick(60, 2))));
  EXPECT_EQ(one, bits(assessed(site, quick(60, 5))));
  EXPECT_EQ(one, bits(assessed(site, quick(60, 0))));
}

TEST(Assess, TheSeedDecidesTheDraws) {
  const Site site = busy_site(8, 4);
  EXPECT_EQ(bits(assessed(site, quick(60, 1, 5))), bits(assessed(site, quick(60, 1, 5))));
  EXPECT_NE(bits(assessed(site, quick(60, 1, 5))), bits(assessed(site, quick(60, 1, 6))));
}

TEST(Assess, OneTreeAloneGivesTheSameBitsAsAmongOthers) {
  const Site site = busy_site(9, 6);
  const Assessment all = assessed(site);
  for (std::size_t i = 0; i < site.trees.size(); ++i) {
    Site alone = site;
    alone.trees = {site.trees[i]};
    EXPECT_EQ(bits(assessed(alone).trees[0]), bits(all.trees[i])) << site.trees[i].id;
  }
}

TEST(Assess, ReportsProgressOnceForEachTree) {
  const Site site = busy_site(10, 9, 3);
  AssessOptions options = quick(10, 3);
  std::vector<std::size_t> seen;
  options.progress = [&](std::size_t done, std::size_t all) {
    EXPECT_EQ(all, 9u);
    seen.push_back(done);
  };
  assessed(site, options);
  EXPECT_EQ(seen, (std::vector<std::size_t>{1, 2, 3, 4, 5, 6, 7, 8, 9}));
}

// ---- what is said -------------------------------------------------------------------------------

TEST(Assess, EveryFigureHasANameOfItsOwnAFormulaAndAKnownSource) {
  const Assessment assessment = assessed(busy_site(11, 5));
  for (const TreeAssessment& tree : assessment.trees) {
    std::set<std::string> names;
    for (const Figure& figure : figures_of(tree)) {
      EXPECT_TRUE(names.insert(figure.name).second) << figure.name;
      EXPECT_FALSE(figure.formula.empty()) << figure.name;
      EXPECT_NE(loaded_tables().source(figure.from.source), nullptr)
          << figure.name << ": " << figure.from.source;
      EXPECT_TRUE(!figure.name.starts_with("roots.met-") || figure.unit == "roots") << figure.name;
    }
    EXPECT_TRUE(names.count("as4970-2009.tree-protection-zone.radius"));
    EXPECT_TRUE(names.count("as4970-2009.tree-protection-zone.affected-share"));
    EXPECT_TRUE(names.count("roots.absorbing-loss"));
    EXPECT_TRUE(names.count("anchorage.kept"));
  }
}

TEST(Assess, TheCautionsAreAllThere) {
  const std::vector<std::string>& said = cautions();
  const std::string all = joined(said, "\n");
  for (const char* words : {"screening aid",
                            "risk assessment",
                            "engineering design",
                            "certificate",
                            "only ground",
                            "felled",
                            "expose them by hand",
                            "qualified arborist",
                            "engineer",
                            "pull test",
                            "permits",
                            "protected species",
                            "edition",
                            "buried services",
                            "Keep people clear",
                            "Stop at once",
                            "assumed",
                            "from memory",
                            "range",
                            "two separate answers"}) {
    EXPECT_NE(all.find(words), std::string::npos) << words;
  }
  EXPECT_EQ(assessed(SiteBuilder().tree("T1", {0, 0}, 0.5)).cautions, said);
  for (const std::string& sentence : said) EXPECT_EQ(sentence.back(), '.');
}

// What is not simulated would have given zero: the extent's high end stays well inside the search.
TEST(Assess, TheSearchForWorksReachesBeyondTheHighEndOfTheRoots) {
  constexpr double kExtentsToMatter = 1.75;
  Site site = random_site(12, 40, 0, 100);
  site.trees.push_back(SiteBuilder().palm("P1", {5, 5}).site().trees.front());
  site.trees[3].crown.reset();
  for (const Tree& tree : site.trees) {
    const auto model = root_model(tree, site, loaded_tables());
    ASSERT_TRUE(model.ok());
    const double central = (*model)->estimate({1, 0}).extent_m.best;
    EXPECT_LT((*model)->estimate({1, 1000}).extent_m.high, kExtentsToMatter * central) << tree.id;
  }
}

// ---- properties on random sites -----------------------------------------------------------------

// One tree in the middle of a few works; losses and anchorage by the same seed.
Site scene(int least_works = 1) {
  const auto seed = *rc::gen::arbitrary<std::uint32_t>();
  const int works = *rc::gen::inRange(least_works, 5);
  RC_LOG() << "seed " << seed << ", works " << works << '\n';
  Site site = random_site(seed, 1, works, 14);
  site.trees.front().position->at = {7, 7};
  site.settings.rules = {"as4970-2009"};
  return site;
}

TreeAssessment tree_of(const Site& site) {
  auto result = assess(site, loaded_tables(), quick(20));
  RC_ASSERT(result.ok());
  return std::move(result.value().trees.front());
}

void in_unit(const Range& range) {
  RC_ASSERT(0 <= range.low && range.low <= range.best && range.best <= range.high &&
            range.high <= 1);
}

constexpr double kRounding = 1e-9;

void no_less(const Range& more, const Range& less) {
  RC_ASSERT(more.low >= less.low - kRounding);
  RC_ASSERT(more.best >= less.best - kRounding);
  RC_ASSERT(more.high >= less.high - kRounding);
}

// Losses only grow, anchorage only falls, in every direction.
void no_better(const TreeAssessment& after, const TreeAssessment& before) {
  no_less(after.roots->all, before.roots->all);
  for (std::size_t i = 0; i < after.zones.size(); ++i)
    RC_ASSERT(after.zones[i].loss.share >= before.zones[i].loss.share - kRounding);
  for (std::size_t i = 0; i < kWindDirections; ++i)
    RC_ASSERT(after.anchorage->by_direction[i] <= before.anchorage->by_direction[i] + kRounding);
}

RC_GTEST_PROP(AssessProperty, EveryShareLiesBetweenNothingAndAllAndNonePassesTheWhole, ()) {
  const TreeAssessment tree = tree_of(scene());
  in_unit(tree.roots->all);
  for (const auto& by : tree.roots->by_work) {
    in_unit(by.alone);
    no_less(tree.roots->all, by.alone);
  }
  in_unit(tree.anchorage->kept);
  for (const double kept : tree.anchorage->by_direction) RC_ASSERT(kept >= 0 && kept <= 1);
}

// A site in which there is more work, in one of three ways.
Site with_more(Site site) {
  switch (*rc::gen::inRange(0, 3)) {
    case 0:
      RC_TAG("a work added");
      site.works.push_back(random_site(*rc::gen::arbitrary<std::uint32_t>(), 1, 1, 14).works[0]);
      site.works.back().id = "added";
      break;
    case 1:
      RC_TAG("works deepened");
      for (Work& work : site.works) work.depth->value *= 1.0 + *rc::gen::inRange(0, 20) / 10.0;
      break;
    default:
      RC_TAG("trenches widened");
      for (Work& work : site.works) {
        if (work.width) work.width->value *= 1.5;
        if (work.working_room) work.working_room->value += 0.3;
      }
  }
  return site;
}

RC_GTEST_PROP(AssessProperty, AddingDeepeningOrWideningNeverReducesALoss, ()) {
  const Site site = scene();
  no_better(tree_of(with_more(site)), tree_of(site));
}

void close(const Range& a, const Range& b, double tolerance) {
  RC_ASSERT(std::abs(a.low - b.low) < tolerance);
  RC_ASSERT(std::abs(a.best - b.best) < tolerance);
  RC_ASSERT(std::abs(a.high - b.high) < tolerance);
}

RC_GTEST_PROP(AssessProperty, MovingOrRedrawingTheSiteChangesNothing, ()) {
  const Site site = scene();
  const bool move = *rc::gen::arbitrary<bool>();
  const TreeAssessment here = tree_of(site);
  const TreeAssessment there = tree_of(move ? shifted(site, 481000, 5455000) : redrawn(site));
  const double tolerance = move ? 1e-5 : 1e-9;
  close(here.roots->all, there.roots->all, tolerance);
  close(here.anchorage->kept, there.anchorage->kept, tolerance);
  RC_ASSERT(here.verdict.action == there.verdict.action);
}

RC_GTEST_PROP(AssessProperty, TurningTheSiteTurnsTheWeakestDirection, ()) {
  const Site site = scene();
  const TreeAssessment straight = tree_of(site);
  const TreeAssessment quarter = tree_of(turned(site, -90, {7, 7}));  // clockwise
  close(straight.anchorage->kept, quarter.anchorage->kept, 1e-3);
  for (std::size_t i = 0; i < kWindDirections; ++i) {
    const std::size_t turned_by = (i + kWindDirections / 4) % kWindDirections;
    RC_ASSERT(std::abs(straight.anchorage->by_direction[i] -
                       quarter.anchorage->by_direction[turned_by]) < 1e-3);
  }
}

}  // namespace
}  // namespace rootstead
