#include "engine/site/diameter.hpp"

#include <cmath>
#include <numbers>

namespace rootstead {
namespace {

Tree tree_of(const std::vector<double>& sizes, LengthUnit unit = LengthUnit::millimetre) {
  Tree tree;
  tree.id = "T1";
  for (const double size : sizes) {
    Stem stem;
    stem.size = {size, unit};
    tree.stems.push_back(stem);
  }
  return tree;
}

double millimetres(const Tree& tree, const DiameterRule& rule) {
  return combined_diameter(tree, rule).value().millimetres();
}

constexpr DiameterRule only(StemConvention convention) {
  return {convention, 0, convention};
}

// BS 5837:2012: two to five stems by root-sum-square (published, read second-hand), more by the
// mean times the root of their number (from memory).
constexpr DiameterRule kBs5837{StemConvention::root_sum_square, 5,
                               StemConvention::mean_times_root_count};

TEST(Diameter, TwoToFiveStemsCombineByRootSumSquare) {
  EXPECT_NEAR(millimetres(tree_of({300, 400}), kBs5837), 500, 1e-9);
  EXPECT_NEAR(millimetres(tree_of({180, 160, 140}), kBs5837), 278.568, 0.0005);
  EXPECT_NEAR(millimetres(tree_of({300, 250, 200}), kBs5837), 438.748, 0.0005);
}

TEST(Diameter, MoreThanFiveStemsCombineByTheirMean) {
  EXPECT_NEAR(millimetres(tree_of(std::vector<double>(6, 150)), kBs5837), 367.423, 0.0005);
  const Tree seven = tree_of({100, 120, 140, 160, 180, 200, 220});
  EXPECT_NEAR(millimetres(seven, kBs5837), 423.320, 0.0005);
  // the root-sum-square of the same seven would be another figure
  EXPECT_NEAR(millimetres(seven, only(StemConvention::root_sum_square)), 436.348, 0.0005);
}

TEST(Diameter, FiveStemsAreNotYetMany) {
  EXPECT_EQ(convention_for(kBs5837, 5), StemConvention::root_sum_square);
  EXPECT_EQ(convention_for(kBs5837, 6), StemConvention::mean_times_root_count);
}

TEST(Diameter, AustinAddsHalfOfTheSmallerStemsToTheLargest) {
  // City of Austin, Texas, Environmental Criteria Manual: 18 and 16 inches give 26 inches.
  const Tree tree = tree_of({16, 18}, LengthUnit::inch);
  const auto found = combined_diameter(tree, only(StemConvention::largest_plus_half_rest));
  EXPECT_NEAR(in_unit(*found, LengthUnit::inch), 26, 1e-12);
}

TEST(Diameter, TheOtherConventionsAreWhatTheirNamesSay) {
  const Tree tree = tree_of({200, 300, 100});
  EXPECT_NEAR(millimetres(tree, only(StemConvention::sum)), 600, 1e-9);
  EXPECT_NEAR(millimetres(tree, only(StemConvention::two_largest)), 500, 1e-9);
  EXPECT_NEAR(millimetres(tree, only(StemConvention::largest)), 300, 1e-9);
}

TEST(Diameter, OneStemIsItselfUnderEveryConvention) {
  for (const auto convention :
       {StemConvention::single, StemConvention::root_sum_square,
        StemConvention::mean_times_root_count, StemConvention::largest_plus_half_rest,
        StemConvention::sum, StemConvention::two_largest, StemConvention::largest})
    EXPECT_NEAR(millimetres(tree_of({430}), only(convention)), 430, 1e-9) << to_text(convention);
}

TEST(Diameter, AGirthIsDividedByPi) {
  Tree tree = tree_of({1});
  tree.stems[0].read = Stem::Read::girth;
  EXPECT_NEAR(millimetres(tree, only(StemConvention::single)), 1 / std::numbers::pi, 1e-12);
  EXPECT_NEAR(tree.stems[0].girth().millimetres(), 1, 1e-12);
  tree.stems[0].read = Stem::Read::diameter;
  EXPECT_NEAR(tree.stems[0].girth().millimetres(), std::numbers::pi, 1e-12);
}

TEST(Diameter, IsMissingWhereNoStemHasASize) {
  for (const Tree& tree : {tree_of({}), tree_of({0}), tree_of({-3, 0})}) {
    const auto found = combined_diameter(tree, kBs5837);
    ASSERT_FALSE(found.ok());
    EXPECT_EQ(found.error().code, Code::missing_measurement);
    EXPECT_EQ(found.error().sentence(),
              "tree T1: there is no stem diameter above zero; measure the stem and enter its "
              "diameter or girth.");
  }
  EXPECT_NEAR(millimetres(tree_of({0, 400}), kBs5837), 400, 1e-9);
}

TEST(Diameter, ASingleStemRuleRefusesSeveral) {
  const auto found = combined_diameter(tree_of({200, 300}), only(StemConvention::single));
  ASSERT_FALSE(found.ok());
  EXPECT_EQ(found.error().code, Code::outside_rule_domain);
}

TEST(Diameter, EveryConventionReadsBackFromItsWords) {
  for (const auto convention :
       {StemConvention::single, StemConvention::root_sum_square,
        StemConvention::mean_times_root_count, StemConvention::largest_plus_half_rest,
        StemConvention::sum, StemConvention::two_largest, StemConvention::largest}) {
    EXPECT_EQ(stem_convention_from(to_text(convention)), convention);
    EXPECT_FALSE(formula_of(convention).empty());
  }
  EXPECT_FALSE(stem_convention_from("thickest of all"));
}

RC_GTEST_PROP(Diameter, NeverLessThanTheThickestNorMoreThanTheSum, ()) {
  const auto sizes =
      *rc::gen::nonEmpty(rc::gen::container<std::vector<int>>(rc::gen::inRange(1, 2000)));
  const Tree tree = tree_of({sizes.begin(), sizes.end()});
  const double thickest = millimetres(tree, only(StemConvention::largest));
  const double sum = millimetres(tree, only(StemConvention::sum));
  for (const auto convention :
       {StemConvention::root_sum_square, StemConvention::largest_plus_half_rest,
        StemConvention::two_largest}) {
    const double found = millimetres(tree, only(convention));
    RC_ASSERT(found >= thickest * (1 - 1e-12));
    RC_ASSERT(found <= sum * (1 + 1e-12));
  }
  // by the mean it is never more than by the squares
  RC_ASSERT(millimetres(tree, only(StemConvention::mean_times_root_count)) <=
            millimetres(tree, only(StemConvention::root_sum_square)) * (1 + 1e-12));
}

}  // namespace
}  // namespace rootstead
