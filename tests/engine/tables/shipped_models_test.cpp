// The shipped species and parameters of the root and anchorage models, as an arborist would check
// them: are they all there, and does each say where it comes from?
#include <gtest/gtest.h>

#include <algorithm>

#include "engine/tables/distribution.hpp"
#include "tests/support/shipped_tables.hpp"

namespace rootstead {
namespace {

const Tables& tables() {
  static const Tables shipped = test::shipped_tables();
  return shipped;
}

TEST(ShippedParameters, EachHaveASpreadThatCanBeDrawnAndAKnownSource) {
  ASSERT_GE(tables().parameters.size(), 60U);
  for (const Parameter& row : tables().parameters) {
    EXPECT_TRUE(Distribution::of(row)) << row.id;
    EXPECT_NE(tables().source(row.from.source), nullptr) << row.id;
    EXPECT_FALSE(row.meaning.empty()) << row.id;
  }
}

TEST(ShippedSpecies, CoverMoreThanAHundredAndTwentyTaxaOfEveryForm) {
  EXPECT_GE(tables().species.size(), 120U);
  for (const GrowthForm form :
       {GrowthForm::broadleaf, GrowthForm::conifer, GrowthForm::palm, GrowthForm::other_monocot})
    EXPECT_TRUE(std::any_of(tables().species.begin(), tables().species.end(),
                            [&](const Species& row) { return row.form == form; }));
}

TEST(ShippedSpecies, EachSayWhereArchitectureAndToleranceComeFrom) {
  for (const Species& row : tables().species) {
    if (row.architecture != RootArchitecture::unknown) {
      EXPECT_NE(tables().source(row.architecture_from.source), nullptr) << row.botanical_name;
    }
    if (row.tolerance != Tolerance::unknown) {
      EXPECT_NE(tables().source(row.tolerance_from.source), nullptr) << row.botanical_name;
    }
  }
}

TEST(ShippedSpecies, OfPalmsHaveNeitherArchitectureNorStemTolerance) {
  for (const Species& row : tables().species) {
    const bool monocot = row.form == GrowthForm::palm || row.form == GrowthForm::other_monocot;
    if (!monocot) {
      EXPECT_FALSE(row.palm_top_share) << row.botanical_name;
      continue;
    }
    EXPECT_EQ(row.architecture, RootArchitecture::unknown) << row.botanical_name;
    EXPECT_EQ(row.tolerance, Tolerance::unknown) << row.botanical_name;
  }
}

TEST(ShippedSpecies, OfPalmsHoldTheMeasuredShares) {
  // Hodel, Pittenger & Downer 2005, Table 5: sixteen palms, mean 72 %, 50 to 97 %.
  double sum = 0, least = 1, most = 0;
  int count = 0;
  for (const Species& row : tables().species) {
    if (!row.palm_top_share) continue;
    ++count;
    sum += *row.palm_top_share;
    least = std::min(least, *row.palm_top_share);
    most = std::max(most, *row.palm_top_share);
  }
  EXPECT_EQ(count, 16);
  EXPECT_NEAR(sum / count, 0.72, 0.01);
  EXPECT_NEAR(least, 0.50, 0.005);
  EXPECT_NEAR(most, 0.97, 0.005);
}

TEST(ShippedSpecies, CarryTheVerifiedRowsAsPublishedAndTheRestAsRecalled) {
  const auto tolerance = [](const char* name) { return *tables().species_of(name); };
  // Public consultants' reports of Pleasanton, California.
  EXPECT_EQ(tolerance("Quercus agrifolia").tolerance, Tolerance::good);
  EXPECT_EQ(tolerance("Quercus lobata").tolerance, Tolerance::moderate);
  EXPECT_EQ(tolerance("Juglans regia").tolerance, Tolerance::poor);
  EXPECT_EQ(tolerance("Quercus agrifolia").tolerance_from.status, Status::published);
  EXPECT_EQ(tolerance("Fagus sylvatica").tolerance, Tolerance::poor);
  EXPECT_EQ(tolerance("Fagus sylvatica").tolerance_from.status, Status::memory);
  // Lists that differ: the more careful class, and the disagreement marked.
  EXPECT_EQ(tolerance("Quercus virginiana").tolerance, Tolerance::moderate);
  EXPECT_TRUE(tolerance("Quercus virginiana").sources_disagree);
  EXPECT_FALSE(tolerance("Ginkgo biloba").sources_disagree);
}

TEST(ShippedSpecies, AreFoundByHybridNamesAndGenus) {
  ASSERT_NE(tables().species_of("Platanus x hispanica"), nullptr);
  EXPECT_EQ(tables().species_of("Platanus x hispanica")->tolerance, Tolerance::good);
  ASSERT_NE(tables().species_of("Picea omorika"), nullptr);
  EXPECT_EQ(tables().species_of("Picea omorika")->architecture, RootArchitecture::plate);
  EXPECT_EQ(tables().species_of("Nomen nescio"), nullptr);
}

}  // namespace
}  // namespace rootstead
