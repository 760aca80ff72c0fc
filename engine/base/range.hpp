// Range: an uncertain figure as low, best and high = P10, P50 and P90 of a seeded simulation.
#pragma once

namespace rootstead {

struct Range {
  double low = 0;
  double best = 0;
  double high = 0;
  friend bool operator==(const Range&, const Range&) = default;
};

}  // namespace rootstead
