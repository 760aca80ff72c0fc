// How much wood crosses a ring, how many roots a face shows, and the chance of meeting one.
#include "engine/roots/thick_roots.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>
#include <numeric>

#include "engine/roots/field_source.hpp"
#include "tests/support/round_a_stem.hpp"
#include "tests/support/shipped_tables.hpp"

namespace rootstead {
namespace {

using test::tree_at;

const Tables& tables() {
  static const Tables shipped = test::shipped_tables();
  return shipped;
}

RootField field_of(double diameter, const std::string& name = "") {
  const Tree tree = tree_at({0, 0}, diameter, name);
  return woody_fields(tree, Length::metres(diameter), tables().species_of(name), {}, tables())
      ->central();
}

ThickRootLaw law_of(double diameter, const std::string& name = "") {
  const Tree tree = tree_at({0, 0}, diameter, name);
  return thick_roots(tree, Length::metres(diameter), tables().species_of(name),
                     field_of(diameter, name), tables());
}

ThickRootLaw drawn(double diameter, std::uint64_t seed, const std::string& name = "") {
  RandomStream random(seed, "thick");
  const Tree tree = tree_at({0, 0}, diameter, name);
  const Species* species = tables().species_of(name);
  const Length stem = Length::metres(diameter);
  const RootField field = woody_fields(tree, stem, species, {}, tables())->draw(random);
  return draw_thick_roots(tree, stem, species, field, tables(), random);
}

// Wood of the roots a ring counts, by thin slices of thickness.
double wood_counted(const RootRing& ring, double thickest) {
  const double reference = SizeSpectrum::kReferencePerStem * ring.law->diameter;
  double sum = 0;
  double above = ring.count(reference);
  constexpr int kSlices = 4000;
  for (int i = 1; i <= kSlices; ++i) {
    const double d = reference * std::pow(thickest / reference, double(i) / kSlices);
    const double next = ring.count(d);
    const double middle = d * std::pow(thickest / reference, -0.5 / kSlices);
    sum += (above - next) * std::numbers::pi / 4 * middle * middle;
    above = next;
  }
  return sum;
}

TEST(WoodOfThickRoots, IsThatOfThePublishedRingTrenches) {
  // Grabosky et al. 2025, Table 2: three Platanus x hispanica, all roots at 1, 2 and 3 m from the
  // trunk edge: 328, 371, 337; 49, 93, 187; 97, 99, 131 cm2. Stems not stated; 500 mm assumed.
  const ThickRootLaw law = law_of(0.5, "Platanus x hispanica");
  const double cm2 = 1e4;
  EXPECT_NEAR(law.cross_section(1) * cm2, 345, 0.10 * 345);
  EXPECT_GT(law.cross_section(2) * cm2, 49);
  EXPECT_LT(law.cross_section(2) * cm2, 187);
  EXPECT_GT(law.cross_section(3) * cm2, 97 * 0.95);
  EXPECT_LT(law.cross_section(3) * cm2, 131);
}

TEST(WoodOfThickRoots, IsThatOfTheStemAtTheTrunkAndNoneBeyondTheRoots) {
  const ThickRootLaw law = law_of(0.4);
  EXPECT_NEAR(law.cross_section(0), std::numbers::pi / 4 * 0.16, 1e-12);
  EXPECT_EQ(law.cross_section(law.extent), 0);
  EXPECT_EQ(law.count_per_metre(0.002, law.extent), 0);
}

TEST(NumberOfThickRoots, HoldsNoMoreWoodThanThereIs) {
  for (const double diameter : {0.08, 0.2, 0.35, 0.5, 0.8, 1.2, 2.0})
    for (const char* name : {"", "Populus nigra"}) {
      const ThickRootLaw law = law_of(diameter, name);
      for (const double x : {0.0, 0.1, 0.3, 1.0, 2.0, 4.0}) {
        const RootRing ring = law.ring(x);
        if (ring.many <= 0) continue;
        EXPECT_NEAR(wood_counted(ring, 2 * diameter), ring.wood, 0.01 * ring.wood)
            << diameter << " m " << name << ", x " << x;
      }
    }
}

TEST(NumberOfThickRoots, FollowsThePublishedSpectrumAtSomeDistance) {
  // Upson & Burgess 2013, open counts: roots above 5, 10 and 20 mm beside those above 2 mm:
  // .27, .11 and .034 over the first five metres.
  const ThickRootLaw law = law_of(0.35, "Populus");
  std::array<double, 4> sums{};
  const std::array<double, 4> thicker = {0.002, 0.005, 0.010, 0.020};
  for (double x = 0.1; x < 5; x += 0.2)
    for (std::size_t i = 0; i < 4; ++i) sums[i] += law.count_per_metre(thicker[i], x);
  EXPECT_NEAR(sums[1] / sums[0], 0.27, 0.05);
  EXPECT_NEAR(sums[2] / sums[0], 0.11, 0.03);
  EXPECT_NEAR(sums[3] / sums[0], 0.034, 0.015);
}

TEST(NumberOfThickRoots, HasSomeMainRootsAtTheTrunk) {
  // 6 to 10 buttress roots of red maple (Smiley 2014); 3 to 15 in general.
  for (const double diameter : {0.3, 0.6, 1.0}) {
    const double main_roots = law_of(diameter).ring(0).count(0.15 * diameter);
    EXPECT_GE(main_roots, 5) << diameter;
    EXPECT_LE(main_roots, 15) << diameter;
  }
}

RC_GTEST_PROP(NumberOfThickRoots, FallsWithThicknessAndNeverTurnsNegative, ()) {
  const double diameter = *rc::gen::inRange(5, 200) / 100.0;
  const ThickRootLaw law = drawn(diameter, *rc::gen::arbitrary<std::uint64_t>());
  const double x = *rc::gen::inRange(0, 2000) / 100.0;
  double before = std::numeric_limits<double>::infinity();
  for (const double thickness : {0.001, 0.002, 0.01, 0.025, 0.05, 0.1, 0.3, 1.0}) {
    const double number = law.count_per_metre(thickness, x);
    RC_ASSERT(number >= 0);
    RC_ASSERT(number <= before);
    before = number;
  }
}

RC_GTEST_PROP(NumberOfThickRoots, NeverExceedsTheWoodInAnyDraw, ()) {
  const double diameter = *rc::gen::inRange(5, 200) / 100.0;
  const ThickRootLaw law = drawn(diameter, *rc::gen::arbitrary<std::uint64_t>());
  const RootRing ring = law.ring(*rc::gen::inRange(0, 800) / 100.0);
  RC_PRE(ring.many > 0);
  RC_ASSERT(wood_counted(ring, 3 * diameter) <= ring.wood * 1.02);
}

TEST(DepthOfThickRoots, IsThatOfPublishedFindings) {
  const ThickRootLaw law = law_of(0.4);
  // "90 % and virtually all large structural roots in the upper 0.6 m" (British guidance restated).
  EXPECT_NEAR(law.share_above(0.6, 0.025, 0.5), 0.90, 0.03);
  // Watson & Himelick 1982: major roots densest 13 to 38 cm deep, few in the upper 12 cm.
  EXPECT_LT(law.share_above(0.12, 0.025, 0.5), 0.12);
  const auto density = [&](double z) {
    return law.share_above(z + 0.01, 0.025, 0.5) - law.share_above(z - 0.01, 0.025, 0.5);
  };
  double densest = 0.01;
  for (double z = 0.01; z < 1; z += 0.01)
    if (density(z) > density(densest)) densest = z;
  EXPECT_GE(densest, 0.13);
  EXPECT_LE(densest, 0.38);
}

TEST(DepthOfThickRoots, IsTheBetaLawWhereTheShapeIsOne) {
  // Gale & Grigal 1987: 1 - beta^d, d in cm.
  ThickDepthLaw law{1, 0, -1 / (100 * std::log(0.966)), 0, 0, 100};
  for (const double d : {0.1, 0.2, 0.3, 0.6, 1.0})
    EXPECT_NEAR(law.share_above(d, 0.05, 0.3), 1 - std::pow(0.966, 100 * d), 1e-9);
}

RC_GTEST_PROP(DepthOfThickRoots, RisesFromNothingToAllAndHasAnInverse, ()) {
  const ThickRootLaw law = drawn(0.5, *rc::gen::arbitrary<std::uint64_t>());
  const auto profile =
      law.depth.at(*rc::gen::inRange(2, 200) / 1000.0, *rc::gen::inRange(0, 100) / 100.0);
  RC_ASSERT(profile.share_above(0) == 0);
  RC_ASSERT(profile.share_above(law.depth.limit) == 1);
  const double depth = law.depth.limit * *rc::gen::inRange(1, 99) / 100.0;
  const double share = profile.share_above(depth);
  RC_PRE(share < 1 - 1e-9);
  RC_ASSERT(std::abs(profile.depth_of(share) - depth) < 1e-6);
  RC_ASSERT(profile.share_above(depth + 0.01) >= share);
}

TEST(DepthOfThickRoots, IsGreaterInPloughedLandAndForTapRootedTrees) {
  const ThickRootLaw law = law_of(0.4);
  EXPECT_LT(in_ploughed_land(law, tables()).share_above(0.4, 1), law.share_above(0.4, 1));
  EXPECT_LT(law_of(0.4, "Quercus robur").share_above(0.4, 1), law.share_above(0.4, 1));
  EXPECT_GT(law_of(0.4, "Picea abies").share_above(0.4, 1), law.share_above(0.4, 1));
}

TEST(ChanceOfARoot, IsThatOfTheNegativeBinomial) {
  // Mean 3, variance 7.5: k = 2, so 1 - (1 + 3 / 2)^-2 = 0.84.
  EXPECT_NEAR(chance_of_any(3, 2.5), 0.84, 1e-12);
  EXPECT_NEAR(chance_of_any(3, 1), 1 - std::exp(-3), 1e-12);
  EXPECT_EQ(chance_of_any(0, 2.5), 0);
  EXPECT_NEAR(chance_of_any(1e-9, 2.5), 1e-9, 1e-12);
}

RC_GTEST_PROP(ChanceOfARoot, AgreesWithTheChancesOfEveryCount, ()) {
  const double mean = *rc::gen::inRange(1, 2000) / 100.0;
  const double crowding = *rc::gen::inRange(100, 600) / 100.0;
  double sum = 0, first_moment = 0;
  for (int n = 0; n < 2000; ++n) {
    const double chance = std::exp(log_chance_of_count(n, mean, crowding));
    sum += chance;
    first_moment += n * chance;
  }
  RC_ASSERT(std::abs(sum - 1) < 1e-6);
  RC_ASSERT(std::abs(first_moment - mean) < 1e-3 * mean);
  RC_ASSERT(std::abs(1 - std::exp(log_chance_of_count(0, mean, crowding)) -
                     chance_of_any(mean, crowding)) < 1e-12);
}

TEST(CutRoots, GrowAgainAsFastAsPublished) {
  // Koeser et al. 2024: 22.2 % of the cut cross-section after five years.
  EXPECT_NEAR(regrown_share(5, tables()), 0.222, 0.005);
  EXPECT_EQ(regrown_share(0, tables()), 0);
  EXPECT_LT(regrown_share(30, tables()), 1);
}

TEST(DrawsOfThickRoots, AreTheSameForTheSameSeed) {
  const ThickRootLaw a = drawn(0.5, 7), b = drawn(0.5, 7), c = drawn(0.5, 8);
  EXPECT_EQ(a.base, b.base);
  EXPECT_EQ(a.sectors, b.sectors);
  EXPECT_EQ(a.depth.scale, b.depth.scale);
  EXPECT_NE(a.sectors, c.sectors);
}

TEST(DrawsOfThickRoots, LieRoundTheBestEstimate) {
  const ThickRootLaw best = law_of(0.5);
  std::vector<double> woods, counts;
  for (std::uint64_t seed = 1; seed <= 801; ++seed) {
    const ThickRootLaw law = drawn(0.5, seed);
    woods.push_back(law.cross_section(2));
    counts.push_back(law.count_per_metre(0.025, 2));
  }
  std::sort(woods.begin(), woods.end());
  std::sort(counts.begin(), counts.end());
  EXPECT_NEAR(woods[400], best.cross_section(2), 0.25 * best.cross_section(2));
  EXPECT_NEAR(counts[400], best.count_per_metre(0.025, 2), 0.35 * best.count_per_metre(0.025, 2));
  EXPECT_LT(woods[80], 0.8 * woods[400]);
}

TEST(SectorsOfThickRoots, ScatterMoreThanFineRootsAndFollowThem) {
  // Grabosky et al. 2025, Table 2: coefficient of variation between eight sectors 0.46 to 1.44.
  double squares = 0, together = 0, fine_squares = 0;
  constexpr int kTrees = 400;
  for (std::uint64_t seed = 1; seed <= kTrees; ++seed) {
    RandomStream random(seed, "sectors");
    const Tree tree = tree_at({0, 0}, 0.5);
    const Length stem = Length::metres(0.5);
    const RootField field = woody_fields(tree, stem, nullptr, {}, tables())->draw(random);
    const Sectors thick = draw_thick_roots(tree, stem, nullptr, field, tables(), random).sectors;
    EXPECT_NEAR(std::accumulate(thick.begin(), thick.end(), 0.0), kSectors, 1e-9);
    for (std::size_t i = 0; i < kSectors; ++i) {
      squares += (thick[i] - 1) * (thick[i] - 1);
      fine_squares += (field.sectors[i] - 1) * (field.sectors[i] - 1);
      together += (thick[i] - 1) * (field.sectors[i] - 1);
    }
  }
  const double variation = std::sqrt(squares / (kTrees * kSectors));
  EXPECT_GT(variation, 0.50);
  EXPECT_LT(variation, 0.75);
  EXPECT_NEAR(together / std::sqrt(squares * fine_squares), 0.7, 0.12);
}

}  // namespace
}  // namespace rootstead
