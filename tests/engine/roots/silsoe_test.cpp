// The law of thick roots beside open counts of roots on trench faces of four poplars (Upson &
// Burgess 2013; CC-BY). The law was shaped on these counts: this tells how well a law of few
// numbers holds them, and whether it holds one tree as well as the other three trees do.
#include <gtest/gtest.h>

#include <cstdio>

#include "engine/roots/trench_fit.hpp"
#include "tests/support/shared_data.hpp"
#include "tests/support/shipped_tables.hpp"
#include "validation/silsoe.hpp"
#include "validation/silsoe_counts.hpp"

namespace rootstead {
namespace {

const Tables& tables() {
  static const Tables shipped = test::shipped_tables();
  return shipped;
}

std::vector<double> mean_of_others(const std::vector<TrenchFace>& faces, std::size_t left_out) {
  std::vector<double> mean(faces[left_out].counts.size());
  for (std::size_t tree = 0; tree < faces.size(); ++tree)
    for (std::size_t i = 0; i < mean.size() && tree != left_out; ++i)
      mean[i] += faces[tree].counts[i] / static_cast<double>(faces.size() - 1);
  return mean;
}

void print(const char* what, const ShapeFit& fit) {
  std::printf("  %-22s r %.3f  rmse %.1f  chi2/n %.2f  error %.2f\n", what, fit.correlation,
              fit.rmse, fit.chi_square / static_cast<double>(fit.observed.size()),
              fit.relative_error);
}

TEST(SilsoePoplars, AreReadWhole) {
  ROOTSTEAD_NEEDS_DATA(file, "roots/silsoe_trench_root_counts.csv");
  const auto faces = validation::read_silsoe(file.string());
  ASSERT_EQ(faces.size(), 4U);
  double sum = 0;
  for (const TrenchFace& face : faces)
    for (const double count : face.counts) sum += count;
  EXPECT_EQ(sum, 723);
}

TEST(SilsoePoplars, AreSummedRightlyForTheValidationPage) {
  ROOTSTEAD_NEEDS_DATA(file, "roots/silsoe_trench_root_counts.csv");
  const auto faces = validation::read_silsoe(file.string());
  ASSERT_EQ(faces.size(), validation::kSilsoeCounts.size());
  for (std::size_t tree = 0; tree < faces.size(); ++tree) {
    const auto& sums = validation::kSilsoeCounts[tree];
    EXPECT_EQ(faces[tree].tree, sums.tree);
    const TrenchFit fit = trench_fit(validation::silsoe_law(tables()), faces[tree]);
    EXPECT_TRUE(std::equal(sums.by_metre_and_size.begin(), sums.by_metre_and_size.end(),
                           fit.by_distance_and_size.observed.begin()));
    EXPECT_TRUE(
        std::equal(sums.by_depth.begin(), sums.by_depth.end(), fit.by_depth.observed.begin()));
  }
}

TEST(SilsoePoplars, AreHeldByTheLawInDistanceDepthAndSize) {
  ROOTSTEAD_NEEDS_DATA(file, "roots/silsoe_trench_root_counts.csv");
  const auto faces = validation::read_silsoe(file.string());
  ASSERT_EQ(faces.size(), 4U);
  const ThickRootLaw law = validation::silsoe_law(tables());
  double log_error = 0, other_error = 0;
  for (std::size_t tree = 0; tree < faces.size(); ++tree) {
    const TrenchFit fit = trench_fit(law, faces[tree]);
    const TrenchFit others = trench_fit(mean_of_others(faces, tree), law.crowding, faces[tree]);
    std::printf("%s: %.0f roots, law %.0f, other trees %.0f\n", fit.tree.c_str(), fit.observed,
                fit.expected, others.expected);
    print("distance", fit.by_distance);
    print("  by other trees", others.by_distance);
    print("depth", fit.by_depth);
    print("  by other trees", others.by_depth);
    print("size", fit.by_size);
    print("  by other trees", others.by_size);
    print("distance and size", fit.by_distance_and_size);
    print("  by other trees", others.by_distance_and_size);
    EXPECT_NEAR(fit.expected / fit.observed, 1, 0.30) << fit.tree;
    EXPECT_GT(fit.by_distance.correlation, 0.80) << fit.tree;
    EXPECT_GT(fit.by_depth.correlation, 0.80) << fit.tree;
    EXPECT_GT(fit.by_size.correlation, 0.97) << fit.tree;
    EXPECT_GT(fit.by_distance_and_size.correlation, 0.85) << fit.tree;
    log_error += fit.by_distance_and_size.relative_error;
    other_error += others.by_distance_and_size.relative_error;
  }
  EXPECT_LT(log_error, other_error * 1.10) << "the other three trees tell more than the law";
}

}  // namespace
}  // namespace rootstead
