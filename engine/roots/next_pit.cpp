#include "engine/roots/next_pit.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "engine/geom/measure.hpp"
#include "engine/roots/openings.hpp"

namespace rootstead {
namespace {

constexpr double kSide = 0.5, kDepth = 0.6;  // m: a pit that one person digs by hand
constexpr double kThinnest = 0.005;          // m: roots counted in it
constexpr int kAzimuths = 12;
constexpr std::array<double, 4> kDistances = {1.0, 2.0, 3.5, 6.0};  // m from the trunk face
constexpr int kMostRoots = 8;                                       // more are taken together
constexpr std::size_t kDrawsLookedAt = 200;
constexpr double kWorthDigging = 0.98;

struct Outcome {
  double chance = 0, sum = 0, squares = 0;
  void add(double weight, double value) {
    chance += weight;
    sum += weight * value;
    squares += weight * value * value;
  }
  // Variance, times the chance of the outcome.
  double variance() const { return chance > 0 ? squares - sum * sum / chance : 0; }
};

MultiPolygon square_at(const Point& at) {
  const double half = kSide / 2;
  return {{{{at.x - half, at.y - half},
            {at.x + half, at.y - half},
            {at.x + half, at.y + half},
            {at.x - half, at.y + half}},
           {}}};
}

class PitTrial {
 public:
  PitTrial(const std::vector<ThickRootLaw>& laws, const std::vector<double>& values)
      : laws_(laws), values_(values) {
    step_ = std::max<std::size_t>(1, laws.size() / kDrawsLookedAt);
    Outcome all;
    for (std::size_t i = 0; i < laws_.size(); i += step_) all.add(1, values_[i]);
    before_ = all.variance();
  }

  double before() const { return before_; }

  // Expected variance after the pit, on the scale of before().
  double after(const OpeningFace& face) const {
    std::array<Outcome, kMostRoots + 1> outcomes{};
    for (std::size_t i = 0; i < laws_.size(); i += step_) {
      const double mean =
          face.expected(laws_[i], kThinnest, std::numeric_limits<double>::infinity());
      double left = 1;
      for (int n = 0; n < kMostRoots; ++n) {
        const double chance = std::exp(log_chance_of_count(n, mean, laws_[i].crowding));
        outcomes[static_cast<std::size_t>(n)].add(chance, values_[i]);
        left -= chance;
      }
      outcomes.back().add(std::max(0.0, left), values_[i]);
    }
    double sum = 0;
    for (const Outcome& outcome : outcomes) sum += outcome.variance();
    return sum;
  }

 private:
  const std::vector<ThickRootLaw>& laws_;
  const std::vector<double>& values_;
  std::size_t step_ = 1;
  double before_ = 0;
};

}  // namespace

std::optional<NextPit> best_next_pit(const Point& stem, const std::vector<ThickRootLaw>& laws,
                                     const std::vector<double>& values) {
  if (laws.empty()) return std::nullopt;
  const PitTrial trial(laws, values);
  if (trial.before() <= 0) return std::nullopt;
  double reach = 0;
  for (const ThickRootLaw& law : laws) reach = std::max(reach, law.extent);
  std::optional<NextPit> best;
  for (const double distance : kDistances)
    for (int i = 0; i < kAzimuths; ++i) {
      const Angle azimuth = Angle::degrees(i * 360.0 / kAzimuths);
      const double from_centre = laws.front().face + distance;
      if (from_centre > reach) continue;
      const Point at = offset(stem, azimuth, Length::metres(from_centre));
      const OpeningFace face(stem, square_at(at), Length::metres(kDepth), reach);
      const double left = std::sqrt(std::max(0.0, trial.after(face) / trial.before()));
      if (left < kWorthDigging && (!best || left < best->spread_left))
        best = NextPit{at,
                       azimuth,
                       Length::metres(from_centre),
                       Length::metres(kSide),
                       Length::metres(kDepth),
                       left};
    }
  return best;
}

}  // namespace rootstead
