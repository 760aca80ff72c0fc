// The thick roots works meet along the side that faces the tree.
#include "engine/roots/roots_met.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>
#include <numeric>

#include "engine/geom/measure.hpp"
#include "engine/roots/field_source.hpp"
#include "tests/support/round_a_stem.hpp"
#include "tests/support/shipped_tables.hpp"

namespace rootstead {
namespace {

using test::square;
using test::strip;
using test::tree_at;

const Point kStem{500000, 180000};
const Soil kSoil;
constexpr double kFullDepth = 10;

const Tables& tables() {
  static const Tables shipped = test::shipped_tables();
  return shipped;
}

GroundTaking sever(MultiPolygon area, double depth = kFullDepth, std::string work = "W1") {
  return {
      std::move(work), std::move(area), Length::metres(depth), GroundTaking::Effect::severs, {}};
}

std::vector<ThickRootLaw> laws(double diameter, int draws, std::uint64_t seed = 1) {
  const Tree tree = tree_at(kStem, diameter);
  const Length stem = Length::metres(diameter);
  const auto source = woody_fields(tree, stem, nullptr, kSoil, tables());
  if (draws == 0) return {thick_roots(tree, stem, nullptr, source->central(), tables())};
  std::vector<ThickRootLaw> made;
  RandomStream random(seed, "met");
  for (int i = 0; i < draws; ++i) {
    const RootField field = source->draw(random);
    made.push_back(draw_thick_roots(tree, stem, nullptr, field, tables(), random));
  }
  return made;
}

double total(const std::vector<RootsMet>& met, std::size_t thickness) {
  double sum = 0;
  for (const RootsMet& work : met) sum += work.expected[thickness].best;
  return sum;
}

// Half the circle by a fine midpoint rule: roots that cross a line at `y` from the stem centre.
double across_line(const ThickRootLaw& law, double y, double depth, double thickness) {
  constexpr int kSteps = 40000;
  double sum = 0;
  for (int i = 0; i < kSteps; ++i) {
    const double angle = (i + 0.5) / kSteps * std::numbers::pi / 2;
    const double x = y / std::cos(angle) - law.face;
    if (x + law.face >= law.extent) continue;
    sum += law.ring(x).count(thickness) * law.share_above(depth, thickness, x) / kSteps / 2;
  }
  return sum;
}

TEST(RootsMetByATrench, AgreeWithTheLawIntegratedAlongIt) {
  for (const double diameter : {0.3, 0.8})
    for (const double y : {0.8, 2.0, 4.0})
      for (const double depth : {0.4, kFullDepth}) {
        const auto law = laws(diameter, 0);
        const auto met = roots_met(law, kStem, {sever(strip(kStem, 37, y, y + 0.5), depth)});
        ASSERT_EQ(met.size(), 1U);
        for (std::size_t t = 0; t < kSpokenThickness.size(); ++t) {
          const double exact = across_line(law[0], y, depth, kSpokenThickness[t]);
          EXPECT_NEAR(met[0].expected[t].best, exact, 0.02 * exact + 0.002)
              << diameter << " m, y " << y << ", depth " << depth << ", class " << t;
        }
      }
}

TEST(RootsMetByATrench, AreSpreadOverPiecesOfAMetreOrLess) {
  const auto met = roots_met(laws(0.5, 0), kStem, {sever(strip(kStem, 90, 2, 3, 6))});
  ASSERT_EQ(met.size(), 1U);
  EXPECT_GE(met[0].pieces.size(), 12U);
  double sum = 0;
  for (const FacePiece& piece : met[0].pieces) {
    EXPECT_LE(distance(piece.from, piece.to).metres(), 1.1);
    EXPECT_NEAR((piece.from.x + piece.to.x) / 2, kStem.x + 2, 0.02) << "not on the near side";
    EXPECT_GE(piece.chance[0].best, piece.chance[1].best);
    EXPECT_GE(piece.chance[1].best, piece.chance[2].best);
    sum += piece.expected[0].best;
  }
  EXPECT_NEAR(sum, met[0].expected[0].best, 1e-9);
  const auto densest = std::max_element(
      met[0].pieces.begin(), met[0].pieces.end(),
      [](const auto& a, const auto& b) { return a.expected[0].best < b.expected[0].best; });
  EXPECT_LT(std::abs((densest->from.y + densest->to.y) / 2 - kStem.y), 1.0);
}

TEST(RootsMetByATrench, AreNotMetAgainBehindIt) {
  const auto law = laws(0.5, 0);
  const auto near = sever(strip(kStem, 0, 2, 3), kFullDepth, "near");
  const auto far = sever(strip(kStem, 0, 4, 5), kFullDepth, "far");
  const auto both = roots_met(law, kStem, {far, near});
  ASSERT_EQ(both.size(), 2U);
  EXPECT_EQ(both[0].work, "far");
  EXPECT_TRUE(both[0].pieces.empty());
  EXPECT_EQ(both[0].expected[0].best, 0);
  EXPECT_GT(both[1].expected[0].best, 0);
}

TEST(RootsMetByADeepWork, AreThoseBelowAShallowOneInFront) {
  const auto law = laws(0.5, 0);
  const auto shallow = sever(strip(kStem, 0, 2, 3), 0.3, "shallow");
  const auto deep = sever(strip(kStem, 0, 3, 4), kFullDepth, "deep");
  const auto met = roots_met(law, kStem, {shallow, deep});
  ASSERT_EQ(met.size(), 2U);
  ASSERT_FALSE(met[1].pieces.empty());
  EXPECT_EQ(met[1].pieces[0].top, 0.3);
  const double alone = roots_met(law, kStem, {deep})[0].expected[0].best;
  EXPECT_LT(met[1].expected[0].best, alone);
  EXPECT_GT(met[1].expected[0].best, 0);
}

TEST(RootsMetByAnything, LeavesPressingWorksOutAndBearsNoWorks) {
  const auto law = laws(0.5, 0);
  EXPECT_TRUE(roots_met(law, kStem, {}).empty());
  GroundTaking pressing = sever(square(kStem, 3));
  pressing.effect = GroundTaking::Effect::presses;
  EXPECT_TRUE(roots_met(law, kStem, {pressing}).empty());
}

TEST(RootsMetByAnything, IsAllOfThemWhereTheWorkSurroundsTheStem) {
  const auto law = laws(0.5, 0);
  const auto met = roots_met(law, kStem, {sever(square(kStem, 30))});
  EXPECT_NEAR(met[0].expected[0].best, law[0].ring(0).count(0.025), 0.01 * met[0].expected[0].best);
}

TEST(RootsMetByAnything, IsNothingBeyondTheRootsOrWhereNoWayLeads) {
  const auto law = laws(0.5, 0);
  EXPECT_TRUE(roots_met(law, kStem, {sever(strip(kStem, 0, 60, 61))})[0].pieces.empty());
  const auto walled = roots_met(law, kStem, {sever(strip(kStem, 0, 2, 3))}, [](const Point&) {
    return std::numeric_limits<double>::infinity();
  });
  EXPECT_TRUE(walled[0].pieces.empty());
}

TEST(RootsMetByAnything, IsLessWhereRootsHaveALongerWay) {
  const auto law = laws(0.5, 0);
  const auto trench = sever(strip(kStem, 0, 2, 3));
  const auto longer = [](const Point& at) { return 1.5 * distance(kStem, at).metres(); };
  EXPECT_LT(roots_met(law, kStem, {trench}, longer)[0].expected[0].best,
            roots_met(law, kStem, {trench})[0].expected[0].best);
}

TEST(RootsMetByAnything, SpansARangeAndIsTheSameEveryTime) {
  const auto draws = laws(0.5, 300);
  const auto trench = sever(strip(kStem, 20, 2, 3), 0.8);
  const auto a = roots_met(draws, kStem, {trench}), b = roots_met(draws, kStem, {trench});
  EXPECT_LT(a[0].expected[0].low, a[0].expected[0].best);
  EXPECT_LT(a[0].expected[0].best, a[0].expected[0].high);
  EXPECT_EQ(a[0].expected[0], b[0].expected[0]);
  for (const FacePiece& piece : a[0].pieces) {
    EXPECT_LE(piece.chance[0].low, piece.chance[0].best);
    EXPECT_LE(piece.chance[0].best, piece.chance[0].high);
    EXPECT_LE(piece.chance[0].high, 1);
  }
}

RC_GTEST_PROP(RootsMetByAnything, GrowsWithDepthAndNearness, ()) {
  const auto law =
      laws(*rc::gen::inRange(10, 120) / 100.0, 5, *rc::gen::arbitrary<std::uint64_t>());
  const double azimuth = *rc::gen::inRange(0, 360);
  const double y = *rc::gen::inRange(60, 500) / 100.0;
  const double depth = *rc::gen::inRange(10, 120) / 100.0;
  const auto met = [&](double at, double down) {
    return total(roots_met(law, kStem, {sever(strip(kStem, azimuth, at, at + 0.4), down)}), 0);
  };
  const double here = met(y, depth);
  RC_ASSERT(met(y, depth + 0.3) >= here - 1e-9);
}

RC_GTEST_PROP(RootsMetByAnything, NeverCountsARootTwice, ()) {
  const auto law = laws(0.6, 0);
  std::vector<GroundTaking> takings;
  const int works = *rc::gen::inRange(1, 6);
  for (int i = 0; i < works; ++i) {
    const double y = *rc::gen::inRange(50, 500) / 100.0;
    takings.push_back(sever(strip(kStem, *rc::gen::inRange(0, 360), y, y + 0.5),
                            *rc::gen::inRange(10, 200) / 100.0, "W" + std::to_string(i)));
  }
  double most = 0;  // a root that forks is two further out
  for (double x = 0; x < law[0].extent; x += 0.1)
    most = std::max(most, law[0].ring(x).count(kSpokenThickness[0]));
  RC_ASSERT(total(roots_met(law, kStem, takings), 0) <= most * 1.001);
}

}  // namespace
}  // namespace rootstead
