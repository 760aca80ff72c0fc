#include "engine/roots/percentiles.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numeric>

namespace rootstead {
namespace {

constexpr double kLow = 0.1, kMiddle = 0.5, kHigh = 0.9;

double percentile(const std::vector<double>& sorted, double share) {
  const double place = share * static_cast<double>(sorted.size() - 1);
  const auto below = static_cast<std::size_t>(place);
  const std::size_t above = std::min(below + 1, sorted.size() - 1);
  return std::lerp(sorted[below], sorted[above], place - static_cast<double>(below));
}

// Each value stands in the middle of its weight; straight between them.
class WeightedPercentiles {
 public:
  WeightedPercentiles(const std::vector<double>& values, const std::vector<double>& weights) {
    std::vector<std::size_t> order(values.size());
    std::iota(order.begin(), order.end(), 0U);
    std::sort(order.begin(), order.end(),
              [&](std::size_t a, std::size_t b) { return values[a] < values[b]; });
    for (const std::size_t i : order) {
      if (weights[i] <= 0) continue;
      values_.push_back(values[i]);
      middles_.push_back(total_ + weights[i] / 2);
      total_ += weights[i];
    }
    assert(!values_.empty());
  }

  double operator()(double share) const {
    const double wanted = share * total_;
    const auto above = std::lower_bound(middles_.begin(), middles_.end(), wanted);
    if (above == middles_.begin()) return values_.front();
    if (above == middles_.end()) return values_.back();
    const auto i = static_cast<std::size_t>(above - middles_.begin());
    const double part = (wanted - middles_[i - 1]) / (middles_[i] - middles_[i - 1]);
    return std::lerp(values_[i - 1], values_[i], part);
  }

 private:
  std::vector<double> values_, middles_;
  double total_ = 0;
};

}  // namespace

Range range_of(const std::vector<double>& values, const std::vector<double>& weights) {
  assert(!values.empty());
  if (!weights.empty()) {
    const WeightedPercentiles at(values, weights);
    return {at(kLow), at(kMiddle), at(kHigh)};
  }
  std::vector<double> sorted = values;
  std::sort(sorted.begin(), sorted.end());
  return {percentile(sorted, kLow), percentile(sorted, kMiddle), percentile(sorted, kHigh)};
}

}  // namespace rootstead
