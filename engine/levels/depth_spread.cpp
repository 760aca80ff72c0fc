#include "engine/levels/depth_spread.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

#include "engine/geom/overlay.hpp"
#include "engine/levels/piece_walk.hpp"

namespace rootstead {
namespace {

using Piece = DepthSpread::Piece;

// The area of a triangle of which the plane lies below `level`: the corner below it, or all but
// the corner above it, is a similar triangle.
double area_below(const Piece& piece, double level) {
  const auto& [low, middle, high] = piece.difference;
  if (level <= low) return 0;
  if (level >= high) return piece.area;
  if (level <= middle) {
    return piece.area * (level - low) * (level - low) / ((middle - low) * (high - low));
  }
  return piece.area * (1 - (high - level) * (high - level) / ((high - middle) * (high - low)));
}

class Collector : public PieceVisitor {
 public:
  explicit Collector(std::vector<Piece>& pieces) : pieces_(pieces) {}

  void piece(const PieceView& view) override {
    if (level(view.ring)) return add(sum_over(view.ring).area, {view.ring[0].d, 0, 0}, true);
    const Corner& a = view.ring[0];
    for (std::size_t i = 1; i + 1 < view.ring.size(); ++i) {
      const Corner &b = view.ring[i], &c = view.ring[i + 1];
      const double area = ((b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x)) / 2;
      add(area, {a.d, b.d, c.d}, false);
    }
  }

 private:
  static bool level(const Corners& ring) {
    return std::all_of(ring.begin(), ring.end(),
                       [&](const Corner& corner) { return corner.d == ring[0].d; });
  }

  void add(double area, std::array<double, 3> difference, bool level) {
    if (area == 0) return;
    if (level) difference.fill(difference[0]);
    std::sort(difference.begin(), difference.end());
    pieces_.push_back({area, difference});
  }

  std::vector<Piece>& pieces_;
};

std::vector<Piece> collected(const PieceWalk& walk) {
  std::vector<Piece> pieces;
  Collector collector(pieces);
  walk.visit(collector);
  return pieces;
}

}  // namespace

DepthSpread::DepthSpread(const PreparedLevels& before, const PreparedLevels& after)
    : pieces_(collected({before, &after, nullptr})) {
  settle();
}

DepthSpread::DepthSpread(const PreparedLevels& before, const PreparedLevels& after,
                         const MultiPolygon& area) {
  const MultiPolygon clean = union_of({area});
  pieces_ = collected({before, &after, &clean});
  settle();
}

void DepthSpread::settle() {
  lowest_ = std::numeric_limits<double>::max();
  highest_ = std::numeric_limits<double>::lowest();
  for (const Piece& piece : pieces_) {
    total_ += piece.area;
    lowest_ = std::min(lowest_, piece.difference[0]);
    highest_ = std::max(highest_, piece.difference[2]);
  }
  total_ = std::max(total_, 0.0);
}

double DepthSpread::below_level(double level) const {
  double area = 0;
  for (const Piece& piece : pieces_) area += area_below(piece, level);
  return area;
}

// A level piece at exactly the difference is neither above nor below it.
Area DepthSpread::above(double difference) const {
  double area = 0;
  for (const Piece& piece : pieces_) {
    const bool level = piece.difference[0] == piece.difference[2];
    if (level && piece.difference[0] == difference) continue;
    area += piece.area - area_below(piece, difference);
  }
  return Area::square_metres(std::max(area, 0.0));
}

Area DepthSpread::below(double difference) const {
  return Area::square_metres(std::max(below_level(difference), 0.0));
}

// The level at which a growing area is reached, by halving.
template <class AreaAt>
double DepthSpread::solve(double area, const AreaAt& area_at, double low, double high) {
  constexpr double kExact = 1e-6;  // m
  while (high - low > kExact) {
    const double middle = low / 2 + high / 2;
    if (middle <= low || middle >= high) break;
    (area_at(middle) < area ? low : high) = middle;
  }
  return low / 2 + high / 2;
}

double DepthSpread::quantile(double share) const {
  assert(total_ > 0);
  return solve(
      share * total_, [&](double level) { return below_level(level); }, lowest_, highest_);
}

double DepthSpread::raised_quantile(double least, double share) const {
  const double not_raised = total_ - above(least).square_metres();
  const double wanted = not_raised + share * (total_ - not_raised);
  return solve(
      wanted, [&](double level) { return below_level(level); }, least, std::max(highest_, least));
}

double DepthSpread::lowered_quantile(double least, double share) const {
  const double lowered = below(-least).square_metres();
  const double wanted = (1 - share) * lowered;
  return -solve(
      wanted, [&](double level) { return below_level(level); }, std::min(lowest_, -least), -least);
}

double DepthSpread::median_deviation(double middle) const {
  assert(total_ > 0);
  const double most = std::max(highest_ - middle, middle - lowest_);
  return solve(
      total_ / 2,
      [&](double away) { return below_level(middle + away) - below_level(middle - away); }, 0,
      std::max(most, 0.0));
}

}  // namespace rootstead
