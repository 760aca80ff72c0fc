// Root systems drawn by lot: what must hold of every one, and of many together.
#include "engine/roots/architecture.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <array>
#include <cmath>
#include <map>
#include <numbers>

#include "engine/geom/measure.hpp"
#include "engine/roots/field_source.hpp"
#include "tests/support/round_a_stem.hpp"
#include "tests/support/shipped_tables.hpp"

namespace rootstead {
namespace {

using test::metres;
using test::tree_at;

const Point kStem{500000, 180000};

const Tables& tables() {
  static const Tables shipped = test::shipped_tables();
  return shipped;
}

Tree woody(double diameter, const std::string& name = "Tilia cordata") {
  return tree_at(kStem, diameter, name);
}

Tree palm(const std::string& name = "Sabal palmetto") {
  Tree tree = tree_at(kStem, 0.4, name);
  tree.form = GrowthForm::palm;
  return tree;
}

RootSystem grown(const Tree& tree, std::uint64_t seed = 1, const Site& site = {},
                 double thinnest = 0.005) {
  auto roots = grow_roots(tree, site, tables(), seed, Length::metres(thinnest));
  EXPECT_TRUE(roots.ok());
  return std::move(roots).value();
}

ThickRootLaw law_of(const Tree& tree, double diameter) {
  const Species* species = tables().species_of(tree.botanical_name);
  static const Soil soil;
  const Length stem = Length::metres(diameter);
  const RootField field = woody_fields(tree, stem, species, soil, tables())->central();
  return thick_roots(tree, stem, species, field, tables());
}

double area(double thickness) {
  return std::numbers::pi / 4 * thickness * thickness;
}

double from_stem(const Place3& p) {
  return std::hypot(p.x - kStem.x, p.y - kStem.y);
}

bool in_ground(RootKind kind) {
  return kind != RootKind::aerial && kind != RootKind::prop;
}

// Thicknesses and depths of the roots that cross a ring round the stem.
struct OnRing {
  double thickness = 0, depth = 0;
};
std::vector<OnRing> on_ring(const RootSystem& roots, double radius) {
  std::vector<OnRing> found;
  for (const RootPiece& piece : roots.pieces) {
    const double from = from_stem(piece.from), to = from_stem(piece.to);
    if ((from < radius) == (to < radius) || !in_ground(piece.kind)) continue;
    const double part = (radius - from) / (to - from);
    found.push_back({std::lerp(piece.thickness_from, piece.thickness_to, part),
                     std::lerp(piece.from.z, piece.to.z, part)});
  }
  return found;
}

const std::vector<std::string> kTrees = {
    "Tilia cordata",      "Quercus robur",      "Picea abies", "Populus nigra",
    "Ficus benghalensis", "Taxodium distichum", "Rhizophora",  "Unknown thing"};

RC_GTEST_PROP(RootSystem, KeepsTheRulesOfForksAndGround, ()) {
  const Tree tree = woody(*rc::gen::inRange(8, 90) / 100.0, *rc::gen::elementOf(kTrees));
  const RootSystem roots = grown(tree, *rc::gen::arbitrary<std::uint64_t>());
  RC_ASSERT(!roots.pieces.empty());
  std::map<int, double> grown_from;  // parent -> cross-sections of what grows from its end
  for (std::size_t i = 0; i < roots.pieces.size(); ++i) {
    const RootPiece& piece = roots.pieces[i];
    RC_ASSERT(piece.parent < static_cast<int>(i));
    RC_ASSERT(piece.thickness_from >= piece.thickness_to);
    RC_ASSERT(piece.thickness_to >= 0.005 - 1e-12);
    if (in_ground(piece.kind)) RC_ASSERT(piece.from.z >= 0 && piece.to.z >= 0);
    if (piece.parent < 0) {
      RC_ASSERT(piece.order == 0);
      continue;
    }
    const RootPiece& parent = roots.pieces[static_cast<std::size_t>(piece.parent)];
    RC_ASSERT(piece.thickness_from <= parent.thickness_to + 1e-12);
    RC_ASSERT(piece.from == parent.to);
    RC_ASSERT(piece.order == parent.order || piece.order == parent.order + 1);
    if (piece.kind != RootKind::aerial) grown_from[piece.parent] += area(piece.thickness_from);
  }
  for (const auto& [parent, together] : grown_from) {
    // Out over in at forks: .8 to 1.3 published (van Noordwijk, Spek & de Willigen 1994; Oppelt
    // 2001, recalled).
    const double ratio =
        together / area(roots.pieces[static_cast<std::size_t>(parent)].thickness_to);
    RC_ASSERT(ratio <= 1.3 + 1e-9);
    RC_ASSERT(ratio >= 0.8 - 1e-9);
  }
}

RC_GTEST_PROP(RootSystem, HasTheWoodOfTheLawAtItsBase, ()) {
  const double diameter = *rc::gen::inRange(10, 90) / 100.0;
  const Tree tree = woody(diameter, *rc::gen::elementOf(kTrees));
  const RootSystem roots = grown(tree, *rc::gen::arbitrary<std::uint64_t>());
  double base = 0;
  for (const RootPiece& piece : roots.pieces)
    if (piece.parent < 0 && in_ground(piece.kind)) base += area(piece.thickness_from);
  const double law = law_of(tree, diameter).cross_section(0);
  RC_ASSERT(std::abs(base - law) < 1e-6 * law);
}

TEST(RootSystem, IsTheSameForTheSameSeedAndAnotherForAnother) {
  EXPECT_EQ(grown(woody(0.5), 3).pieces, grown(woody(0.5), 3).pieces);
  EXPECT_NE(grown(woody(0.5), 3).pieces, grown(woody(0.5), 4).pieces);
}

TEST(RootSystem, HasThreeToFifteenMainLaterals) {
  // Forests 2020 11(10):1031: 3 to 15; red maple 6 to 10 (Smiley 2014).
  double sum = 0;
  for (std::uint64_t seed = 1; seed <= 100; ++seed) {
    int mains = 0;
    for (const RootPiece& piece : grown(woody(0.4), seed).pieces)
      mains += piece.parent < 0 && piece.kind == RootKind::lateral && piece.thickness_from > 0.04;
    EXPECT_GE(mains, 3);
    EXPECT_LE(mains, 20);
    sum += mains;
  }
  EXPECT_GE(sum / 100, 6);
  EXPECT_LE(sum / 100, 12);
}

TEST(ManyRootSystems, CrossRingsInTheNumbersOfTheLaw) {
  constexpr int kSeeds = 200;
  struct Case {
    double diameter;
    const char* name;
    std::vector<double> thicker;  // m; the first is the thinnest followed
  };
  for (const Case& c : {Case{0.35, "Populus nigra", {0.008, 0.010, 0.025}},
                        Case{0.6, "Picea abies", {0.010, 0.025, 0.050}}}) {
    const Tree tree = woody(c.diameter, c.name);
    const ThickRootLaw law = law_of(tree, c.diameter);
    const std::array<double, 4> radii = {1.0, 2.0, 3.5, 5.5};
    std::map<std::pair<double, double>, double> counted;
    std::map<double, double> above;  // roots of 10 mm and more above 0.4 m
    for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
      const RootSystem roots = grown(tree, seed, {}, c.thicker.front());
      for (const double radius : radii)
        for (const OnRing& root : on_ring(roots, radius)) {
          for (const double d : c.thicker) counted[{radius, d}] += root.thickness >= d;
          above[radius] += root.thickness >= 0.010 && root.depth < 0.4;
        }
    }
    for (const double radius : radii) {
      const double x = radius - law.face;
      for (const double d : c.thicker) {
        const double expected = law.ring(x).count(d), mean = counted[{radius, d}] / kSeeds;
        EXPECT_NEAR(mean, expected, 0.15 * expected + 0.3)
            << c.name << ", ring of " << radius << " m, roots of " << d << " m";
      }
      const double share = above[radius] / counted[{radius, 0.010}];
      EXPECT_NEAR(share, law.share_above(0.4, 0.012, x), 0.10)
          << c.name << ", ring of " << radius << " m";
    }
  }
}

Barrier wall_at(double north, double half_length, double depth) {
  Barrier wall;
  wall.kind = BarrierKind::wall;
  wall.shape.lines = {
      {{kStem.x - half_length, kStem.y + north}, {kStem.x + half_length, kStem.y + north}}};
  wall.depth = metres(depth);
  return wall;
}

TEST(RootSystemAtAWall, DoesNotGrowThroughIt) {
  Site site;
  site.barriers = {wall_at(2, 100, 5)};
  const RootSystem roots = grown(woody(0.6), 5, site);
  for (const RootPiece& piece : roots.pieces) EXPECT_LT(piece.to.y, kStem.y + 2);
  const auto along = crossings(roots, {kStem.x + 3, kStem.y}, {kStem.x + 3, kStem.y + 2});
  const auto open =
      crossings(grown(woody(0.6), 5), {kStem.x + 3, kStem.y}, {kStem.x + 3, kStem.y + 2});
  EXPECT_GT(along.size(), open.size()) << "roots gather along the wall";
}

TEST(RootSystemAtAShallowWall, PassesBelowIt) {
  Site site;
  site.barriers = {wall_at(2, 100, 0.3)};
  const auto below = crossings(grown(woody(0.6), 5, site), {kStem.x - 50, kStem.y + 2.001},
                               {kStem.x + 50, kStem.y + 2.001});
  EXPECT_FALSE(below.empty());
  for (const Crossing& crossing : below) EXPECT_GT(crossing.depth, 0.25);
}

TEST(Crossings, GivePlaceDepthAndThickness) {
  RootSystem roots;
  roots.pieces = {{{0, -1, 0.2}, {0, 1, 0.4}, 0.10, 0.06, -1, 0, RootKind::lateral},
                  {{5, 0.5, 0.2}, {5, 2, 0.4}, 0.10, 0.06, -1, 0, RootKind::lateral}};
  const auto found = crossings(roots, {-3, 0}, {10, 0});
  ASSERT_EQ(found.size(), 1U);
  EXPECT_NEAR(found[0].along, 3, 1e-12);
  EXPECT_NEAR(found[0].depth, 0.3, 1e-12);
  EXPECT_NEAR(found[0].thickness, 0.08, 1e-12);
  EXPECT_EQ(found[0].piece, 0);
  EXPECT_TRUE(crossings(roots, {1, 0}, {10, 0}).empty()) << "beyond the end of the plane";
  EXPECT_TRUE(crossings(roots, {1, 1}, {1, 1}).empty()) << "no plane at all";
}

TEST(PalmRootSystem, IsThinRootsThatKeepTheirThickness) {
  const RootSystem roots = grown(palm());
  EXPECT_TRUE(roots.palm);
  std::size_t count = 0;
  double near = 0;
  for (const RootPiece& piece : roots.pieces) {
    EXPECT_EQ(piece.kind, RootKind::palm);
    EXPECT_EQ(piece.thickness_from, piece.thickness_to);
    EXPECT_GE(piece.thickness_from, 0.003);
    EXPECT_LE(piece.thickness_from, 0.012);
    EXPECT_GE(piece.to.z, 0);
    if (piece.parent < 0) {
      ++count;
      EXPECT_LE(from_stem(piece.from), 0.4 / 2 * 1.1 + 1e-6);
    } else {
      EXPECT_EQ(piece.thickness_from,
                roots.pieces[static_cast<std::size_t>(piece.parent)].thickness_from);
    }
  }
  EXPECT_LE(count, 600U);
  EXPECT_GE(static_cast<double>(count) * roots.each_stands_for, 1000);
  EXPECT_LE(static_cast<double>(count) * roots.each_stands_for, 4000);
  // Hodel et al. 2005: a ball reaching 30 cm from the trunk holds more than half of the roots.
  std::vector<bool> goes_on(roots.pieces.size(), false);
  for (const RootPiece& piece : roots.pieces)
    if (piece.parent >= 0) goes_on[static_cast<std::size_t>(piece.parent)] = true;
  for (std::size_t i = 0; i < roots.pieces.size(); ++i)
    if (!goes_on[i]) near += from_stem(roots.pieces[i].to) < 0.2 + 0.3;
  EXPECT_GT(near / static_cast<double>(count), 0.3);
}

TEST(AerialRoots, AreBornByTheGeneraKnownForThem) {
  const auto has = [](const RootSystem& roots, RootKind kind) {
    for (const RootPiece& piece : roots.pieces)
      if (piece.kind == kind && piece.from.z < 0) return true;
    return false;
  };
  EXPECT_TRUE(has(grown(woody(0.6, "Ficus benghalensis")), RootKind::aerial));
  EXPECT_TRUE(has(grown(woody(0.3, "Rhizophora mangle")), RootKind::prop));
  const RootSystem lime = grown(woody(0.6));
  EXPECT_FALSE(has(lime, RootKind::aerial));
  EXPECT_FALSE(has(lime, RootKind::prop));
}

TEST(Taproots, AreForTreesOfThatTypeAlone) {
  const auto taps = [](const std::string& name) {
    int sum = 0;
    for (std::uint64_t seed = 1; seed <= 40; ++seed)
      for (const RootPiece& piece : grown(woody(0.3, name), seed).pieces)
        sum += piece.kind == RootKind::tap && piece.parent < 0;
    return sum;
  };
  EXPECT_GT(taps("Quercus robur"), 8);
  EXPECT_LT(taps("Quercus robur"), 32);
  EXPECT_EQ(taps("Picea abies"), 0);
}

TEST(RootSystem, IsRefusedWhereTheEstimateIs) {
  Tree nowhere = woody(0.4);
  nowhere.position.reset();
  const auto no_place = grow_roots(nowhere, {}, tables(), 1);
  ASSERT_FALSE(no_place.ok());
  EXPECT_EQ(no_place.error().code, Code::missing_measurement);
  EXPECT_FALSE(grow_roots(woody(0), {}, tables(), 1).ok());
}

}  // namespace
}  // namespace rootstead
