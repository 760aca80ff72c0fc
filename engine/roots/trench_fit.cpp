#include "engine/roots/trench_fit.hpp"

#include <cassert>
#include <cmath>

namespace rootstead {
namespace {

// Middle of a class, for the depth law; the open class by half as much again.
double middle_of(const std::vector<double>& thicker, std::size_t size) {
  return size + 1 < thicker.size() ? std::sqrt(thicker[size] * thicker[size + 1])
                                   : 1.5 * thicker[size];
}

double correlation(const std::vector<double>& a, const std::vector<double>& b) {
  const auto n = static_cast<double>(a.size());
  double mean_a = 0, mean_b = 0;
  for (std::size_t i = 0; i < a.size(); ++i) mean_a += a[i] / n, mean_b += b[i] / n;
  double aa = 0, bb = 0, ab = 0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    aa += (a[i] - mean_a) * (a[i] - mean_a);
    bb += (b[i] - mean_b) * (b[i] - mean_b);
    ab += (a[i] - mean_a) * (b[i] - mean_b);
  }
  return aa > 0 && bb > 0 ? ab / std::sqrt(aa * bb) : 0;
}

// Sums of cells into groups: `group(column, row, size)` names the group of a cell.
template <class Group>
std::vector<double> grouped(const TrenchFace& face, const std::vector<double>& cells,
                            std::size_t groups, Group group) {
  std::vector<double> sums(groups);
  for (std::size_t column = 0; column < face.columns; ++column)
    for (std::size_t row = 0; row < face.rows; ++row)
      for (std::size_t size = 0; size < face.thicker.size(); ++size)
        sums[group(column, row, size)] += cells[face.index(column, row, size)];
  return sums;
}

}  // namespace

std::vector<double> expected_counts(const ThickRootLaw& law, const TrenchFace& face) {
  std::vector<double> expected(face.columns * face.rows * face.thicker.size());
  for (std::size_t column = 0; column < face.columns; ++column) {
    const double x = (static_cast<double>(column) + 0.5) * face.cell;
    const RootRing ring = law.ring(x);
    for (std::size_t size = 0; size < face.thicker.size(); ++size) {
      double roots = ring.per_metre(face.thicker[size]);
      if (size + 1 < face.thicker.size()) roots -= ring.per_metre(face.thicker[size + 1]);
      const auto depth = law.depth.at(middle_of(face.thicker, size), law.relative_distance(x));
      for (std::size_t row = 0; row < face.rows; ++row) {
        const double top = static_cast<double>(row) * face.cell;
        expected[face.index(column, row, size)] =
            roots * face.cell * (depth.share_above(top + face.cell) - depth.share_above(top));
      }
    }
  }
  return expected;
}

ShapeFit shape_fit(std::vector<double> observed, std::vector<double> expected, double crowding) {
  assert(observed.size() == expected.size());
  ShapeFit fit;
  fit.correlation = correlation(observed, expected);
  double squares = 0, misses = 0, sum = 0;
  for (std::size_t i = 0; i < observed.size(); ++i) {
    const double miss = observed[i] - expected[i];
    squares += miss * miss;
    misses += std::abs(miss);
    sum += observed[i];
    if (expected[i] > 0) fit.chi_square += miss * miss / (crowding * expected[i]);
  }
  fit.rmse = observed.empty() ? 0 : std::sqrt(squares / static_cast<double>(observed.size()));
  fit.relative_error = sum > 0 ? misses / sum : 0;
  fit.observed = std::move(observed);
  fit.expected = std::move(expected);
  return fit;
}

TrenchFit trench_fit(const std::vector<double>& expected, double crowding, const TrenchFace& face) {
  assert(expected.size() == face.counts.size());
  const auto columns_in_metre = static_cast<std::size_t>(std::lround(1 / face.cell));
  const std::size_t metres = (face.columns + columns_in_metre - 1) / columns_in_metre;
  const std::size_t sizes = face.thicker.size();
  const auto fit = [&](std::size_t groups, auto group) {
    return shape_fit(grouped(face, face.counts, groups, group),
                     grouped(face, expected, groups, group), crowding);
  };
  TrenchFit result;
  result.tree = face.tree;
  for (const double count : face.counts) result.observed += count;
  for (const double count : expected) result.expected += count;
  result.by_distance = fit(metres, [&](std::size_t column, std::size_t, std::size_t) {
    return column / columns_in_metre;
  });
  result.by_depth = fit(face.rows, [](std::size_t, std::size_t row, std::size_t) { return row; });
  result.by_size = fit(sizes, [](std::size_t, std::size_t, std::size_t size) { return size; });
  result.by_distance_and_size =
      fit(metres * sizes, [&](std::size_t column, std::size_t, std::size_t size) {
        return column / columns_in_metre * sizes + size;
      });
  return result;
}

TrenchFit trench_fit(const ThickRootLaw& law, const TrenchFace& face) {
  return trench_fit(expected_counts(law, face), law.crowding, face);
}

}  // namespace rootstead
