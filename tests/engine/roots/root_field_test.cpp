// The root field itself: how far, how it thins out, how deep. Published values first.
#include "engine/roots/root_field.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>

#include "engine/roots/field_source.hpp"
#include "tests/support/round_a_stem.hpp"
#include "tests/support/shipped_tables.hpp"

namespace rootstead {
namespace {

using test::round_crown;
using test::tree_at;

const Tables& tables() {
  static const Tables shipped = test::shipped_tables();
  return shipped;
}

RootField central(double diameter, std::optional<double> crown = {}, const Soil& soil = {}) {
  Tree tree = tree_at({0, 0}, diameter);
  if (crown) tree.crown = round_crown(*crown);
  return woody_fields(tree, Length::metres(diameter), nullptr, soil, tables())->central();
}

double extent(double diameter, std::optional<double> crown = {}, const Soil& soil = {}) {
  return extent_of(central(diameter, crown, soil).spread);
}

// Independent of the field's own integral: Simpson's rule over rings of plan density.
double integral_of_density(const RadialSpread& spread, double from, double to) {
  constexpr int kSteps = 20000;
  const double step = (to - from) / kSteps;
  double sum = 0;
  for (int i = 0; i <= kSteps; ++i) {
    const double r = from + i * step;
    const double weight = i == 0 || i == kSteps ? 1 : (i % 2 ? 4 : 2);
    sum += weight * density(spread, r) * 2 * std::numbers::pi * r;
  }
  return sum * step / 3;
}

TEST(RootExtent, OfYoungTreesIsThirtyFiveToThirtyEightStemDiameters) {
  // Day, Wiseman, Dickinson & Harris 2010: about 38 to 1 in young trees.
  EXPECT_NEAR(extent(0.02) / 0.02, 37.3, 0.5);
  EXPECT_GE(extent(0.05) / 0.05, 35);
  EXPECT_LE(extent(0.05) / 0.05, 38);
  EXPECT_GE(extent(0.10) / 0.10, 34.5);
}

TEST(RootExtent, FollowsTheCurveOfTheMethodWithoutACrown) {
  // R = 20 (1 - exp(-38 D / 20)), worked by hand for the method page.
  const double expected[][2] = {{0.05, 1.8}, {0.1, 3.5},  {0.2, 6.3},  {0.3, 8.7},
                                {0.4, 10.6}, {0.6, 13.6}, {0.8, 15.6}, {1.0, 17.0}};
  for (const auto& [diameter, metres] : expected) EXPECT_NEAR(extent(diameter), metres, 0.06);
}

TEST(RootExtent, IsAboutTwiceTheCrownRadiusOfGrownTrees) {
  // Tumber-Davila et al. 2022: woody plants average 2; crowns 12.75 D after Coombes et al. 2019.
  double sum = 0;
  const double diameters[] = {0.2, 0.3, 0.4, 0.5, 0.6};
  for (const double d : diameters) {
    const double ratio = extent(d, 12.75 * d) / (12.75 * d);
    EXPECT_GE(ratio, 1.5) << d;
    EXPECT_LE(ratio, 3.0) << d;
    sum += ratio;
  }
  EXPECT_NEAR(sum / 5, 2.0, 0.3);
}

TEST(RootExtent, IsNearThreeTimesTheCrownRadiusOfYoungTrees) {
  // Gilman 1988 (recalled): about 2.9.
  EXPECT_NEAR(extent(0.08, 12.75 * 0.08) / (12.75 * 0.08), 2.9, 0.2);
}

TEST(RootExtent, CoversAFewTimesTheCrownArea) {
  // Stout 1956 (retold): 3.4 to 40.7 times; extension services: typically 4 to 7.
  for (const double d : {0.1, 0.2, 0.3, 0.4}) {
    const double ratio = std::pow(extent(d, 12.75 * d) / (12.75 * d), 2);
    EXPECT_GE(ratio, 3.4) << d;
    EXPECT_LE(ratio, 40.7) << d;
  }
  EXPECT_NEAR(std::pow(extent(0.3, 12.75 * 0.3) / (12.75 * 0.3), 2), 5, 1);
}

TEST(RootExtent, TakesTheGeometricMeanOfStemAndCrown) {
  // D 400 mm, crown radius 4 m: sqrt(10.647 * 8) = 9.229 m; the worked example of the method page.
  EXPECT_NEAR(extent(0.4, 4), 9.229, 0.001);
}

TEST(RootExtent, ChangesWithTheSoil) {
  Soil sand;
  sand.texture = SoilTexture::sand;
  Soil wet = sand;
  wet.drainage = Drainage::poor;
  EXPECT_NEAR(extent(0.4, {}, sand) / extent(0.4), 1.25, 1e-12);
  EXPECT_NEAR(extent(0.4, {}, wet) / extent(0.4), 0.75, 1e-12);
}

TEST(RootSpread, HoldsTheSharesWithinFractionsOfTheExtent) {
  // For a decay of a quarter of the extent, computed apart from this program.
  const WoodySpread spread{12, 3};
  const double expected[][2] = {{0.1, .07}, {0.2, .21}, {1.0 / 3, .42}, {0.4, .52},
                                {0.5, .65}, {0.6, .76}, {0.75, .88}};
  for (const auto& [part, share] : expected)
    EXPECT_NEAR(spread.share_within(part * 12), share, 0.006) << part;
}

TEST(RootSpread, LeavesMoreThanHalfBeyondTheCrownOfYoungTrees) {
  // Gilman 1988: .54, .59 and .77 of root length beyond the dripline of three-year-old trees.
  const WoodySpread three_times{9, 0.25 * 9};
  const double beyond = 1 - three_times.share_within(3);
  EXPECT_NEAR(beyond, 0.58, 0.01);
  EXPECT_GE(beyond, 0.54 - 0.01);
  EXPECT_LE(beyond, 0.77);
}

TEST(RootSpread, LeavesAboutHalfUnderTheCrownOfGrownTrees) {
  // University of Florida 2013, as quoted by the Minnesota Stormwater Manual: about half.
  const WoodySpread twice{8, 0.40 * 8};
  EXPECT_NEAR(twice.share_within(4), 0.5, 0.01);
  // Crowns of 12.75 D, extent from the stem alone; computed apart from this program.
  const double expected[][2] = {{.1, .43}, {.2, .45}, {.3, .47}, {.4, .49},
                                {.5, .52}, {.6, .58}, {.8, .68}, {1.0, .78}};
  for (const auto& [d, share] : expected)
    EXPECT_NEAR(share_within(central(d).spread, 12.75 * d), share, 0.006) << d;
}

TEST(RootSpread, OfTwelveDiametersHoldsTheSharesOfTheMethodPage) {
  const double expected[][2] = {{.1, .40}, {.2, .42}, {.3, .43}, {.4, .46},
                                {.5, .48}, {.6, .54}, {.8, .64}, {1.0, .74}};
  for (const auto& [d, share] : expected)
    EXPECT_NEAR(share_within(central(d).spread, 12 * d), share, 0.006) << d;
}

TEST(RootSpread, IntegratesToOneByAnotherRule) {
  for (const double d : {0.05, 0.3, 1.0}) {
    const RadialSpread spread = central(d).spread;
    EXPECT_NEAR(integral_of_density(spread, 0, extent_of(spread)), 1, 1e-3) << d;
  }
  const RadialSpread palm = FibrousSpread{0.2, 12, 0.8, 0.5, 4};
  EXPECT_NEAR(integral_of_density(palm, 0.2, 12), 1, 1e-3);
}

RC_GTEST_PROP(RootSpreadProperty, ShareWithinIsTheIntegralOfDensity, ()) {
  const double extent = *rc::gen::inRange(100, 3000) / 100.0;
  const WoodySpread woody{extent, extent * *rc::gen::inRange(18, 55) / 100.0};
  const FibrousSpread fibrous{0.2, 0.2 + extent, *rc::gen::inRange(50, 95) / 100.0,
                              *rc::gen::inRange(30, 80) / 100.0, 4};
  const double r = 0.2 + (extent - 0.2) * *rc::gen::inRange(1, 100) / 100.0;
  RC_ASSERT(std::abs(integral_of_density(woody, 0, r) - woody.share_within(r)) < 1e-3);
  RC_ASSERT(std::abs(integral_of_density(fibrous, 0.2, r) - fibrous.share_within(r)) < 1e-3);
}

TEST(RootDepth, FollowsTheGlobalMeanOfPublishedProfiles) {
  // Jackson et al. 1996: .30, .50 and .75 of roots in the top 10, 20 and 40 cm, beta 0.966.
  const DepthLaw law{0.966, 0, 3};
  EXPECT_NEAR(law.share_above(0.10, 0), 0.30, 0.01);
  EXPECT_NEAR(law.share_above(0.20, 0), 0.50, 0.01);
  EXPECT_NEAR(law.share_above(0.40, 0), 0.75, 0.01);
}

TEST(RootDepth, HoldsTwoThirdsOfTemperateForestRootsInThirtyCentimetres) {
  // Jackson et al. 1996, temperate deciduous forest: .65.
  EXPECT_NEAR(DepthLaw({0.966, 0, 3}).share_above(0.30, 0), 0.65, 0.01);
}

TEST(RootDepth, HoldsNearlyAllRootsInTheTopMetre) {
  // Perry 1982: about .99; Jackson et al. 1996, trees: .95.
  const DepthLaw law = central(0.4).depth;
  for (const double relative : {0.0, 0.5, 1.0}) {
    EXPECT_GE(law.share_above(1.0, relative), 0.95);
    EXPECT_LE(law.share_above(1.0, relative), 1.0);
  }
}

TEST(RootDepth, AgreesWithFieldAdviceOnTheTopThirtyAndNinetyCentimetres) {
  // University of California pest notes: up to .70 in the top 0.3 m, about .90 in 0.9 m.
  const DepthLaw law = central(0.4).depth;
  EXPECT_NEAR(law.share_above(0.30, 0.4), 0.70, 0.05);
  EXPECT_NEAR(law.share_above(0.90, 0.4), 0.90, 0.08);
}

TEST(RootDepth, StopsAtTheMeasuredRootingDepth) {
  Soil shallow;
  shallow.rooting_depth = test::metres(0.5);
  const DepthLaw law = central(0.4, {}, shallow).depth;
  EXPECT_EQ(law.share_above(0.5, 0), 1);
  EXPECT_LT(law.share_above(0.49, 0), 1);
}

TEST(RootDepth, IsShallowerForPlateAndDeeperForTapRoots) {
  const Tree tree = tree_at({0, 0}, 0.4);
  const auto beta = [&](const char* name) {
    return woody_fields(tree, Length::metres(0.4), tables().species_of(name), {}, tables())
        ->central()
        .depth.beta;
  };
  EXPECT_NEAR(beta("Picea abies"), 0.954, 1e-12);
  EXPECT_NEAR(beta("Fagus sylvatica"), 0.966, 1e-12);
  EXPECT_NEAR(beta("Quercus robur"), 0.972, 1e-12);
}

RC_GTEST_PROP(RootDepthProperty, ShareRisesWithDepthAndIsLargerFurtherOut, ()) {
  const DepthLaw law{*rc::gen::inRange(950, 1000) / 1000.0, 0.01,
                     *rc::gen::inRange(50, 200) / 100.0};
  const double d = *rc::gen::inRange(0, 250) / 100.0;
  const double relative = *rc::gen::inRange(0, 101) / 100.0;
  const double share = law.share_above(d, relative);
  RC_ASSERT(share >= 0 && share <= 1);
  RC_ASSERT(law.share_above(d + 0.1, relative) >= share);
  RC_ASSERT(law.share_above(d, 1) >= share - 1e-12);
}

TEST(RootSectors, WeightsAddUpToOneInEveryDirection) {
  for (int degrees = -360; degrees <= 720; ++degrees) {
    double sum = 0;
    for (const double weight : sector_weights(Angle::degrees(degrees))) {
      EXPECT_GE(weight, 0);
      sum += weight;
    }
    EXPECT_NEAR(sum, 1, 1e-12) << degrees;
  }
  EXPECT_NEAR(sector_weights(Angle::degrees(22.5))[0], 1, 1e-12);
  EXPECT_NEAR(sector_weights(Angle::degrees(0))[0], 0.5, 1e-12);
  EXPECT_NEAR(sector_weights(Angle::degrees(0))[7], 0.5, 1e-12);
}

TEST(RootSectors, HaveMeanOneAndAboutTheVariationAskedFor) {
  RandomStream random(1, "sectors");
  double sum = 0, squares = 0;
  constexpr int kDraws = 4000;
  for (int i = 0; i < kDraws; ++i) {
    const Sectors sectors = draw_sectors(0.30, random);
    double mean = 0;
    for (const double s : sectors) mean += s / kSectors;
    EXPECT_NEAR(mean, 1, 1e-12);
    for (const double s : sectors) sum += s, squares += s * s;
  }
  const double n = kDraws * kSectors;
  // Making the mean exactly one takes away a little of the spread: sqrt(7/8) of it is left.
  EXPECT_NEAR(std::sqrt(squares / n - std::pow(sum / n, 2)), 0.30 * std::sqrt(7.0 / 8), 0.01);
}

TEST(PalmRoots, AreMostlyWithinThirtyCentimetresOfTheTrunkWithinTheGroundSampled) {
  // Hodel, Pittenger & Downer 2005: more than half, of roots sampled out to 90 cm.
  Tree palm = tree_at({0, 0}, 0.4);
  palm.form = GrowthForm::palm;
  const auto field = fibrous_fields(palm, Length::metres(0.4), nullptr, {}, tables())->central();
  const double face = 1.1 * 0.2;
  EXPECT_GT(share_within(field.spread, face + 0.30) / share_within(field.spread, face + 0.90), 0.5);
}

TEST(PalmRoots, SplitBetweenTheUpperAndLowerThirtyCentimetresAsMeasured) {
  // Hodel, Pittenger & Downer 2005, Table 5: mean 72 to 28; species from 50 to 97 %.
  const auto top_share = [](const char* name) {
    Tree palm = tree_at({0, 0}, 0.4, name);
    const DepthLaw law =
        fibrous_fields(palm, Length::metres(0.4), tables().species_of(name), {}, tables())
            ->central()
            .depth;
    return law.share_above(0.3, 0) / law.share_above(0.6, 0);
  };
  EXPECT_NEAR(top_share("Nomen nescio"), 0.72, 1e-9);
  EXPECT_NEAR(top_share("Syagrus romanzoffiana"), 0.50, 0.005);
  EXPECT_NEAR(top_share("Trachycarpus wagnerianus"), 0.97, 0.005);
  EXPECT_NEAR(top_share("Washingtonia robusta"), 0.71, 0.005);
  EXPECT_NEAR(top_share("Phoenix canariensis"), 0.80, 0.005);
}

TEST(PalmRoots, DoNotReachFurtherForAThickerTrunk) {
  const auto reach_from_face = [](double diameter) {
    Tree palm = tree_at({0, 0}, diameter);
    palm.form = GrowthForm::palm;
    const auto spread =
        fibrous_fields(palm, Length::metres(diameter), nullptr, {}, tables())->central().spread;
    return extent_of(spread) - std::get<FibrousSpread>(spread).face;
  };
  EXPECT_NEAR(reach_from_face(0.15), reach_from_face(0.9), 1e-12);
}

}  // namespace
}  // namespace rootstead
