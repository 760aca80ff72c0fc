#include "engine/tables/traits.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <fstream>
#include <map>
#include <numeric>

#include "tests/support/gzip_text.hpp"
#include "tests/support/shipped_tables.hpp"

namespace rootstead {
namespace {

const Tables& tables() {
  static const Tables shipped = test::shipped_tables();
  return shipped;
}

Tree tree_of(const std::string& name, double diameter, GrowthForm form = GrowthForm::unknown) {
  Tree tree;
  tree.id = "T1";
  tree.botanical_name = name;
  tree.form = form;
  if (diameter > 0) tree.stems = {{Stem::Read::diameter, {diameter, LengthUnit::metre}, {}}};
  return tree;
}

double crown(const Tree& tree, const Tables& with = tables()) {
  const auto radius = crown_radius_of(tree, with);
  EXPECT_TRUE(radius.ok()) << radius.error().sentence();
  return radius.ok() ? radius->value.metres() : 0;
}

constexpr double kInch = 0.0254, kFoot = 0.3048;

// ---- crowns -------------------------------------------------------------------------------------

TEST(CrownFilled, IsThatOfTheSpeciesInAStandWhileThatIsWider) {
  // Acer rubrum, Bechtold 2003 as tabulated by Toney et al. 2009: 7.34 + 1.43 D - 0.01 D^2.
  EXPECT_NEAR(2 * crown(tree_of("Acer rubrum", 5 * kInch)), (7.34 + 7.15 - 0.25) * kFoot, 1e-9);
  // Tsuga canadensis: 5.66 + 1.5 D - 0.02 D^2.
  EXPECT_NEAR(2 * crown(tree_of("Tsuga canadensis", 4 * kInch)), (5.66 + 6 - 0.32) * kFoot, 1e-9);
}

TEST(CrownFilled, IsThatOfTreesInTheOpenWhereItIsWider) {
  // Coombes, Martin & Slater 2019: 24 to 27 diameters.
  EXPECT_NEAR(2 * crown(tree_of("Acer rubrum", 0.6)), 25.5 * 0.6, 1e-9);
  EXPECT_NEAR(2 * crown(tree_of("Betula pendula", 0.4)), 25.5 * 0.4, 1e-9);
}

TEST(CrownFilled, TakesTheFitOfTheGroupWhereNoRowHasTheSpecies) {
  // Our fit to BAAD: 0.375 D^0.714 m for conifers, 0.801 D^0.657 for deciduous broadleaves.
  EXPECT_NEAR(2 * crown(tree_of("Cedrus deodara", 0.03)), 0.375 * std::pow(3, 0.714), 1e-9);
  EXPECT_NEAR(2 * crown(tree_of("Pyrus calleryana", 0.05)), 0.801 * std::pow(5, 0.657), 1e-9);
}

TEST(CrownFilled, NeverNarrowsPastTheHighestPointOfAParabola) {
  // Betula alleghaniensis: 3.27 + 2.38 D - 0.05 D^2 is highest at 23.8 inches.
  const Tables stand_only = test::with(tables(), "traits.crown_width.urban", 0.01);
  const double highest = (3.27 + 2.38 * 23.8 - 0.05 * 23.8 * 23.8) * kFoot;
  EXPECT_NEAR(2 * crown(tree_of("Betula alleghaniensis", 0.6045), stand_only), highest, 1e-4);
  EXPECT_NEAR(2 * crown(tree_of("Betula alleghaniensis", 1.2), stand_only), highest, 1e-9);
}

RC_GTEST_PROP(CrownFilled, GrowsWithTheStemAndIsFlagged, ()) {
  const auto row = *rc::gen::elementOf(tables().crown_widths);
  const double thin = *rc::gen::inRange(1, 1500) / 1000.0;
  const double more = *rc::gen::inRange(0, 500) / 1000.0;
  const auto small = crown_radius_of(tree_of(row.botanical_name, thin), tables());
  const auto large = crown_radius_of(tree_of(row.botanical_name, thin + more), tables());
  RC_ASSERT(small.ok());
  RC_ASSERT(large.ok());
  RC_ASSERT(small->value > Length{});
  RC_ASSERT(large->value >= small->value);
  RC_ASSERT(small->filled);
  RC_ASSERT(small->note.has_value());
  RC_ASSERT(small->note->code == NoteCode::crown_filled);
  RC_ASSERT(small->figure.range->low < small->value.metres());
  RC_ASSERT(small->figure.range->high > small->value.metres());
  RC_ASSERT(tables().source(small->figure.from.source) != nullptr);
}

TEST(CrownMeasured, IsTakenAsItIsAndNotFlagged) {
  Tree tree = tree_of("Acer rubrum", 0.6);
  const EnteredLength four{4, LengthUnit::metre};
  tree.crown = Crown{{four, four, four, four}, {}, false};
  const auto radius = crown_radius_of(tree, tables());
  ASSERT_TRUE(radius.ok());
  EXPECT_NEAR(radius->value.metres(), 4, 1e-12);
  EXPECT_FALSE(radius->filled);
  EXPECT_FALSE(radius->note);
}

// ---- heights ------------------------------------------------------------------------------------

TEST(HeightFilled, IsAboutHalfThatOfForestTrees) {
  // Our fit to BAAD, 1.3 + 1.463 D^0.723, times 0.53 (street trees of Vancouver).
  const auto height = height_of(tree_of("Tilia cordata", 0.30), tables());
  ASSERT_TRUE(height.ok());
  EXPECT_NEAR(height->value.metres(), 1.3 + 0.53 * 1.463 * std::pow(30, 0.723), 1e-9);
  EXPECT_TRUE(height->filled);
  ASSERT_TRUE(height->note);
  EXPECT_EQ(height->note->code, NoteCode::height_filled);
}

TEST(HeightFilled, TellsDeciduousConifersApart) {
  const auto larch = height_of(tree_of("Larix decidua", 0.30), tables());
  ASSERT_TRUE(larch.ok());
  EXPECT_NEAR(larch->value.metres(), 1.3 + 0.53 * 0.891 * std::pow(30, 0.954), 1e-9);
}

TEST(HeightMeasured, IsTakenAsItIs) {
  Tree tree = tree_of("Tilia cordata", 0.30);
  tree.height = EnteredLength{60, LengthUnit::foot};
  EXPECT_NEAR(height_of(tree, tables())->value.metres(), 18.288, 1e-9);
  EXPECT_FALSE(height_of(tree, tables())->filled);
}

// ---- what cannot be filled ----------------------------------------------------------------------

TEST(Palms, AreNeverFilledFromTheirStem) {
  int palms = 0;
  for (const Species& species : tables().species) {
    if (species.form != GrowthForm::palm && species.form != GrowthForm::other_monocot) continue;
    ++palms;
    const Tree palm = tree_of(species.botanical_name, 0.4);
    EXPECT_FALSE(crown_radius_of(palm, tables()).ok()) << species.botanical_name;
    EXPECT_FALSE(height_of(palm, tables()).ok()) << species.botanical_name;
  }
  EXPECT_GT(palms, 30);
  const auto by_record = crown_radius_of(tree_of("", 0.4, GrowthForm::palm), tables());
  ASSERT_FALSE(by_record.ok());
  EXPECT_EQ(by_record.error().sentence(),
            "tree T1: it is a palm or other monocot, whose crown is never worked out from a stem; "
            "measure it.");
}

TEST(TreesWithoutAStem, AreNotFilled) {
  const auto radius = crown_radius_of(tree_of("Acer rubrum", 0), tables());
  ASSERT_FALSE(radius.ok());
  EXPECT_EQ(radius.error().code, Code::missing_measurement);
}

TEST(TreesOfUnknownKind, AreFilledAsOurAssumption) {
  const auto radius = crown_radius_of(tree_of("", 0.04), tables());
  ASSERT_TRUE(radius.ok());
  EXPECT_EQ(radius->figure.from.status, Status::assumption);
}

// ---- wood density -------------------------------------------------------------------------------

TEST(WoodDensities, AreShippedForMoreThanAHundredAndTwentyTaxa) {
  EXPECT_GE(tables().wood_densities.size(), 120U);
}

TEST(WoodDensityOf, GoesFromTheSpeciesToTheGenusToAllWoods) {
  // Global Wood Density Database, version 2.
  const auto live_oak = wood_density_of("Quercus virginiana", tables());
  EXPECT_NEAR(live_oak.value.kilograms_per_cubic_metre(), 820, 1e-9);
  EXPECT_FALSE(live_oak.filled);
  const auto oak = wood_density_of("Quercus frainetto", tables());
  EXPECT_NEAR(oak.value.kilograms_per_cubic_metre(), 710, 1e-9);
  EXPECT_TRUE(oak.filled);
  ASSERT_TRUE(oak.note);
  EXPECT_EQ(oak.note->code, NoteCode::density_filled);
  EXPECT_NEAR(oak.figure.range->high, 0.71 + 1.2816 * 0.10, 1e-4);
  const auto any = wood_density_of("Nothing known", tables());
  EXPECT_NEAR(any.value.kilograms_per_cubic_metre(), 613, 1e-9);
  EXPECT_LT(any.figure.range->low, oak.figure.range->low);
}

TEST(WoodDensityOf, PalmsIsFlaggedWhateverIsKnown) {
  const auto palm = wood_density_of("Cocos nucifera", tables());
  EXPECT_TRUE(palm.filled);
  ASSERT_TRUE(palm.note);
  EXPECT_NE(palm.note->text.find("palm"), std::string::npos);
}

double mean_of(const std::vector<double>& values) {
  return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

// Genus, then species, then single values of the first version of the database.
std::map<std::string, std::map<std::string, std::vector<double>>> zanne(const std::string& csv) {
  std::map<std::string, std::map<std::string, std::vector<double>>> woods;
  std::istringstream lines(csv);
  std::string line;
  std::getline(lines, line);
  while (std::getline(lines, line)) {
    const auto cells = test::csv_cells(line);
    const auto value = cells.size() > 3 ? number_from(cells[3]) : std::nullopt;
    if (value) woods[cells[2].substr(0, cells[2].find(' '))][cells[2]].push_back(*value);
  }
  return woods;
}

TEST(WoodDensities, AgreeWithTheFirstVersionOfTheDatabase) {
  ROOTSTEAD_NEEDS_DATA(file, "biomass/wood_density_zanne2009.csv.gz");
  const auto woods = zanne(test::gunzipped(file));
  std::vector<double> off, off_size;
  for (const WoodDensity& row : tables().wood_densities) {
    const auto genus = woods.find(row.botanical_name);
    Tree tree = tree_of(row.botanical_name, 0);
    if (genus == woods.end() || is_monocot(tree, tables())) continue;
    std::vector<double> species_means;
    for (const auto& [name, values] : genus->second) species_means.push_back(mean_of(values));
    off.push_back(row.density - mean_of(species_means));
    off_size.push_back(std::abs(off.back()));
  }
  std::cout << off.size() << " genera; the shipped means are off those of 2009 by " << mean_of(off)
            << " on average, " << mean_of(off_size) << " in size, at most "
            << *std::max_element(off_size.begin(), off_size.end()) << " g/cm3\n";
  EXPECT_GT(off.size(), 100U);
  EXPECT_LT(std::abs(mean_of(off)), 0.02);
  EXPECT_LT(mean_of(off_size), 0.05);
}

// ---- crowns and heights against open data -------------------------------------------------------

struct Ratios {
  std::vector<double> of_best;
  int inside = 0;

  void add(double seen, const Figure& filled) {
    of_best.push_back(seen / filled.value);
    inside += seen >= filled.range->low && seen <= filled.range->high;
  }
  double median() {
    std::sort(of_best.begin(), of_best.end());
    return of_best[of_best.size() / 2];
  }
  double share_inside() const { return inside / static_cast<double>(of_best.size()); }
};

TEST(FilledFigures, HoldMostTreesOfACampus) {
  ROOTSTEAD_NEEDS_DATA(file, "site_ubc/trees.csv");
  std::ifstream lines(file);
  std::string line;
  std::getline(lines, line);
  Ratios crowns, heights;
  while (std::getline(lines, line)) {
    const auto cells = test::csv_cells(line);
    if (cells.size() < 10) continue;
    const auto dbh = number_from(cells[4]), height = number_from(cells[5]);
    const auto one = number_from(cells[8]), two = number_from(cells[9]);
    if (!dbh || *dbh < 3 || *dbh > 130) continue;  // the data have girths and slips among them
    const Tree tree = tree_of(cells[1], *dbh / 100);
    if (is_monocot(tree, tables())) continue;
    if (one && two && *one > 0 && *two > 0)
      crowns.add(std::sqrt(*one * *two) / 2, crown_radius_of(tree, tables())->figure);
    if (height && *height > 1.5 && *height < 70)
      heights.add(*height, height_of(tree, tables())->figure);
  }
  std::cout << crowns.of_best.size() << " crowns: seen per filled, median " << crowns.median()
            << ", " << 100 * crowns.share_inside() << " % inside P10 to P90\n"
            << heights.of_best.size() << " heights: median " << heights.median() << ", "
            << 100 * heights.share_inside() << " % inside\n";
  EXPECT_GT(crowns.of_best.size(), 500U);
  EXPECT_NEAR(crowns.median(), 1, 0.2);
  EXPECT_GT(crowns.share_inside(), 0.65);
  EXPECT_NEAR(heights.median(), 1, 0.25);
  EXPECT_GT(heights.share_inside(), 0.65);
}

// ---- the other tables of species ----------------------------------------------------------------

TEST(WetSoilTolerances, AreThoseOfTheList) {
  ASSERT_NE(tables().wet_soil_of("Taxodium distichum"), nullptr);
  EXPECT_EQ(tables().wet_soil_of("Taxodium distichum")->tolerance, WetSoil::very_tolerant);
  EXPECT_EQ(tables().wet_soil_of("Carya ovata")->tolerance, WetSoil::intolerant);  // by genus
  EXPECT_EQ(tables().wet_soil_of("Quercus alba")->tolerance, WetSoil::very_intolerant);
  EXPECT_TRUE(tables().wet_soil_of("Fraxinus americana")->sources_disagree);
  EXPECT_EQ(tables().wet_soil_of("Tilia cordata"), nullptr);
}

TEST(RootLossTolerances, CoverTheWholeListAndSayWhereSourcesDisagree) {
  int with_tolerance = 0, disagreeing = 0;
  for (const Species& row : tables().species) {
    with_tolerance += row.tolerance != Tolerance::unknown;
    disagreeing += row.sources_disagree;
  }
  EXPECT_GE(with_tolerance, 125);
  EXPECT_GE(disagreeing, 30);
}

TEST(TraitGroups, FollowTheRecordThenTheSpecies) {
  EXPECT_EQ(trait_group_of(tree_of("Quercus ilex", 0.3), tables()),
            TraitGroup::evergreen_broadleaf);
  EXPECT_EQ(trait_group_of(tree_of("Quercus robur", 0.3), tables()),
            TraitGroup::deciduous_broadleaf);
  EXPECT_EQ(trait_group_of(tree_of("Larix decidua", 0.3), tables()), TraitGroup::deciduous_conifer);
  EXPECT_EQ(trait_group_of(tree_of("", 0.3, GrowthForm::conifer), tables()), TraitGroup::conifer);
  EXPECT_EQ(trait_group_of(tree_of("", 0.3, GrowthForm::broadleaf), tables()), TraitGroup::any);
}

}  // namespace
}  // namespace rootstead
