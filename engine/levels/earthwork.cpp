#include "engine/levels/earthwork.hpp"

#include <algorithm>
#include <cmath>

#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/levels/piece_walk.hpp"

namespace rootstead {
namespace {

constexpr double kNoPiece = 1e-12;  // m2: the touch of two pieces, not ground

class Adder : public PieceVisitor {
 public:
  Adder(Point origin, const MultiPolygon* area) : origin_(origin), area_(area) {}

  void piece(const PieceView& view) override {
    const RingSum whole = sum_over(view.ring);
    if (std::abs(whole.area) < kNoPiece) return;
    ground_ += whole.area;
    clip_above(view.ring, 0, part_);
    const RingSum up = sum_over(part_);
    clip_below(view.ring, 0, part_);
    const RingSum down = sum_over(part_);
    fill_ += up.volume;
    cut_ -= down.volume;
    // Where nothing changes both parts are the whole: neither cut nor filled.
    if (up.volume != 0) fill_area_ += up.area;
    if (down.volume != 0) cut_area_ += down.area;
    for (const Corner& corner : view.ring) {
      if (corner.d > highest_ && belongs(corner, view)) highest_ = corner.d;
      if (corner.d < lowest_ && belongs(corner, view)) lowest_ = corner.d;
    }
  }

  Earthwork result(double asked) const {
    Earthwork work;
    work.area = Area::square_metres(std::max(ground_, 0.0));
    // What rounding leaves of ground that is covered whole is not missing.
    const double missing = asked - ground_;
    work.missing = Area::square_metres(missing > 1e-9 * asked ? missing : 0);
    work.cut = std::max(cut_, 0.0);
    work.fill = std::max(fill_, 0.0);
    work.cut_area = Area::square_metres(std::max(cut_area_, 0.0));
    work.fill_area = Area::square_metres(std::max(fill_area_, 0.0));
    work.deepest_cut = Length::metres(-lowest_);
    work.highest_fill = Length::metres(highest_);
    return work;
  }

 private:
  // A ring that runs back along the edge of a piece may have a corner of it that is not in the
  // area.
  bool belongs(const Corner& corner, const PieceView& view) const {
    if (view.uncut == nullptr) return true;
    constexpr double kHair = 1e-6;  // m
    const auto near = [&](const Corner& other) {
      return std::abs(other.x - corner.x) < kHair && std::abs(other.y - corner.y) < kHair;
    };
    if (std::none_of(view.uncut->begin(), view.uncut->end(), near)) return true;
    const Point place{corner.x + origin_.x, corner.y + origin_.y};
    return distance_between(place, *area_).metres() < kHair;
  }

  Point origin_;
  const MultiPolygon* area_;
  Corners part_;
  double ground_ = 0, cut_ = 0, fill_ = 0, cut_area_ = 0, fill_area_ = 0;
  double lowest_ = 0, highest_ = 0;
};

class Coverer : public PieceVisitor {
 public:
  void piece(const PieceView& view) override { area += sum_over(view.ring).area; }
  double area = 0;
};

double covered_within(const PreparedLevels& levels, const MultiPolygon* area) {
  Coverer coverer;
  PieceWalk{levels, nullptr, area}.visit(coverer);
  return std::max(coverer.area, 0.0);
}

}  // namespace

double Earthwork::mean_difference() const {
  return area.square_metres() > 0 ? net() / area.square_metres() : 0;
}

Earthwork earthwork_between(const PreparedLevels& before, const PreparedLevels& after) {
  const PieceWalk walk{before, &after, nullptr};
  Adder adder(walk.origin(), nullptr);
  walk.visit(adder);
  return adder.result(0);
}

Earthwork earthwork_between(const PreparedLevels& before, const PreparedLevels& after,
                            const MultiPolygon& area) {
  const MultiPolygon clean = union_of({area});
  const PieceWalk walk{before, &after, &clean};
  Adder adder(walk.origin(), &clean);
  walk.visit(adder);
  return adder.result(area_of(clean).square_metres());
}

Area covered(const PreparedLevels& levels) {
  return Area::square_metres(covered_within(levels, nullptr));
}

Area covered(const PreparedLevels& levels, const MultiPolygon& area) {
  const MultiPolygon clean = union_of({area});
  return Area::square_metres(covered_within(levels, &clean));
}

}  // namespace rootstead
