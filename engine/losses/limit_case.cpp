#include "engine/losses/limit_case.hpp"

#include <algorithm>

#include "engine/base/text.hpp"

namespace rootstead {
namespace {

// Rounding of a share or of metres: a figure this close to its threshold has reached it.
constexpr double kReached = 1e-9;
constexpr int kAreaDecimals = 3;
constexpr int kLengthDecimals = 3;

}  // namespace

bool is_above(const Finding& f, bool inclusive) {
  const double over = f.value - f.threshold;
  return inclusive ? over >= -kReached : over > kReached;
}

bool is_below(const Finding& f, bool inclusive) {
  const double under = f.threshold - f.value;
  return inclusive ? under >= -kReached : under > kReached;
}

std::vector<std::string> heaviest_first(std::vector<WeighedWork> weighed) {
  std::stable_sort(weighed.begin(), weighed.end(),
                   [](const WeighedWork& a, const WeighedWork& b) { return a.weight > b.weight; });
  std::vector<std::string> works;
  for (WeighedWork& one : weighed) works.push_back(std::move(one.work));
  return works;
}

std::string text_of(Area area) {
  return fixed_number(area.square_metres(), kAreaDecimals) + " m2";
}

std::string text_of(Length length) {
  return fixed_number(length.metres(), kLengthDecimals) + " m";
}

}  // namespace rootstead
