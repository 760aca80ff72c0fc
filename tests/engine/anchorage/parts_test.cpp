// The four parts, direction by direction, and roots that were measured.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

#include "engine/anchorage/anchorage.hpp"
#include "engine/anchorage/cut_rose.hpp"
#include "engine/anchorage/measured_roots.hpp"
#include "engine/geom/measure.hpp"
#include "tests/support/round_a_stem.hpp"
#include "tests/support/shipped_tables.hpp"

namespace rootstead {
namespace {

using test::metres;
using test::strip;
using test::tree_at;

constexpr double kFullDepth = 100;
constexpr double kTolerance = 0.003;
const Point kStem{500000, 180000};

const Tables& tables() {
  static const Tables shipped = test::shipped_tables();
  return shipped;
}

AnchorageCut cut(MultiPolygon area, double depth = kFullDepth) {
  return {"W1", std::move(area), Length::metres(depth), true, false};
}

AnchorageCut straight(double diameter, double units, double azimuth = 0) {
  const double x = diameter / 2 + units * diameter;
  return cut(strip(kStem, azimuth, x, x + 0.5));
}

// A cut through one root at the flare, in this direction, hardly wider than a saw.
AnchorageCut root_cut(double diameter, double azimuth) {
  return cut(strip(kStem, azimuth, diameter / 2, diameter / 2 + 0.02, 0.003));
}

AnchorageShares heart() {
  return anchorage_shares(RootArchitecture::heart, false, tables());
}

std::vector<MeasuredRoot> equal_roots(int count) {
  std::vector<MeasuredRoot> roots;
  for (int i = 0; i < count; ++i) roots.push_back({i * kRoseRays / count, 1e-2, {}});
  return roots;
}

// Of `count` equal roots the `severed` windward-most, cut at the flare; wind from the north.
double kept_of_roots(int count, int severed) {
  constexpr double kDiameter = 0.4;
  std::vector<AnchorageCut> cuts;
  for (int i = 0; i < severed; ++i) {
    const int side = i % 2 == 0 ? -(i / 2) : (i + 1) / 2;  // 0, 1, -1, 2, -2 ...
    cuts.push_back(root_cut(kDiameter, 360.0 * side / count));
  }
  const CutRose rose(kStem, trunk_of(Length::metres(kDiameter), heart()), cuts);
  const KeptParts left = KeptByWind(rose, heart(), equal_roots(count)).parts(Angle());
  // No soil is removed: the plate stays whole.
  return 1 - heart().tension * (1 - left.tension) - heart().hinge * (1 - left.hinge);
}

TEST(MeasuredRoots, CutOneByOneAtTheFlareLoseAsComputedApart) {
  // The model's own regression values: equal roots, no soil removed.
  EXPECT_NEAR(kept_of_roots(8, 0), 1, 1e-12);
  EXPECT_NEAR(kept_of_roots(8, 1), 0.899, kTolerance);
  EXPECT_NEAR(kept_of_roots(8, 2), 0.818, kTolerance);
  EXPECT_NEAR(kept_of_roots(8, 3), 0.737, kTolerance);
  EXPECT_NEAR(kept_of_roots(8, 4), 0.704, kTolerance);
  EXPECT_NEAR(kept_of_roots(6, 1), 0.859, kTolerance);
  EXPECT_NEAR(kept_of_roots(6, 3), 0.670, kTolerance);
  EXPECT_NEAR(kept_of_roots(10, 1), 0.919, kTolerance);
  EXPECT_NEAR(kept_of_roots(10, 5), 0.691, kTolerance);
}

TEST(MeasuredRoots, LoseAsPublishedForOneButtressRootAndForHalfOfThem) {
  for (const int count : {6, 8, 10}) {
    EXPECT_NEAR(kept_of_roots(count, 1), 0.88, 0.05);          // Smiley 2008
    EXPECT_NEAR(kept_of_roots(count, count / 2), 0.70, 0.06);  // Smiley 2008
  }
}

TEST(MeasuredRoots, ThatManyAndEvenHoldLikeEvenOnes) {
  const CutRose rose(kStem, trunk_of(Length::metres(0.5), heart()), {straight(0.5, 0.7)});
  for (const double wind : {0.0, 70.0, 180.0})
    EXPECT_NEAR(KeptByWind(rose, heart(), equal_roots(360))(Angle::degrees(wind)),
                KeptByWind(rose, heart())(Angle::degrees(wind)), 1e-9);
}

TEST(MeasuredRoots, PassBelowACutThatIsNotDeepEnough) {
  const CutRose rose(kStem, trunk_of(Length::metres(0.4), heart()),
                     {cut(strip(kStem, 0, 0.2, 0.5), 0.3)});
  const auto tension = [&](std::optional<double> depth) {
    return KeptByWind(rose, heart(), {{0, 1e-2, depth}}).parts(Angle()).tension;
  };
  EXPECT_NEAR(tension(0.2), 0, 1e-12);
  EXPECT_NEAR(tension(0.4), 1, 1e-12);
  EXPECT_NEAR(tension({}), std::exp(-0.3 / 0.25), 1e-9);  // not known: the share that lies below
}

TEST(AnchorageParts, AddUpToTheShareKept) {
  const AnchorageShares s = heart();
  const CutRose rose(kStem, trunk_of(Length::metres(0.6), s), {straight(0.6, 1)});
  const KeptByWind kept(rose, s);
  for (const double wind : {0.0, 90.0, 180.0}) {
    const KeptParts p = kept.parts(Angle::degrees(wind));
    EXPECT_NEAR(
        s.tension * p.tension + s.central * p.central + s.plate * p.plate + s.hinge * p.hinge,
        kept(Angle::degrees(wind)), 1e-12);
  }
  // Wind from the cut side: the lee hinge stays whole, the pulling roots do not.
  EXPECT_EQ(kept.parts(Angle()).hinge, 1);
  EXPECT_LT(kept.parts(Angle()).tension, 0.85);
  EXPECT_EQ(kept.parts(Angle()).central, 1);
}

TEST(AnchorageParts, AreShownWithTheirBandForEveryDirection) {
  const auto kept = anchorage_of(tree_at(kStem, 0.6), {straight(0.6, 1)}, tables());
  ASSERT_TRUE(kept.ok());
  const double heart[] = {0.857, 0.935, 0.952}, plate[] = {0.737, 0.883, 0.935},
               tap[] = {0.917, 0.962, 0.972};
  for (std::size_t i = 0; i < 3; ++i) {
    const Range& band = kept->band[9 * i];
    EXPECT_NEAR(band.best, heart[i], kTolerance);
    EXPECT_NEAR(band.low, plate[i] - 0.03, kTolerance);
    EXPECT_NEAR(band.high, std::min(1.0, tap[i] + 0.03), kTolerance);
    EXPECT_EQ(band.best, kept->by_direction[9 * i]);
  }
  const auto figures = figures_of(*kept);
  for (const char* name :
       {"anchorage.kept", "anchorage.before", "anchorage.after", "anchorage.component.tension",
        "anchorage.component.central", "anchorage.component.plate", "anchorage.component.hinge"}) {
    const auto found = std::find_if(figures.begin(), figures.end(),
                                    [&](const Figure& figure) { return figure.name == name; });
    ASSERT_NE(found, figures.end()) << name;
    EXPECT_FALSE(found->formula.empty());
    EXPECT_EQ(found->from.status, Status::assumption);
  }
}

TEST(DepthOfRoots, EndsAtRockOrWater) {
  AnchorageShares shares = heart();
  EXPECT_NEAR(depth_share(0.45, shares), 0.83, 0.005);
  EXPECT_NEAR(depth_share(0.30, shares), 0.70, 0.005);
  shares.deepest = Length::metres(0.5);
  EXPECT_EQ(depth_share(0.5, shares), 1);
  EXPECT_GT(depth_share(0.3, shares), 0.70);
  Soil wet;
  wet.water_table = metres(0.5);
  const std::vector<AnchorageCut> cuts = {cut(strip(kStem, 0, 0.9, 1.4), 0.5)};
  const auto kept = anchorage_of(tree_at(kStem, 0.6, "Quercus robur"), cuts, tables(), wet);
  EXPECT_NEAR(kept->kept.best, 0.737, kTolerance);  // all roots severed, of a plate
}

// ---- from the evidence of a site ----------------------------------------------------------------

// A ring of ground blown out round the stem, with `count` roots 80 mm thick in it.
Evidence ring(int count, double from = 0.3, double to = 0.6) {
  Evidence evidence;
  evidence.id = "E1";
  evidence.kind = EvidenceKind::air_trench;
  evidence.tree = "T1";
  Polygon area;
  constexpr int kCorners = 72;
  for (int i = 0; i < kCorners; ++i) {
    const Angle way = Angle::degrees(i * 360.0 / kCorners);
    area.outer.push_back(offset(kStem, way, Length::metres(to)));
  }
  area.holes.emplace_back();
  for (int i = 0; i < kCorners; ++i) {
    const Angle way = Angle::degrees(i * 360.0 / kCorners);
    area.holes.back().push_back(offset(kStem, way, Length::metres(from)));
  }
  evidence.shape.areas = {area};
  for (int i = 0; i < count; ++i) {
    FoundRoot root;
    root.diameter = {80, LengthUnit::millimetre};
    root.at = offset(kStem, Angle::degrees(360.0 * i / count), Length::metres(0.4));
    evidence.roots.push_back(root);
  }
  return evidence;
}

AnchorageKept kept_with(const std::vector<Evidence>& evidence,
                        const std::vector<AnchorageCut>& cuts = {straight(0.4, 0.5)}) {
  AnchorageContext context;
  context.evidence = evidence;
  auto kept = anchorage_of(tree_at(kStem, 0.4), cuts, tables(), context);
  EXPECT_TRUE(kept.ok());
  return std::move(kept).value();
}

std::string root_note(const AnchorageKept& kept) {
  for (const Note& note : kept.notes)
    if (note.code == NoteCode::roots_measured) return note.text;
  return {};
}

TEST(RootsFoundRoundAStem, ReplaceEvenOnes) {
  const AnchorageKept even = kept_with({});
  const AnchorageKept eight = kept_with({ring(8)});
  EXPECT_EQ(even.measured_roots, 0);
  EXPECT_EQ(eight.measured_roots, 8);
  EXPECT_NE(root_note(eight).find("8 roots"), std::string::npos);
  EXPECT_TRUE(root_note(even).empty());
  // All roots on the far side: the cut meets none of them, only the plate loses.
  Evidence lee = ring(36);
  std::erase_if(lee.roots, [](const FoundRoot& root) { return root.at->y > kStem.y - 0.1; });
  const AnchorageKept away = kept_with({lee});
  EXPECT_GT(away.kept.best, even.kept.best + 0.1);
  EXPECT_EQ(away.parts.tension, 1);
  // All on the near side: more is lost than of even roots.
  Evidence windward = ring(36);
  std::erase_if(windward.roots, [](const FoundRoot& root) { return root.at->y < kStem.y + 0.2; });
  EXPECT_LT(kept_with({windward}).kept.best, even.kept.best);
}

TEST(RootsFoundRoundAStem, AreNotUsedWhereTooLittleIsKnownOfThem) {
  const double even = kept_with({}).kept.best;
  const auto unused = [&](const Evidence& evidence, std::string_view why) {
    const AnchorageKept kept = kept_with({evidence});
    EXPECT_EQ(kept.measured_roots, 0);
    EXPECT_EQ(kept.kept.best, even);
    EXPECT_NE(root_note(kept).find(why), std::string::npos) << root_note(kept);
  };
  unused(ring(3), "3 living roots");
  Evidence unplaced = ring(8);
  unplaced.roots[5].at.reset();
  unused(unplaced, "no place");
  Evidence dead = ring(6);
  for (std::size_t i = 0; i < 3; ++i) dead.roots[i].alive = false;
  unused(dead, "3 living roots");
  Evidence half = ring(8);
  half.shape.areas = strip(kStem, 0, 0.3, 0.6, 1);
  unused(half, "of the circle");
  Evidence single = ring(8);
  single.kind = EvidenceKind::dug_root;  // what is not listed was not looked for
  unused(single, "of the circle");
  Evidence other = ring(8);
  other.tree = "T2";
  EXPECT_TRUE(root_note(kept_with({other})).empty());
  EXPECT_EQ(kept_with({ring(8, 2.0, 2.5)}).measured_roots, 0);  // beyond three diameters
}

TEST(RootsFoundRoundAStem, LeavePalmsAsTheyAre) {
  Tree palm = tree_at(kStem, 0.4, "Phoenix canariensis");
  palm.form = GrowthForm::palm;
  const std::vector<Evidence> evidence = {ring(8)};
  AnchorageContext context;
  context.evidence = evidence;
  const std::vector<AnchorageCut> cuts = {straight(0.4, 1)};
  EXPECT_EQ(anchorage_of(palm, cuts, tables(), context)->kept,
            anchorage_of(palm, cuts, tables())->kept);
}

RC_GTEST_PROP(MeasuredRootsProperty, NeverHoldMoreWhereACutIsAdded, ()) {
  std::vector<MeasuredRoot> roots;
  const int count = *rc::gen::inRange(1, 12);
  for (int i = 0; i < count; ++i)
    roots.push_back({*rc::gen::inRange(0, 360), *rc::gen::inRange(1, 100) / 1e4,
                     *rc::gen::inRange(0, 100) / 100.0});
  const auto any_cut = [] {
    const double near = *rc::gen::inRange(0, 200) / 100.0;
    return cut(strip(kStem, *rc::gen::inRange(0, 360), near, near + 0.4, 2),
               *rc::gen::inRange(1, 150) / 100.0);
  };
  const AnchorageCut first = any_cut(), second = any_cut();
  const Angle wind = Angle::degrees(*rc::gen::inRange(0, 360));
  const auto kept = [&](const std::vector<AnchorageCut>& cuts) {
    const CutRose rose(kStem, trunk_of(Length::metres(0.4), heart()), cuts);
    return KeptByWind(rose, heart(), roots)(wind);
  };
  const double one = kept({first});
  RC_ASSERT(one >= 0 && one <= 1);
  RC_ASSERT(kept({first, second}) <= one + 1e-12);
}

}  // namespace
}  // namespace rootstead
