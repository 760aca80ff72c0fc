#include "engine/roots/percentiles.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace rootstead {
namespace {

double percentile(const std::vector<double>& sorted, double p) {
  const double place = p * static_cast<double>(sorted.size() - 1);
  const auto below = static_cast<std::size_t>(place);
  const std::size_t above = std::min(below + 1, sorted.size() - 1);
  const double part = place - static_cast<double>(below);
  return std::lerp(sorted[below], sorted[above], part);
}

}  // namespace

Range range_of(std::vector<double> values) {
  assert(!values.empty());
  std::sort(values.begin(), values.end());
  return {percentile(values, 0.10), percentile(values, 0.50), percentile(values, 0.90)};
}

}  // namespace rootstead
