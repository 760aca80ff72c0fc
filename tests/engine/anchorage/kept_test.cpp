// The share of anchorage kept, one wind direction at a time.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "engine/anchorage/anchorage.hpp"
#include "tests/support/round_a_stem.hpp"
#include "tests/support/shipped_tables.hpp"

namespace rootstead {
namespace {

using test::strip;
using test::tree_at;

constexpr double kFullDepth = 100;  // m: deeper than any root
constexpr double kTolerance = 0.003;
const Point kStem{500000, 180000};

const Tables& tables() {
  static const Tables shipped = test::shipped_tables();
  return shipped;
}

AnchorageCut cut(MultiPolygon area, double depth = kFullDepth, std::string work = "W1") {
  return {std::move(work), std::move(area), Length::metres(depth), true};
}

// A straight cut `units` stem diameters from the trunk face, on the side of `azimuth`.
AnchorageCut straight(double diameter, double units, double azimuth = 0) {
  const double x = diameter / 2 + units * diameter;
  return cut(strip(kStem, azimuth, x, x + 0.5));
}

double kept(RootArchitecture architecture, double diameter, const std::vector<AnchorageCut>& cuts,
            double wind_from) {
  return anchorage_kept(tree_at(kStem, diameter), Length::metres(diameter),
                        anchorage_shares(architecture, false, tables()), cuts,
                        Angle::degrees(wind_from));
}

struct Row {
  double units;
  double heart[3], plate[3], tap[3];  // wind on the cut side, along it, from the far side
};

// The model's own regression values (uniform roots, full-depth straight cut), computed apart from
// this program by quadrature over 360 to 720 rays.
const Row kRegression[] = {
    {0, {0.636, 0.764, 0.710}, {0.451, 0.677, 0.744}, {0.742, 0.831, 0.764}},
    {0.5, {0.764, 0.878, 0.858}, {0.604, 0.804, 0.853}, {0.851, 0.923, 0.898}},
    {1, {0.857, 0.935, 0.952}, {0.737, 0.883, 0.935}, {0.917, 0.962, 0.972}},
    {2, {0.947, 0.979, 0.997}, {0.899, 0.961, 0.992}, {0.968, 0.987, 0.999}},
    {3, {0.989, 0.996, 1.000}, {0.978, 0.992, 0.999}, {0.993, 0.998, 1.000}},
    {5, {1, 1, 1}, {1, 1, 1}, {1, 1, 1}},
};

TEST(AnchorageKept, AgreesWithTheRegressionTableForThreeArchitectures) {
  for (const double diameter : {0.2, 0.6})
    for (const Row& row : kRegression)
      for (int side = 0; side < 3; ++side) {
        SCOPED_TRACE(testing::Message()
                     << "D " << diameter << " n " << row.units << " wind " << 90 * side);
        const std::vector<AnchorageCut> cuts = {straight(diameter, row.units)};
        EXPECT_NEAR(kept(RootArchitecture::heart, diameter, cuts, 90.0 * side), row.heart[side],
                    kTolerance);
        EXPECT_NEAR(kept(RootArchitecture::plate, diameter, cuts, 90.0 * side), row.plate[side],
                    kTolerance);
        EXPECT_NEAR(kept(RootArchitecture::tap, diameter, cuts, 90.0 * side), row.tap[side],
                    kTolerance);
      }
}

TEST(AnchorageKept, AgreesWithNineteenWindDirectionsAtOneCut) {
  const double expected[] = {0.9128, 0.9136, 0.9160, 0.9198, 0.9251, 0.9315, 0.9390,
                             0.9471, 0.9554, 0.9633, 0.9703, 0.9762, 0.9808, 0.9840,
                             0.9859, 0.9869, 0.9873, 0.9874, 0.9874};
  const std::vector<AnchorageCut> cuts = {cut(strip(kStem, 0, 1.2, 1.7))};
  for (int i = 0; i < 19; ++i)
    EXPECT_NEAR(kept(RootArchitecture::heart, 0.6, cuts, 10.0 * i), expected[i], kTolerance) << i;
}

TEST(AnchorageKept, LosesLessToAShallowCut) {
  const std::vector<AnchorageCut> cuts = {cut(strip(kStem, 0, 1.2, 1.7), 0.45)};
  EXPECT_NEAR(kept(RootArchitecture::heart, 0.6, cuts, 0), 0.9272, kTolerance);
  EXPECT_NEAR(kept(RootArchitecture::heart, 0.6, cuts, 90), 0.9694, kTolerance);
  EXPECT_NEAR(kept(RootArchitecture::heart, 0.6, cuts, 180), 0.9894, kTolerance);
}

TEST(AnchorageKept, IsExactlyOneWithoutCuts) {
  for (const auto architecture :
       {RootArchitecture::heart, RootArchitecture::plate, RootArchitecture::tap})
    EXPECT_EQ(kept(architecture, 0.4, {}, 123), 1);
  EXPECT_EQ(kept(RootArchitecture::heart, 0.4, {cut(strip(kStem, 0, 90, 91))}, 0), 1);
}

TEST(AnchorageKept, IsNothingWhereEverythingIsDugAwayUnderTheStem) {
  EXPECT_NEAR(kept(RootArchitecture::tap, 0.4, {cut(test::square(kStem, 6))}, 0), 0, 1e-9);
  // Dug 0.25 m deep all over: 1 - exp(-1) of every part goes.
  EXPECT_NEAR(kept(RootArchitecture::tap, 0.4, {cut(test::square(kStem, 6), 0.25)}, 0),
              std::exp(-1.0), 1e-9);
}

TEST(AnchorageKept, OfTheLeeHingeIsAQuarterOfATapRootedTree) {
  // Crook & Ennos 1996: lee laterals in bending about 25 %.
  EXPECT_EQ(anchorage_shares(RootArchitecture::tap, false, tables()).hinge, 0.25);
}

TEST(AnchorageKept, SharesOfEveryArchitectureAddUpToOne) {
  for (const auto architecture :
       {RootArchitecture::heart, RootArchitecture::plate, RootArchitecture::tap})
    for (const bool palm : {false, true}) {
      const AnchorageShares s = anchorage_shares(architecture, palm, tables());
      EXPECT_NEAR(s.tension + s.central + s.plate + s.hinge, 1, 1e-12);
    }
}

// A cut anywhere, any depth.
AnchorageCut random_cut() {
  const double azimuth = *rc::gen::inRange(0, 360);
  const double near = *rc::gen::inRange(0, 400) / 100.0;
  const double depth = *rc::gen::inRange(1, 300) / 100.0;
  return cut(strip(kStem, azimuth, near, near + 0.6, 3), depth);
}

RC_GTEST_PROP(AnchorageKeptProperty, NeverRisesWhereACutIsAddedOrDeepened, ()) {
  const AnchorageCut first = random_cut();
  const AnchorageCut second = random_cut();
  AnchorageCut deeper = first;
  deeper.depth = first.depth + Length::metres(*rc::gen::inRange(0, 100) / 100.0);
  const double wind = *rc::gen::inRange(0, 360);
  const double one = kept(RootArchitecture::heart, 0.4, {first}, wind);
  RC_ASSERT(kept(RootArchitecture::heart, 0.4, {first, second}, wind) <= one + 1e-12);
  RC_ASSERT(kept(RootArchitecture::heart, 0.4, {deeper}, wind) <= one + 1e-12);
  RC_ASSERT(one >= 0 && one <= 1);
}

RC_GTEST_PROP(AnchorageKeptProperty, NeverRisesWhereACutComesNearer, ()) {
  const double x = *rc::gen::inRange(0, 400) / 100.0;
  const double step = *rc::gen::inRange(0, 100) / 100.0;
  const double wind = *rc::gen::inRange(0, 360);
  const double far = kept(RootArchitecture::plate, 0.4, {cut(strip(kStem, 0, x + step, 9))}, wind);
  RC_ASSERT(kept(RootArchitecture::plate, 0.4, {cut(strip(kStem, 0, x, 9))}, wind) <= far + 1e-12);
}

RC_GTEST_PROP(AnchorageKeptProperty, TurnsWithTheCutAndTheWind, ()) {
  const int turn = *rc::gen::inRange(0, 360);
  const int wind = *rc::gen::inRange(0, 360);
  const double before = kept(RootArchitecture::heart, 0.5, {straight(0.5, 1)}, wind);
  const double after = kept(RootArchitecture::heart, 0.5, {straight(0.5, 1, turn)}, wind + turn);
  RC_ASSERT(std::abs(before - after) < 1e-6);
}

RC_GTEST_PROP(AnchorageKeptProperty, IsTheSameFromBothSidesOfAStraightCut, ()) {
  const int wind = *rc::gen::inRange(0, 181);
  const std::vector<AnchorageCut> cuts = {straight(0.3, 0.7)};
  RC_ASSERT(std::abs(kept(RootArchitecture::tap, 0.3, cuts, wind) -
                     kept(RootArchitecture::tap, 0.3, cuts, -wind)) < 1e-6);
}

}  // namespace
}  // namespace rootstead
