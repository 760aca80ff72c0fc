// Advice on cuts and bores on small sites: geometry, numbers of roots, words, properties.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "engine/cutting/bore_advice.hpp"
#include "engine/cutting/bore_line.hpp"
#include "engine/cutting/cut_advice.hpp"
#include "engine/geom/measure.hpp"
#include "engine/losses/losses.hpp"
#include "tests/support/shipped_tables.hpp"
#include "tests/support/site_builder.hpp"

namespace rootstead {
namespace {

using test::SiteBuilder;
constexpr double kFoot = 0.3048;
constexpr RootSimulation kCentral{1, 0};

const Tables& tables() {
  static const Tables shipped = test::shipped_tables();
  return shipped;
}

// A trench from west to east whose near side runs `near` metres north of a tree at the origin.
Site trench_site(double diameter, double near, double depth) {
  return SiteBuilder()
      .tree("T1", {0, 0}, diameter)
      .trench("W1", {{-15, near + 0.3}, {15, near + 0.3}}, 0.6, depth);
}

Site palm_site(std::string species, double near) {
  return SiteBuilder()
      .palm("P1", {0, 0})
      .with_tree([&](Tree& tree) { tree.botanical_name = species; })
      .trench("W1", {{-15, near + 0.3}, {15, near + 0.3}}, 0.6, 0.8);
}

std::vector<RootsMet> met(const Site& site) {
  const Tree& tree = site.trees.front();
  const auto model = root_model(tree, site, tables());
  EXPECT_TRUE(model);
  const WorkMap works(site);
  return (*model)->thick_roots_met(takings_near(tree, Length::metres(100), works), kCentral);
}

CutAdvice advise(const Site& site, const char* standard = "bs5837-2012") {
  return cut_advice(site.trees.front(), site.works.front(), met(site), nullptr, site, tables(),
                    *cut_standard(tables(), standard));
}

bool says(const std::vector<Prescription>& all, std::string_view topic, std::string_view words) {
  return std::any_of(all.begin(), all.end(), [&](const Prescription& one) {
    return one.topic == topic && one.text.find(words) != std::string::npos;
  });
}

// ---- the line -----------------------------------------------------------------------------------

TEST(CutFace, IsTheNearSideOfATrench) {
  // Seen from the origin within 5 m, a side at y = 3 reaches 4 m to each hand: 8 m.
  const auto face = cut_face({0, 0}, test::rectangle(-20, 3, 20, 4), Length::metres(5));
  ASSERT_EQ(face.lines.size(), 1U);
  EXPECT_NEAR(face.nearest, 3, 1e-12);
  EXPECT_NEAR(face.length, 8, 0.15);  // half a degree of sight at each end
  for (const Point& point : face.lines.front()) EXPECT_NEAR(point.y, 3, 0.011);
  EXPECT_LE(face.lines.front().size(), 4U) << "a straight side has few points";
  EXPECT_EQ(face.sides, 1);
  EXPECT_NEAR(face.nearest_at.x, 0, 0.05);
}

TEST(CutFace, IsNothingOutOfReachAndNoSideWhereTheStemStands) {
  EXPECT_TRUE(cut_face({0, 0}, test::rectangle(-20, 6, 20, 7), Length::metres(5)).lines.empty());
  const auto inside = cut_face({0, 0}, test::rectangle(-2, -2, 2, 2), Length::metres(5));
  EXPECT_TRUE(inside.round_the_stem);
  EXPECT_TRUE(inside.lines.empty());
  EXPECT_EQ(inside.nearest, 0);
}

TEST(CutFace, GoesAllRoundAMoat) {
  MultiPolygon moat = test::rectangle(-4, -4, 4, 4);
  moat.front().holes = {test::rectangle(-2, -2, 2, 2).front().outer};
  const auto face = cut_face({0, 0}, moat, Length::metres(10));
  ASSERT_EQ(face.lines.size(), 1U);
  EXPECT_NEAR(face.length, 16, 0.1);
  EXPECT_EQ(face.sides, 4);
}

RC_GTEST_PROP(CutFaceOfAnyTrench, TurnsAndMovesWithTheSite, ()) {
  const double near = *rc::gen::inRange(400, 600) / 100.0;
  const double degrees = *rc::gen::inRange(0, 360), dx = *rc::gen::inRange(-500000, 500000);
  const Site site = trench_site(0.4, near, 0.8);
  const Site other = test::shifted(test::turned(site, degrees, {0, 0}), dx, 2 * dx);
  const auto face_of = [](const Site& s) {
    return cut_face(s.trees.front().position->at, footprint(s.works.front()), Length::metres(9));
  };
  const CutFace a = face_of(site), b = face_of(other);
  RC_ASSERT(std::abs(a.nearest - b.nearest) < 1e-6);
  RC_ASSERT(std::abs(a.length - b.length) < 0.5);
}

// ---- cuts ---------------------------------------------------------------------------------------

TEST(CutAdvice, MeasuresFromTheTrunkFaceInStemDiameters) {
  // A side 2.2 m from the centre of a stem of 0.4 m: 2.0 m from its face, 5 diameters.
  const auto advice = advise(trench_site(0.4, 2.2, 0.8));
  EXPECT_TRUE(advice.cuts);
  EXPECT_NEAR(advice.nearest->metres(), 2.0, 1e-9);
  EXPECT_NEAR(*advice.nearest_diameters, 5.0, 1e-9);
  EXPECT_EQ(advice.nearness, CutAdvice::Nearness::nearer_than_preferred);
  EXPECT_EQ(advise(trench_site(0.4, 2.6, 0.8)).nearness, CutAdvice::Nearness::clear);
  EXPECT_EQ(advise(trench_site(0.4, 1.4, 0.8)).nearness, CutAdvice::Nearness::nearer_than_preferred)
      << "just at 3 diameters";
  EXPECT_EQ(advise(trench_site(0.4, 1.3, 0.8)).nearness, CutAdvice::Nearness::nearer_than_least);
  EXPECT_EQ(advise(trench_site(0.4, 0.1, 0.8)).nearness, CutAdvice::Nearness::at_trunk);
}

TEST(CutAdvice, PrescribesForTheCrew) {
  const auto advice = advise(trench_site(0.4, 2.2, 1.6));
  const auto& all = advice.prescriptions;
  EXPECT_TRUE(says(all, "root cut", "5.0 stem diameters"));
  EXPECT_TRUE(says(all, "root cut", "square and clean"));
  EXPECT_TRUE(says(all, "root cut", "25 mm: roots from this thickness on"));
  EXPECT_TRUE(says(all, "root cut", "one side of four"));
  EXPECT_TRUE(says(all, "dig by hand", "buried services"));
  EXPECT_TRUE(says(all, "dig by hand", "compressed air"));
  EXPECT_TRUE(says(all, "aftercare of roots", "the same day"));
  EXPECT_TRUE(says(all, "excavation safety", "box or shores"));
  for (const Prescription& one : all) {
    EXPECT_NE(tables().source(one.from.source), nullptr) << one.text;
    EXPECT_EQ(one.work, "W1") << one.text;
    EXPECT_EQ((one.text + one.reason).find(" safe"), std::string::npos) << one.text;
  }
  ASSERT_TRUE(advice.expected);
  EXPECT_GT((*advice.expected)[0].best, (*advice.expected)[1].best);
  EXPECT_GT((*advice.expected)[1].best, (*advice.expected)[2].best);
  EXPECT_FALSE(advice.present.empty());
}

TEST(CutAdvice, FollowsTheStandardChosenAndShowsTheOthers) {
  const Site site = trench_site(0.4, 2.2, 0.8);
  const auto maryland = advise(site, "maryland-715");
  EXPECT_TRUE(says(maryland.prescriptions, "root cut", "10 days"));
  EXPECT_NEAR(maryland.hand_depth->metres(), 0.6096, 1e-9);
  EXPECT_NE(maryland.present.front().find("licensed"), std::string::npos);
  const auto british = advise(site);
  EXPECT_EQ(british.others.size() + 1, cut_standards(tables()).size());
  const auto shown = std::find_if(
      british.prescriptions.begin(), british.prescriptions.end(), [](const Prescription& one) {
        return one.text.find("only after the arborist was asked") != std::string::npos;
      });
  ASSERT_NE(shown, british.prescriptions.end());
  EXPECT_NE(shown->reason.find("njug4-2007 25 mm (from memory)"), std::string::npos)
      << shown->reason;
}

TEST(CutAdvice, SaysNothingOfCutsWhereNoneAreMade) {
  const Site far = trench_site(0.2, 60, 0.8);
  EXPECT_FALSE(advise(far).cuts);
  EXPECT_TRUE(advise(far).prescriptions.empty());
  Site fill = SiteBuilder()
                  .tree("T1", {0, 0}, 0.4)
                  .area("W1", WorkKind::fill, test::rectangle(1, -2, 4, 2), 0.4);
  EXPECT_FALSE(advise(fill).cuts);
}

TEST(CutAdvice, BearsATreeWithoutPositionOrStem) {
  Site site = trench_site(0.4, 2.2, 0.8);
  site.trees.front().stems.clear();
  const auto no_stem = cut_advice(site.trees.front(), site.works.front(), {}, nullptr, site,
                                  tables(), default_cut_standard(tables(), UnitSystem::metric));
  EXPECT_FALSE(no_stem.nearest_diameters);
  EXPECT_FALSE(no_stem.notes.empty());
  EXPECT_TRUE(no_stem.cuts);
  EXPECT_EQ(no_stem.nearness, CutAdvice::Nearness::unknown);
  site.trees.front().position.reset();
  const auto no_place = cut_advice(site.trees.front(), site.works.front(), {}, nullptr, site,
                                   tables(), default_cut_standard(tables(), UnitSystem::metric));
  EXPECT_FALSE(no_place.nearest);
  EXPECT_TRUE(no_place.cuts) << "it may: nobody knows";
}

RC_GTEST_PROP(CutAdviceForAnyCut, NeverMeetsFewerRootsNearerOrDeeper, ()) {
  constexpr double kBelowAllRoots = 2.5;  // a shallower cut may pass over roots nearer the trunk
  const double diameter = *rc::gen::inRange(10, 90) / 100.0;
  const double near = 0.8 * diameter + *rc::gen::inRange(0, 500) / 100.0;
  const double nearer = std::max(0.8 * diameter, near - *rc::gen::inRange(0, 200) / 100.0);
  const double depth = *rc::gen::inRange(20, 150) / 100.0;
  const double deeper = depth + *rc::gen::inRange(0, 100) / 100.0;
  const auto roots = [&](double at, double down) {
    return advise(trench_site(diameter, at, down))
        .expected.value_or(std::array<Range, kSpokenThickness.size()>{});
  };
  const auto here = roots(near, depth), below = roots(near, deeper);
  const auto whole = roots(near, kBelowAllRoots), closer = roots(nearer, kBelowAllRoots);
  for (std::size_t i = 0; i < kSpokenThickness.size(); ++i) {
    RC_ASSERT(below[i].best >= here[i].best - 1e-9);
    RC_ASSERT(closer[i].best >= whole[i].best * 0.96 - 1e-3);  // each figure within 2 %
  }
}

RC_GTEST_PROP(CutAdviceForAnyPalm, NeverHasAFigureOfStemDiameters, ()) {
  const std::string species = *rc::gen::element<std::string>(
      "Sabal palmetto", "Cocos nucifera", "Roystonea regia", "Howea forsteriana", "");
  const Site site = palm_site(species, *rc::gen::inRange(5, 300) / 100.0);
  const auto advice = cut_advice(site.trees.front(), site.works.front(), {}, nullptr, site,
                                 tables(), default_cut_standard(tables(), UnitSystem::metric));
  RC_ASSERT(!advice.nearest_diameters);
  RC_ASSERT(!advice.distance.diameter);
  RC_ASSERT(!advice.expected);
  for (const Figure& figure : advice.figures) {
    RC_ASSERT(figure.name.find("diameter") == std::string::npos);
    for (const FigureInput& input : figure.inputs) RC_ASSERT(input.symbol != "D");
  }
  for (const Prescription& one : advice.prescriptions)
    RC_ASSERT((one.text + one.reason).find("stem diameter") == std::string::npos);
  const auto bore = bore_advice(site.trees.front(), site.works.front(), site, tables());
  RC_ASSERT(bore.clearance && bore.clearance->versions.empty());
}

TEST(CutAdviceForAPalm, TellsHowItsRootsComeBack) {
  const Site site = palm_site("Sabal palmetto", 0.4);
  const auto advice = cut_advice(site.trees.front(), site.works.front(), {}, nullptr, site,
                                 tables(), default_cut_standard(tables(), UnitSystem::metric));
  EXPECT_TRUE(advice.cuts);
  EXPECT_EQ(advice.nearness, CutAdvice::Nearness::nearer_than_least);
  EXPECT_TRUE(std::any_of(advice.prescriptions.begin(), advice.prescriptions.end(),
                          [](const Prescription& one) {
                            return one.reason.find("hardly ever branch again") != std::string::npos;
                          }));
}

// ---- bores --------------------------------------------------------------------------------------

TEST(BoreLine, IsMeasuredAlongItself) {
  const Line line = {{0, 0}, {10, 0}, {10, 10}};
  const auto spans = spans_within(line, {10, 0}, 3);
  ASSERT_EQ(spans.size(), 1U) << "the corner joins both legs";
  EXPECT_NEAR(spans[0].from, 7, 1e-12);
  EXPECT_NEAR(spans[0].to, 13, 1e-12);
  EXPECT_NEAR(point_at(line, 13).y, 3, 1e-12);
  EXPECT_EQ(piece_of(line, 7, 13).size(), 3U);
  EXPECT_TRUE(spans_within(line, {5, 4}, 3.9).empty());
}

TEST(BoreAdvice, RunsBelowRootsWhereTheTableAsks) {
  // 12 in: 10 ft from the face, 10.5 ft from the centre; the line passes 5 ft from the centre.
  const double inch = kFoot / 12;
  const Site site = SiteBuilder()
                        .tree("T1", {0, 0}, 12 * inch)
                        .trench("W1", {{-15, 5 * kFoot}, {15, 5 * kFoot}}, 0.6, 0.9);
  const auto advice = bore_advice(site.trees.front(), site.works.front(), site, tables());
  EXPECT_TRUE(advice.needed);
  ASSERT_EQ(advice.stretches.size(), 1U);
  const double half = std::sqrt(10.5 * 10.5 - 5 * 5) * kFoot;
  EXPECT_NEAR(advice.stretches[0].from, 15 - half, 1e-9);
  EXPECT_NEAR(advice.stretches[0].to, 15 + half, 1e-9);
  EXPECT_NEAR(advice.depth.metres(), 4.5 * kFoot, 1e-9);  // Arlington: within 15 ft
  ASSERT_EQ(advice.pits.size(), 2U);
  for (const BorePit& pit : advice.pits) {
    EXPECT_TRUE(pit.clear);
    EXPECT_NEAR(distance(pit.at, Point{0, 0}).metres(), 10.5 * kFoot, 1e-9);
  }
  EXPECT_TRUE(says(advice.prescriptions, "bore", "bore it rather than dig: from chainage"));
}

TEST(BoreAdvice, JoinsStretchesOfNeighboursAndNamesTheTrees) {
  const Site site = SiteBuilder()
                        .tree("T1", {0, 0}, 0.3)
                        .tree("T2", {4, 0}, 0.3)
                        .tree("T3", {60, 0}, 0.3)
                        .trench("W1", {{-15, 1.5}, {90, 1.5}}, 0.6, 0.9);
  const auto advice = bore_advice(site.trees.front(), site.works.front(), site, tables());
  ASSERT_EQ(advice.stretches.size(), 2U);
  EXPECT_EQ(advice.stretches[0].trees, (std::vector<std::string>{"T1", "T2"}));
  EXPECT_EQ(advice.stretches[1].trees, (std::vector<std::string>{"T3"}));
  EXPECT_EQ(advice.pits.size(), 4U);
}

TEST(BoreAdvice, LeavesNoGapInWhichNoPitHasRoom) {
  // Two trees whose distances end one metre from each other along the line: a pit is longer.
  const auto stretches = [](double apart) {
    Site site = SiteBuilder()
                    .tree("T1", {0, 0}, 0.3)
                    .tree("T2", {apart, 0}, 0.3)
                    .trench("W1", {{-15, 0.5}, {60, 0.5}}, 0.6, 0.9);
    return bore_advice(site.trees.front(), site.works.front(), site, tables());
  };
  const auto one = stretches(30);
  ASSERT_EQ(one.stretches.size(), 2U);
  const double long_one = one.stretches[0].to - one.stretches[0].from;
  EXPECT_EQ(stretches(long_one + 1).stretches.size(), 1U);
  EXPECT_EQ(stretches(long_one + 2).stretches.size(), 2U);
}

TEST(BoreAdvice, SaysWhereNoPitCanStandClear) {
  const Site site =
      SiteBuilder().tree("T1", {0, 0}, 0.3).trench("W1", {{-1, 1.5}, {20, 1.5}}, 0.6, 0.9);
  const auto advice = bore_advice(site.trees.front(), site.works.front(), site, tables());
  ASSERT_EQ(advice.stretches.size(), 1U);
  EXPECT_TRUE(advice.stretches[0].begins_inside);
  EXPECT_FALSE(advice.pits[0].clear);
  EXPECT_TRUE(advice.pits[1].clear);
  EXPECT_TRUE(std::any_of(advice.notes.begin(), advice.notes.end(), [](const Note& note) {
    return note.code == NoteCode::bore_pit_not_clear;
  }));
}

TEST(BoreAdvice, KeepsTheAugerTableFromPalms) {
  const Site site = palm_site("Cocos nucifera", 0.2);
  const auto advice = bore_advice(site.trees.front(), site.works.front(), site, tables());
  ASSERT_TRUE(advice.clearance);
  EXPECT_TRUE(advice.clearance->palm);
  EXPECT_NEAR(advice.clearance->from_trunk.metres(), kFoot, 1e-9);
}

TEST(BoreAdvice, NeedsAStemDiameterOfATree) {
  Site site = trench_site(0.4, 1, 0.8);
  site.trees.front().stems.clear();
  const auto advice = bore_advice(site.trees.front(), site.works.front(), site, tables());
  EXPECT_FALSE(advice.clearance);
  ASSERT_TRUE(advice.no_clearance);
  EXPECT_EQ(advice.no_clearance->code, Code::missing_measurement);
}

TEST(TrenchOrBore, LosesLessBored) {
  const Site site = trench_site(0.35, 1.2, 0.9);
  const auto both =
      trench_or_bore(site.trees.front(), site.works.front(), site, tables(), kCentral);
  ASSERT_TRUE(both);
  EXPECT_GT(both->trench_loss.best, 0.1);
  EXPECT_LT(both->bore_loss.best, both->trench_loss.best);
  ASSERT_TRUE(both->trench_kept && both->bore_kept);
  EXPECT_LT(both->trench_kept->best, both->bore_kept->best);
  EXPECT_EQ(both->bored.size(), 2U);
  EXPECT_EQ(both->bored[1].bore_pits.size(), 2U);
  const Site pit = SiteBuilder().tree("T1", {0, 0}, 0.4).pit("W1", test::rectangle(1, 1, 2, 2), 1);
  EXPECT_FALSE(trench_or_bore(pit.trees.front(), pit.works.front(), pit, tables(), kCentral));
}

// ---- what is worked out once for a site
// -----------------------------------------------------------

RC_GTEST_PROP(QuickTests, LeaveOutOnlyWhatNeedsNoAdvice, ()) {
  const Site site = test::random_site(*rc::gen::arbitrary<std::uint32_t>(), 4, 6, 30);
  const BoreClearances clearances = bore_clearances(site, tables());
  const WorkMap works(site);
  for (std::size_t i = 0; i < site.trees.size(); ++i) {
    const Tree& tree = site.trees[i];
    const auto model = root_model(tree, site, tables());
    std::vector<RootsMet> roots;
    if (model && tree.position)
      roots = (*model)->thick_roots_met(takings_near(tree, Length::metres(60), works), kCentral);
    for (const Work& work : site.works) {
      const BoreAdvice bore = bore_advice(tree, work, site, tables());
      const auto& clearance = clearances.of_tree[i];
      RC_ASSERT((clearance && comes_within(*clearance, tree, work)) == bore.needed);
      const BoreAdvice same = bore_advice(tree, work, site, clearances, tables());
      RC_ASSERT(same.stretches.size() == bore.stretches.size());
      RC_ASSERT(same.depth == bore.depth && same.notes.size() == bore.notes.size());
      const CutAdvice cut = cut_advice(tree, work, roots, nullptr, site, tables(),
                                       *cut_standard(tables(), "bs5837-2012"));
      RC_ASSERT(may_cut(tree, work, roots, tables()) || !cut.cuts);
    }
  }
}

}  // namespace
}  // namespace rootstead
