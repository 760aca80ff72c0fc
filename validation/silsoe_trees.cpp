// The four open trees of Silsoe one by one: how well the law holds each, beside how well the mean
// of the other three trees does.
#include "validation/shipped.hpp"
#include "validation/silsoe.hpp"
#include "validation/silsoe_counts.hpp"
#include "validation/thick_parts.hpp"
#include "validation/words.hpp"

namespace rootstead::validation {
namespace {

constexpr std::size_t kSizes = 4, kMetres = 5;

std::vector<double> by_distance(const std::vector<double>& cells) {
  std::vector<double> sums(kMetres, 0);
  for (std::size_t i = 0; i < cells.size(); ++i) sums[i / kSizes] += cells[i];
  return sums;
}

std::vector<double> by_size(const std::vector<double>& cells) {
  std::vector<double> sums(kSizes, 0);
  for (std::size_t i = 0; i < cells.size(); ++i) sums[i % kSizes] += cells[i];
  return sums;
}

template <std::size_t N>
std::vector<double> list(const std::array<double, N>& values) {
  return {values.begin(), values.end()};
}

std::vector<double> mean_of_others(std::size_t left_out) {
  std::vector<double> mean(kMetres * kSizes, 0);
  for (std::size_t tree = 0; tree < kSilsoeCounts.size(); ++tree)
    for (std::size_t i = 0; i < mean.size() && tree != left_out; ++i)
      mean[i] +=
          kSilsoeCounts[tree].by_metre_and_size[i] / static_cast<double>(kSilsoeCounts.size() - 1);
  return mean;
}

std::string words(const ShapeFit& fit) {
  return "r " + fixed_number(fit.correlation, 2) + ", rmse " + fixed_number(fit.rmse, 1) +
         ", chi2/n " + fixed_number(fit.chi_square / static_cast<double>(fit.observed.size()), 1);
}

Target target_of(std::size_t tree, const TrenchFit& law, double crowding) {
  const SilsoeCounts& counts = kSilsoeCounts[tree];
  const std::vector<double> cells = list(counts.by_metre_and_size);
  const std::vector<double>& expected = law.by_distance_and_size.expected;
  const ShapeFit distance = shape_fit(by_distance(cells), by_distance(expected), crowding);
  const ShapeFit size = shape_fit(by_size(cells), by_size(expected), crowding);
  const ShapeFit depth = shape_fit(list(counts.by_depth), law.by_depth.expected, crowding);
  const ShapeFit both = shape_fit(cells, expected, crowding);
  const ShapeFit others = shape_fit(cells, mean_of_others(tree), crowding);
  double roots = 0;
  for (const double count : cells) roots += count;

  Target t = observed("S" + std::to_string(tree + 1),
                      std::string("roots on the trench face of poplar ") + counts.tree +
                          ", by distance, depth and thickness",
                      "upson-burgess-2013");
  t.published = fixed_number(roots, 0) + " roots";
  t.model = fixed_number(law.expected, 0) + " roots; distance: " + words(distance) +
            "; depth: " + words(depth) + "; thickness: " + words(size);
  t.tolerance =
      "number within 30 %, r at least 0.80 each; off by no more than 1.1 times the mean of "
      "the other three trees";
  t.hit = each_within_share({law.expected}, {roots}, 0.30) && distance.correlation >= 0.80 &&
          depth.correlation >= 0.80 && size.correlation >= 0.80 &&
          both.relative_error <= 1.1 * others.relative_error;
  t.calibrated = true;
  t.remark = "metres by thickness: law off by " + percent(both.relative_error, 0) +
             " of the roots, the other trees' mean by " + percent(others.relative_error, 0) +
             "; variance over mean " + fixed_number(crowding, 1);
  return t;
}

}  // namespace

std::vector<Target> silsoe_targets() {
  const ThickRootLaw law = silsoe_law(shipped());
  const TrenchFit fit = trench_fit(law, silsoe_face(""));
  std::vector<Target> targets;
  for (std::size_t tree = 0; tree < kSilsoeCounts.size(); ++tree)
    targets.push_back(target_of(tree, fit, law.crowding));
  return targets;
}

}  // namespace rootstead::validation
