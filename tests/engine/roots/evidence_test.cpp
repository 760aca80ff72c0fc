// What is found in pits narrows the draws, and the ranges that are left are honest: on trees whose
// roots are known, because they were drawn, the truth lies in the range as often as it should.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <iostream>
#include <limits>
#include <numeric>

#include "engine/geom/measure.hpp"
#include "engine/roots/next_pit.hpp"
#include "engine/roots/openings.hpp"
#include "engine/roots/percentiles.hpp"
#include "engine/roots/root_draws.hpp"
#include "tests/support/round_a_stem.hpp"
#include "tests/support/shipped_tables.hpp"

namespace rootstead {
namespace {

using test::metres;
using test::strip;
using test::tree_at;

const Point kStem{500000, 180000};

const Tables& tables() {
  static const Tables shipped = test::shipped_tables();
  return shipped;
}

Evidence pit(std::string id, double bearing, double distance, std::vector<double> diameters_mm) {
  Evidence evidence;
  evidence.id = std::move(id);
  evidence.tree = "T1";
  evidence.shape.points = {offset(kStem, Angle::degrees(bearing), Length::metres(distance))};
  evidence.depth = metres(0.6);
  for (const double mm : diameters_mm)
    evidence.roots.push_back({{mm, LengthUnit::millimetre}, {}, {}, true});
  return evidence;
}

struct Standing {
  explicit Standing(std::vector<Evidence> evidence = {}) {
    tree = tree_at(kStem, 0.5, "Fagus sylvatica");
    site.trees = {tree};
    site.evidence = std::move(evidence);
    model = std::move(root_model(site.trees.front(), site, tables())).value();
  }
  RootLoss loss(double from = 2.5, std::uint64_t seed = 1) const {
    return model->loss({{"W",
                         strip(kStem, 90, from, from + 0.6),
                         Length::metres(1),
                         GroundTaking::Effect::severs,
                         {}}},
                       {seed, 1000});
  }
  Tree tree;
  Site site;
  std::unique_ptr<RootModel> model;
};

double width(const Range& range) {
  return range.high - range.low;
}

TEST(Evidence, OfManyRootsBeyondTheTrenchRaisesItsLossAndOfNoneLowersIt) {
  const double before = Standing().loss().all.best;
  const RootLoss many = Standing({pit("P1", 90, 4, {60, 45, 40, 30, 25, 25, 22, 21})}).loss();
  std::vector<Evidence> empty;
  for (const double bearing : {70, 90, 110}) {
    empty.push_back(pit("P" + std::to_string(empty.size()), bearing, 3, {}));
    empty.back().counted_from = {5, LengthUnit::millimetre};
  }
  const RootLoss none = Standing(empty).loss();
  std::cout << "loss " << before << ", many roots found " << many.all.best << ", none "
            << none.all.best << '\n';
  EXPECT_GT(many.all.best, before + 0.005);
  EXPECT_LT(none.all.best, before - 0.005);
}

TEST(Evidence, IsShownBesideTheLossWithoutIt) {
  const RootLoss loss = Standing({pit("P1", 90, 4, {60, 45, 40, 30})}).loss();
  ASSERT_TRUE(loss.before_evidence);
  EXPECT_NEAR(loss.before_evidence->best, Standing().loss().all.best, 1e-3);
  EXPECT_FALSE(Standing().loss().before_evidence);
}

TEST(Evidence, LeavesTheTotalOfTheRootsAtOne) {
  const Standing standing({pit("P1", 90, 4, {60, 45, 40, 30})});
  const auto all = standing.model->loss(
      {{"W", test::square(kStem, 90), Length::metres(9), GroundTaking::Effect::severs, {}}},
      {1, 200});
  EXPECT_NEAR(all.all.low, 1, 1e-9);
}

TEST(Evidence, SaysWhatNarrowedTheEstimate) {
  const auto notes = Standing({pit("P7", 90, 4, {60})}).model->estimate({1, 100}).notes;
  EXPECT_TRUE(std::any_of(notes.begin(), notes.end(), [](const Note& note) {
    return note.code == NoteCode::evidence_used && note.text.find("P7") != std::string::npos;
  }));
  const auto far = Standing({pit("P8", 90, 400, {})}).model->estimate({1, 100}).notes;
  EXPECT_TRUE(std::any_of(far.begin(), far.end(), [](const Note& note) {
    return note.code == NoteCode::evidence_not_used;
  }));
}

TEST(Evidence, WithoutATreeBelongsToTheNearest) {
  Standing standing;
  Tree other = tree_at(offset(kStem, Angle::degrees(90), Length::metres(20)), 0.5);
  other.id = "T2";
  standing.site.trees.push_back(other);
  Evidence unnamed = pit("P1", 90, 4, {});
  unnamed.tree.clear();
  standing.site.evidence = {unnamed};
  EXPECT_EQ(evidence_for(standing.site.trees[0], standing.site).size(), 1U);
  EXPECT_TRUE(evidence_for(standing.site.trees[1], standing.site).empty());
}

// ---- trees whose roots are known ----------------------------------------------------------------

// Draws of one tree's thick roots, and others of the same kind that are the truth, one a case.
class KnownTrees {
 public:
  KnownTrees() : tree_(tree_at(kStem, 0.5, "Fagus sylvatica")) {
    const Species* species = tables().species_of(tree_.botanical_name);
    const RootSubject subject{
        tree_, site_, tables(),
        woody_fields(tree_, Length::metres(0.5), species, site_.soil, tables()),
        ThickRootSource(tree_, Length::metres(0.5), species, tables())};
    draws_.emplace(draw_roots(subject, {11, 600}));
    truths_.emplace(draw_roots(subject, {12, 500}));
  }
  const std::vector<ThickRootLaw>& laws() const { return draws_->laws; }
  const std::vector<ThickRootLaw>& truths() const { return truths_->laws; }

  // What is asked: thick roots between east and north that cross the ring at 3 m, by law.
  static double figure(const ThickRootLaw& law) {
    const Sectors weights = sector_weights(Angle::degrees(67.5));
    double sector = 0;
    for (std::size_t s = 0; s < kSectors; ++s) sector += weights[s] * law.sectors[s];
    return law.count_per_metre(0.025, 3) * sector;
  }

  // What a pit of the truth shows, by lot.
  static Evidence dug(const ThickRootLaw& truth, double bearing, double distance,
                      RandomStream& random) {
    Evidence found = pit("P", bearing, distance, {});
    const OpeningFace face(kStem, footprint(found), Length::metres(0.6), truth.extent);
    for (const auto& [from, below] : {std::pair(0.020, 0.040), std::pair(0.040, 0.080),
                                      std::pair(0.080, std::numeric_limits<double>::infinity())}) {
      const double mean = face.expected(truth, from, below);
      double left = random.uniform();
      for (int n = 0; n < 200; ++n) {
        left -= std::exp(log_chance_of_count(n, mean, truth.crowding));
        if (left <= 0) break;
        found.roots.push_back({{from * 1000, LengthUnit::millimetre}, {}, {}, true});
      }
    }
    return found;
  }

 private:
  Tree tree_;
  Site site_;
  std::optional<RootDraws> draws_, truths_;
};

struct Coverage {
  double held = 0, width = 0;
};

Coverage coverage(const KnownTrees& trees, int pits, int cases) {
  Coverage sum;
  for (int i = 0; i < cases; ++i) {
    RandomStream random(static_cast<std::uint64_t>(i), "truth");
    const ThickRootLaw& truth = trees.truths()[static_cast<std::size_t>(i)];
    std::vector<Evidence> found;
    for (int p = 0; p < pits; ++p)
      found.push_back(KnownTrees::dug(truth, 50 + 12 * p, 2.4 + 0.7 * p, random));
    Site site;
    site.evidence = found;
    const DrawWeights weights = weigh_draws(tree_at(kStem, 0.5), site, trees.laws());
    std::vector<double> values;
    for (const std::size_t draw : kept_draws(weights.weights, 1000))
      values.push_back(KnownTrees::figure(trees.laws()[draw]));
    const Range range = range_of(values);
    const double value = KnownTrees::figure(truth);
    sum.held += value >= range.low && value <= range.high ? 1 : 0;
    sum.width += width(range);
  }
  return {sum.held / cases, sum.width / cases};
}

TEST(EvidenceOnKnownTrees, HoldsTheTruthAsOftenAsItSaysAndNarrowsWithEveryPit) {
  const KnownTrees trees;
  double before = std::numeric_limits<double>::infinity();
  for (const int pits : {1, 3}) {
    const Coverage found = coverage(trees, pits, 500);
    std::cout << pits << " pits: the range of P10 to P90 holds the truth in " << 100 * found.held
              << " % of 500 cases, mean width " << found.width << '\n';
    EXPECT_GE(found.held, 0.75);
    EXPECT_LE(found.held, 0.85);
    EXPECT_LT(found.width, before);
    before = found.width;
  }
}

TEST(NextPit, IsOnTheSideThatIsAskedAboutAndNarrows) {
  const RootLoss loss = Standing().loss();
  ASSERT_TRUE(loss.next_pit) << loss.all.low << " to " << loss.all.high;
  EXPECT_LT(loss.next_pit->spread_left, 0.98);
  EXPECT_NEAR(loss.next_pit->bearing.degrees(), 90, 50);  // where the trench is
  EXPECT_GT(loss.next_pit->spread_left, 0.3);
  EXPECT_GE(loss.next_pit->from_stem.metres(), 1);
}

// Standard deviation over seeds, per the mean.
double scatter(const std::vector<double>& values) {
  const auto n = static_cast<double>(values.size());
  const double mean = std::accumulate(values.begin(), values.end(), 0.0) / n;
  double squares = 0;
  for (const double value : values) squares += (value - mean) * (value - mean);
  return std::sqrt(squares / (n - 1)) / mean;
}

TEST(RootRange, IsStableBetweenSeedsAtTheUsualDraws) {
  const Standing standing;
  std::vector<double> low, best, high;
  for (std::uint64_t seed = 1; seed <= 120; ++seed) {
    const Range loss = standing.loss(2.5, seed).all;
    low.push_back(loss.low);
    best.push_back(loss.best);
    high.push_back(loss.high);
  }
  std::cout << "between 120 seeds: P10 " << scatter(low) << ", P50 " << scatter(best) << ", P90 "
            << scatter(high) << " of the value\n";
  EXPECT_LT(scatter(low), 0.01);
  EXPECT_LT(scatter(best), 0.01);
  EXPECT_LT(scatter(high), 0.01);
}

}  // namespace
}  // namespace rootstead
