// The estimate as a whole: its range, its trail, its notes, its failures, and palms.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "engine/roots/root_model.hpp"
#include "tests/support/round_a_stem.hpp"
#include "tests/support/shipped_tables.hpp"

namespace rootstead {
namespace {

using test::metres;
using test::round_crown;
using test::strip;
using test::tree_at;

constexpr RootSimulation kCentral{1, 0};
const Point kStem{500000, 180000};

const Tables& tables() {
  static const Tables shipped = test::shipped_tables();
  return shipped;
}

// A model with everything it looks at, so that nothing is destroyed before it.
struct Standing {
  explicit Standing(Tree the_tree, Soil soil = {}) : tree(std::move(the_tree)) {
    site.soil = soil;
    model = std::move(root_model(tree, site, tables())).value();
  }
  RootEstimate estimate(const RootSimulation& how = {}) const { return model->estimate(how); }
  double loss(const MultiPolygon& area, double depth = 10) const {
    return model
        ->loss({{"W", area, Length::metres(depth), GroundTaking::Effect::severs, {}}}, kCentral)
        .all.best;
  }
  Tree tree;
  Site site;
  std::unique_ptr<RootModel> model;
};

bool has(const std::vector<Note>& notes, NoteCode code) {
  return std::any_of(notes.begin(), notes.end(), [&](const Note& n) { return n.code == code; });
}

Tree with_crown(double diameter, double crown, std::string name = "Fagus sylvatica") {
  Tree tree = tree_at(kStem, diameter, std::move(name));
  tree.crown = round_crown(crown);
  return tree;
}

Tree palm(double trunk, std::string name = "Phoenix canariensis") {
  Tree tree = tree_at(kStem, trunk, std::move(name));
  tree.form = GrowthForm::palm;
  return tree;
}

TEST(RootEstimate, AlwaysSaysThatItRestsOnPublishedAverages) {
  for (const Tree& tree : {with_crown(0.4, 5), tree_at(kStem, 0.4), palm(0.4)})
    EXPECT_TRUE(has(Standing(tree).estimate().notes, NoteCode::root_estimate));
}

TEST(RootEstimate, NotesEveryAssumptionAndOnlyThose) {
  Soil known;
  known.texture = SoilTexture::loam;
  known.drainage = Drainage::free;
  known.rooting_depth = metres(1.2);
  const RootEstimate full = Standing(with_crown(0.4, 5), known).estimate();
  EXPECT_EQ(full.notes.size(), 1U);

  const RootEstimate bare = Standing(tree_at(kStem, 0.4, "Nomen nescio")).estimate();
  EXPECT_TRUE(has(bare.notes, NoteCode::architecture_assumed));
  EXPECT_TRUE(has(bare.notes, NoteCode::depth_assumed));
  EXPECT_TRUE(has(bare.notes, NoteCode::crown_missing));
  EXPECT_TRUE(has(bare.notes, NoteCode::crown_filled));
}

TEST(RootEstimate, GivesRangesThatHoldTheCentralValues) {
  const Standing standing(with_crown(0.4, 5));
  const RootEstimate drawn = standing.estimate(), central = standing.estimate(kCentral);
  const auto holds = [](const Range& range, const Range& value) {
    return range.low < value.best && value.best < range.high;
  };
  EXPECT_TRUE(holds(drawn.extent_m, central.extent_m));
  EXPECT_TRUE(holds(drawn.share_in_top_150mm, central.share_in_top_150mm));
  EXPECT_TRUE(holds(drawn.share_under_crown, central.share_under_crown));
  EXPECT_NEAR(drawn.extent_m.best / central.extent_m.best, 1, 0.05);
  EXPECT_EQ(central.extent_m.low, central.extent_m.high);
}

TEST(RootEstimate, IsTheSameBitsForTheSameSeed) {
  const Standing standing(with_crown(0.4, 5));
  EXPECT_EQ(standing.estimate({5, 300}).extent_m, standing.estimate({5, 300}).extent_m);
  EXPECT_FALSE(standing.estimate({5, 300}).extent_m == standing.estimate({6, 300}).extent_m);
}

TEST(RootEstimate, CarriesATrailWhoseSourcesAreKnown) {
  for (const Tree& tree : {with_crown(0.4, 5), palm(0.4)})
    for (const Figure& figure : Standing(tree).estimate().figures) {
      EXPECT_FALSE(figure.name.empty());
      EXPECT_FALSE(figure.formula.empty()) << figure.name;
      EXPECT_NE(tables().source(figure.from.source), nullptr) << figure.name;
      // What was measured on weighed trees has a status of its own (quantities_test).
      const bool weighed =
          figure.name.starts_with("roots.mass") || figure.name.starts_with("roots.fine");
      EXPECT_TRUE(weighed || figure.from.status == Status::assumption) << figure.name;
    }
}

TEST(RootEstimate, NamesItsExtentWithItsRange) {
  const RootEstimate estimate = Standing(with_crown(0.4, 5)).estimate();
  const auto extent =
      std::find_if(estimate.figures.begin(), estimate.figures.end(),
                   [](const Figure& figure) { return figure.name == "roots.extent"; });
  ASSERT_NE(extent, estimate.figures.end());
  EXPECT_EQ(extent->unit, "m");
  EXPECT_EQ(extent->range, estimate.extent_m);
}

TEST(RootEstimate, FailsWithASentenceWithoutDiameterOrPosition) {
  Site site;
  const Tree no_stem = tree_at(kStem, 0);
  const auto without_stem = root_model(no_stem, site, tables());
  ASSERT_FALSE(without_stem.ok());
  EXPECT_EQ(without_stem.error().code, Code::missing_measurement);

  Tree nowhere = tree_at(kStem, 0.4);
  nowhere.position.reset();
  const auto without_place = root_model(nowhere, site, tables());
  ASSERT_FALSE(without_place.ok());
  EXPECT_EQ(without_place.error().sentence(),
            "tree T1: it has no position, so its roots have no place; enter its position.");
}

TEST(RootEstimate, ScalesWithAllStemsTogether) {
  Tree twin = tree_at(kStem, 0.3);
  twin.stems.push_back({Stem::Read::diameter, metres(0.4), {}});
  EXPECT_NEAR(Standing(twin).estimate(kCentral).extent_m.best,
              Standing(tree_at(kStem, 0.5)).estimate(kCentral).extent_m.best, 1e-9);
}

TEST(RootPicture, IntegratesToOneOverThePlan) {
  // Midpoint sums over many small polar cells, from the picture alone.
  for (const Tree& tree : {with_crown(0.3, 4), palm(0.5)}) {
    const Standing standing(tree);
    const double reach = standing.estimate(kCentral).extent_m.best + 1;
    constexpr int kRadii = 20000, kAzimuths = 8;
    double sum = 0;
    for (int i = 0; i < kRadii; ++i)
      for (int j = 0; j < kAzimuths; ++j) {
        const double r = (i + 0.5) * reach / kRadii, angle = j * 0.7;
        const Point at{kStem.x + r * std::sin(angle), kStem.y + r * std::cos(angle)};
        sum += standing.model->plan_density(at) * 2 * std::numbers::pi * r / kAzimuths;
      }
    EXPECT_NEAR(sum * reach / kRadii, 1, 1e-3);
  }
}

TEST(RootPicture, ThinsOutwardAndShallowsOutward) {
  const Standing standing(with_crown(0.4, 5));
  const auto at = [](double r) { return Point{kStem.x + r, kStem.y}; };
  for (double r = 0.5; r < 9; r += 0.5) {
    EXPECT_GT(standing.model->plan_density(at(r)), standing.model->plan_density(at(r + 0.5)));
    EXPECT_LE(standing.model->share_above(at(r), Length::metres(0.3)),
              standing.model->share_above(at(r + 0.5), Length::metres(0.3)));
  }
}

TEST(PalmEstimate, IsTakenFromTheSpeciesWhereTheRecordIsSilent) {
  Tree unsaid = palm(0.4);
  unsaid.form = GrowthForm::unknown;
  EXPECT_TRUE(has(Standing(unsaid).estimate().notes, NoteCode::palm_model));
  Tree wrong = palm(0.4);
  wrong.form = GrowthForm::broadleaf;
  EXPECT_TRUE(has(Standing(wrong).estimate().notes, NoteCode::palm_model));
}

TEST(PalmEstimate, WorksWithoutATrunkDiameterAndSaysSo) {
  const RootEstimate estimate = Standing(palm(0)).estimate();
  EXPECT_TRUE(has(estimate.notes, NoteCode::diameter_missing));
}

TEST(PalmEstimate, ReachesFurtherForTallPalmsNotForThickOnes) {
  Tree tall = palm(0.3), small = palm(0.3);
  tall.height = metres(12);
  small.height = metres(2);
  EXPECT_NEAR(Standing(tall).estimate(kCentral).extent_m.best, 12 + 1.1 * 0.15, 1e-9);
  EXPECT_NEAR(Standing(small).estimate(kCentral).extent_m.best, 5 + 1.1 * 0.15, 1e-9);
  Tree thick = tall;
  thick.stems = {{Stem::Read::diameter, metres(1.2), {}}};
  EXPECT_NEAR(Standing(thick).estimate(kCentral).extent_m.best, 12 + 1.1 * 0.6, 1e-9);
}

TEST(PalmEstimate, LosesHalfOfTheRootsThatAreLongEnoughToReachATrench) {
  // Integrated apart from this program: mean over azimuths of the share of roots longer than the
  // way to the trench, for a trunk of 0.4 m and a trench face 0.5 m from the trunk.
  const Standing standing(palm(0.4));
  const double face = 1.1 * 0.2, y = 0.2 + 0.5, reach = 12;
  const auto longer = [](double x) { return 0.8 * std::exp(-x / 0.5) + 0.2 * std::exp(-x / 4); };
  constexpr int kSteps = 20000;
  double sum = 0;
  for (int i = 0; i < kSteps; ++i) {
    const double angle = ((i + 0.5) / kSteps - 0.5) * std::numbers::pi;
    const double x = std::min(reach, y / std::cos(angle) - face);
    sum += (longer(x) - longer(reach)) / (1 - longer(reach));
  }
  EXPECT_NEAR(standing.loss(strip(kStem, 60, y, y + 0.4)), sum / kSteps / 2, 0.003);
}

TEST(MonocotEstimate, IsThatOfAPalmWithANoteOfItsOwn) {
  Tree dracaena = tree_at(kStem, 0.4, "Dracaena draco");
  dracaena.form = GrowthForm::other_monocot;
  const RootEstimate estimate = Standing(dracaena).estimate();
  EXPECT_TRUE(has(estimate.notes, NoteCode::palm_model));
  EXPECT_NEAR(estimate.extent_m.best, Standing(palm(0.4)).estimate().extent_m.best, 0.5);
}

// Upson & Burgess 2013 (Plant and Soil 373:43-58), data CC-BY: roots of 2 mm and more counted on
// walls of trenches that run outward from poplars of about 0.35 m (our estimate of the stem).
TEST(OpenRootData, PoplarRootsThinOutAlongATrenchAsTheFieldDoes) {
  ROOTSTEAD_NEEDS_DATA(file, "roots/silsoe_trench_root_counts.csv");
  std::ifstream in(file);
  std::string line;
  std::getline(in, line);
  const std::vector<std::string> header = test::csv_cells(line);
  const auto column = [&](std::string_view name) {
    return static_cast<std::size_t>(std::find(header.begin(), header.end(), name) - header.begin());
  };
  const std::size_t distance = column("dist_m"), count = column("count");
  ASSERT_LT(std::max(distance, count), header.size());
  double within[5] = {};
  while (std::getline(in, line)) {
    const auto cells = test::csv_cells(line);
    const double far_edge = test::number_of(cells[distance]);
    for (int m = 1; m <= 5; ++m)
      if (far_edge <= m + 1e-9) within[m - 1] += test::number_of(cells[count]);
  }
  const Standing poplar(tree_at(kStem, 0.35, "Populus nigra"));
  const auto along = [&](double metres_out) {  // plan density summed along the trench line
    double sum = 0;
    constexpr int kSteps = 1000;
    for (int i = 0; i < kSteps; ++i)
      sum += poplar.model->plan_density({kStem.x, kStem.y + (i + 0.5) / kSteps * metres_out});
    return sum * metres_out / kSteps;
  };
  for (int m = 1; m <= 4; ++m)
    EXPECT_NEAR(along(m) / along(5), within[m - 1] / within[4], 0.04) << m << " m";
}

}  // namespace
}  // namespace rootstead
