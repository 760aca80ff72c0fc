// How sure a verdict is: sites whose answer is known, then laws on random sites.
#include "engine/sureness/sureness.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/assess/tree_trial.hpp"
#include "tests/support/loaded_tables.hpp"
#include "tests/support/site_builder.hpp"

namespace rootstead {
namespace {

using namespace rootstead::test;

Tables with(Tables tables, std::string_view id, double value) {
  bool found = false;
  for (Parameter& one : tables.parameters) {
    if (one.id != id) continue;
    one.low = one.best = one.high = value;
    found = true;
  }
  EXPECT_TRUE(found) << id;
  return tables;
}

// Verdicts by zones alone: no loss of roots is ever spoken of, and all anchorage is enough. So a
// tree's health concern is none without a work in its zone, and more with one.
Tables zones_alone() {
  Tables tables = loaded_tables();
  for (const char* loss :
       {"loss_noticed", "loss_any_tree", "loss_tolerated.good", "loss_tolerated.moderate",
        "loss_tolerated.poor", "loss_tolerated.unknown"})
    tables = with(std::move(tables), std::string("verdict.") + loss, 9);
  for (const char* kept : {"no_change", "small_change", "material_change"})
    tables = with(std::move(tables), std::string("verdict.anchorage.") + kept, 0);
  return tables;
}

// A stem of 500 mm has a zone of 6 m; the trench's near side lies `beyond` that.
Site one_tree(double beyond, std::optional<double> error) {
  const double near = 6 + beyond;
  Site site = SiteBuilder()
                  .rules({"bs5837-2012"})
                  .tree("T1", {0, 0}, 0.5)
                  .trench("W1", {{-60, near + 0.3}, {60, near + 0.3}}, 0.6, 1.0);
  if (error) site.trees[0].position->error = metres(*error);
  return site;
}

SurenessOptions quick(int draws = 100) {
  SurenessOptions options;
  options.draws = draws;
  options.root_draws = 4;
  options.as_entered.draws = 16;
  options.threads = 1;
  return options;
}

Sureness sure(const Site& site, const Tables& tables, const SurenessOptions& options = quick()) {
  auto made = sureness_of(site, tables, options);
  if (!made) ADD_FAILURE() << made.error().sentence();
  return made ? std::move(made).value() : Sureness{};
}

void expect_none(const Changed& changed) {
  EXPECT_EQ(changed, Changed{});
}

TEST(Sureness, ZoneEdgeAtTheTrenchChangesInHalfOfTheDraws) {
  const Tables tables = with(zones_alone(), "sureness.stem.diameter", 0);
  const auto tree = sure(one_tree(1e-6, 0.4), tables).trees.at(0);
  EXPECT_EQ(tree.entered.health, Concern::none);
  EXPECT_NEAR(tree.positions.health, 50, 1);  // strata: one deviate in each hundredth
  EXPECT_NEAR(tree.all.any, 50, 1);
  EXPECT_EQ(tree.positions.stability, 0);
  expect_none(tree.sizes);
  expect_none(tree.roots);
}

// docs/methods/sureness.md, worked example: half a metre beyond the zone's edge.
TEST(Sureness, WorkedExample) {
  const Sureness made = sure(one_tree(0.5, 0.5), zones_alone());
  const TreeSureness& tree = made.trees.at(0);
  EXPECT_NEAR(tree.positions.any / 100.0, 0.1587, 0.011);  // Phi(-0.5 / 0.5)
  EXPECT_NEAR(tree.sizes.any / 100.0, 0.0038, 0.011);      // Phi(-ln(6.5 / 6) / 0.03)
  EXPECT_NEAR(tree.all.any / 100.0, 0.173, 0.035);         // Phi(-0.5 / 0.531)
  ASSERT_FALSE(made.worth.empty());
  EXPECT_EQ(made.worth[0].measurement, Worth::Measurement::position);
  EXPECT_NEAR(made.worth[0].fewer, 0.169, 0.04);
  EXPECT_NEAR(made.expected, tree.all.any / 100.0, 1e-12);
  EXPECT_NE(made.worth[0].what.find("0.50 m, as stated"), std::string::npos) << made.worth[0].what;
  const Range share = share_of(tree.all.any, 100);
  EXPECT_LT(share.low, 0.173);
  EXPECT_GT(share.high, 0.173);
}

TEST(Sureness, FarFromEverythingNeverChanges) {
  const auto tree = sure(one_tree(60, 0.5), loaded_tables(), quick(20)).trees.at(0);
  EXPECT_TRUE(tree.decided);
  for (const Changed& changed : {tree.positions, tree.sizes, tree.roots, tree.all})
    expect_none(changed);
  EXPECT_EQ(tree.most_lost, tree.least_lost);
}

TEST(Sureness, WithoutErrorNothingChanges) {
  Tables tables = with(loaded_tables(), "sureness.stem.diameter", 0);
  const auto tree = sure(one_tree(-3, 0.0), tables, quick(20)).trees.at(0);
  expect_none(tree.positions);
  expect_none(tree.sizes);
  EXPECT_EQ(tree.all, tree.roots);
}

TEST(Sureness, TooFewDrawsAreRefusedAndUndecidedTreesToldApart) {
  EXPECT_FALSE(sureness_of(one_tree(0, {}), loaded_tables(), quick(0)).ok());
  Site site = one_tree(0, {});
  site.trees[0].position.reset();
  const Sureness made = sure(site, loaded_tables(), quick(5));
  EXPECT_FALSE(made.trees.at(0).decided);
  ASSERT_EQ(made.notes.size(), 1U);
  EXPECT_EQ(made.notes[0].code, NoteCode::sureness_undecided);
  EXPECT_TRUE(made.worth.empty());
}

TEST(Sureness, ErrorsAreThoseStatedOrByHowItWasMeasured) {
  const Tables& tables = loaded_tables();
  Tree tree = one_tree(0, 0.25).trees[0];
  EXPECT_EQ(errors_of(tree, tables).position.sigma, 0.25);
  EXPECT_TRUE(errors_of(tree, tables).position.stated);
  const auto sigma = [&](const char* source) {
    tree.position->error.reset();
    tree.position->source = source;
    const TreeErrors errors = errors_of(tree, tables);
    EXPECT_EQ(errors.position.from.status, Status::assumption);
    return errors.position.sigma;
  };
  EXPECT_EQ(sigma("Total station"), tables.parameter("sureness.position.instrument").best);
  EXPECT_EQ(sigma("tape ties"), tables.parameter("sureness.position.tape").best);
  EXPECT_EQ(sigma("my phone"), tables.parameter("sureness.position.phone").best);
  EXPECT_EQ(sigma("centre of an outline"), tables.parameter("sureness.position.drawing").best);
  EXPECT_EQ(sigma(""), tables.parameter("sureness.position.unknown").best);

  const auto size = [&](const char* notes) {
    tree.notes = notes;
    return errors_of(tree, tables).size.sigma;
  };
  EXPECT_EQ(size(""), tables.parameter("sureness.stem.diameter").best);
  EXPECT_EQ(size("Seen over the fence; diameter estimated"),
            tables.parameter("sureness.stem.estimated").best);
  EXPECT_EQ(size("Height estimated"), tables.parameter("sureness.stem.diameter").best);
  tree.stems[0].read = Stem::Read::girth;
  EXPECT_EQ(size(""), tables.parameter("sureness.stem.girth").best);
}

TEST(Sureness, PalmsAreNeverJudgedByTheirStem) {
  Site site = SiteBuilder().palm("P1", {0, 0});
  const TreeErrors errors = errors_of(site.trees[0], loaded_tables());
  EXPECT_TRUE(errors.of_height);
  const Tree taller = resized(site.trees[0], errors, {0, 0, {1, 1}});
  EXPECT_EQ(taller.stems[0].size, site.trees[0].stems[0].size);
  EXPECT_NEAR(taller.height->value, 9 * std::exp(errors.size.sigma), 1e-12);
}

TEST(Sureness, SlidesWithinItsRange) {
  const Range range{0.2, 0.3, 0.6};
  EXPECT_EQ(value_at(range, 0.5), 0.3);
  EXPECT_DOUBLE_EQ(value_at(range, 0.01), 0.2);
  EXPECT_DOUBLE_EQ(value_at(range, 0.9), 0.6);
  EXPECT_NEAR(value_at(range, 0.7), 0.45, 1e-12);
  EXPECT_EQ(slid(range, 0.5), range);
  EXPECT_NEAR(slid(range, 0.9).best, 0.6, 1e-12);
  EXPECT_NEAR(slid(range, 0.9).high, 0.9, 1e-12);
  EXPECT_NEAR(slid(range, 0.9, 0.5).best, 0.45, 1e-12);
  EXPECT_EQ(slid({0.5, 0.8, 0.9}, 1).high, 1);
}

// Score interval of 0 and of 10 of 100: 3.70 %; 5.52 % to 17.44 % (computed by hand).
TEST(Sureness, SharesSayHowGoodTheyAre) {
  EXPECT_EQ(share_of(0, 100).low, 0);
  EXPECT_NEAR(share_of(0, 100).high, 0.0370, 5e-5);
  EXPECT_NEAR(share_of(10, 100).low, 0.0552, 5e-5);
  EXPECT_NEAR(share_of(10, 100).high, 0.1744, 5e-5);
  EXPECT_EQ(share_of(7, 7).high, 1);
}

TEST(Sureness, AWiderErrorOfOneEdgeNeverChangesFewerDraws) {
  const Tables tables = with(zones_alone(), "sureness.stem.diameter", 0);
  int before = 0;
  for (const double error : {0.0, 0.1, 0.3, 0.6, 1.2}) {
    const int now = sure(one_tree(0.5, error), tables, quick(25)).trees.at(0).positions.any;
    EXPECT_GE(now, before) << error;
    before = now;
  }
  EXPECT_GT(before, 0);
}

// ---- laws on random sites
// ------------------------------------------------------------------------

Site random_measured_site(std::uint64_t seed) {
  Site site = random_site(seed, 5, 3, 30);
  site.settings.rules = {"bs5837-2012"};
  RandomStream random(seed, "errors");
  for (Tree& tree : site.trees) tree.position->error = metres(random.uniform(0.0, 1.0));
  return site;
}

void expect_same(const TreeSureness& a, const TreeSureness& b) {
  EXPECT_EQ(a.tree, b.tree);
  EXPECT_EQ(a.entered, b.entered);
  EXPECT_EQ(a.positions, b.positions);
  EXPECT_EQ(a.sizes, b.sizes);
  EXPECT_EQ(a.roots, b.roots);
  EXPECT_EQ(a.all, b.all);
  EXPECT_EQ(a.most_lost, b.most_lost);
  EXPECT_EQ(a.least_lost, b.least_lost);
}

TEST(Sureness, ThreadsAndOtherTreesChangeNothing) {
  for (const std::uint64_t seed : {1U, 2U}) {
    Site site = random_measured_site(seed);
    SurenessOptions options = quick(4);
    const Sureness one = sure(site, loaded_tables(), options);
    options.threads = 4;
    const Sureness four = sure(site, loaded_tables(), options);
    ASSERT_EQ(one.trees.size(), four.trees.size());
    for (std::size_t i = 0; i < one.trees.size(); ++i) expect_same(one.trees[i], four.trees[i]);
    ASSERT_EQ(one.worth.size(), four.worth.size());
    EXPECT_EQ(one.expected, four.expected);

    for (std::size_t i = 1; i < site.trees.size(); ++i) site.trees[i].position->error = metres(3);
    expect_same(one.trees[0], sure(site, loaded_tables(), options).trees[0]);
    std::reverse(site.trees.begin(), site.trees.end());
    expect_same(one.trees[0], sure(site, loaded_tables(), options).trees.back());
  }
}

TEST(Sureness, CountsKeepTheirOrder) {
  for (std::uint64_t seed = 11; seed < 13; ++seed) {
    const SurenessOptions options = quick(6);
    const Sureness made = sure(random_measured_site(seed), loaded_tables(), options);
    double expected = 0;
    for (const TreeSureness& tree : made.trees) {
      for (const Changed& one : {tree.positions, tree.sizes, tree.roots, tree.all}) {
        EXPECT_LE(std::max({one.action, one.health, one.stability}), one.any);
        EXPECT_LE(one.any, one.action + one.health + one.stability);
        EXPECT_LE(one.any, options.draws);
      }
      expected += tree.all.any / 6.0;
    }
    EXPECT_NEAR(made.expected, expected, 1e-9);
    for (std::size_t i = 0; i < made.worth.size(); ++i) {
      EXPECT_GT(made.worth[i].fewer, 2 * made.worth[i].standard_error);
      if (i > 0) {
        EXPECT_LE(made.worth[i].fewer, made.worth[i - 1].fewer);
      }
    }
  }
}

TEST(TreeTrial, SaysWhatAssessSays) {
  for (const std::uint64_t seed : {21U, 22U, 23U}) {
    const Site site = random_measured_site(seed);
    AssessOptions options;
    options.simulation.draws = 16;
    options.answers_only = true;
    options.threads = 1;
    const auto whole = assess(site, loaded_tables(), options);
    const auto trial = TreeTrial::start(site, loaded_tables(), options);
    ASSERT_TRUE(whole.ok() && trial.ok());
    for (std::size_t i = 0; i < site.trees.size(); ++i) {
      const TreeAssessment one = trial->assess(site.trees[i]);
      EXPECT_EQ(answers_of(one.verdict), answers_of(whole->trees[i].verdict));
      ASSERT_EQ(one.roots.has_value(), whole->trees[i].roots.has_value());
      if (one.roots) {
        EXPECT_EQ(one.roots->all, whole->trees[i].roots->all);
      }
      EXPECT_EQ(answers_of(trial->verdict(site.trees[i], one)), answers_of(one.verdict));
    }
    // Moved by itself on its own site, or among the others: the same.
    Site elsewhere = site;
    elsewhere.trees[0].position->at.x += 2;
    const auto moved_site = assess(elsewhere, loaded_tables(), options);
    ASSERT_TRUE(moved_site.ok());
    const TreeAssessment moved_tree = trial->assess(elsewhere.trees[0]);
    ASSERT_EQ(moved_tree.roots.has_value(), moved_site->trees[0].roots.has_value());
    if (moved_tree.roots) {
      EXPECT_EQ(moved_tree.roots->all, moved_site->trees[0].roots->all);
    }
  }
}

}  // namespace
}  // namespace rootstead
