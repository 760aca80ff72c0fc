// DepthSpread: how much ground is raised or lowered by how much, to ask for areas and quantiles.
#pragma once

#include <array>
#include <vector>

#include "engine/base/quantity.hpp"
#include "engine/levels/prepared_levels.hpp"

namespace rootstead {

// Differences are after less before, in metres. The pieces and their accuracy are those of
// earthwork.hpp; quantiles are found to 1e-6 m.
class DepthSpread {
 public:
  DepthSpread(const PreparedLevels& before, const PreparedLevels& after);
  DepthSpread(const PreparedLevels& before, const PreparedLevels& after, const MultiPolygon& area);

  Area area() const { return Area::square_metres(total_); }
  Area above(double difference) const;  // where the difference is more
  Area below(double difference) const;  // where it is less

  // All require area() > 0 (of the ground meant).
  double quantile(double share) const;  // that `share` of the ground does not exceed
  // The same among the ground raised by more than `least`, or lowered by more than `least`; the
  // second gives a depth, above zero.
  double raised_quantile(double least, double share) const;
  double lowered_quantile(double least, double share) const;
  // Median of |difference - middle|.
  double median_deviation(double middle) const;

  // A triangle of ground: its area, and the differences at its corners, ascending.
  struct Piece {
    double area = 0;  // negative where it takes away from another piece
    std::array<double, 3> difference{};
  };

 private:
  void settle();
  double below_level(double level) const;
  template <class AreaAt>
  static double solve(double area, const AreaAt& area_at, double low, double high);

  std::vector<Piece> pieces_;
  double total_ = 0, lowest_ = 0, highest_ = 0;
};

}  // namespace rootstead
