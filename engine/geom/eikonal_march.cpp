// Fast marching with second-order differences of what T has beyond the straight distance to the
// place it comes from: T = r + tau. That place, the anchor, is the source, or the corner of blocked
// ground that the front last bent round; taking its r out keeps round fronts near it from costing
// accuracy. Any anchor gives a consistent scheme, the right one an accurate one.
// Why marching, and why corners: docs/decisions/0010.
#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstdint>
#include <limits>
#include <optional>

#include "engine/geom/eikonal.hpp"
#include "engine/geom/straight_time.hpp"
#include "engine/geom/time_queue.hpp"

namespace rootstead {
namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();
constexpr double kNever = -1;    // trial time of ground that lets nothing pass: never improved
constexpr int kBorder = 2;       // blocked cells round the grid, so that no neighbour is outside it
constexpr int kSourceReach = 4;  // cells round the source, and
constexpr int kCornerReach = 2;  // round a corner, that get their time by the straight line
constexpr double kAlike = 0.1;   // second order only where the slowness differs by no more

using Cell = std::uint32_t;
using AnchorNumber = std::uint32_t;
constexpr AnchorNumber kNoAnchor = std::numeric_limits<AnchorNumber>::max();

// What one axis knows of a cell, as the terms of weight * (T - value)^2.
struct Upwind {
  double value = kInfinite;
  double nearest = kInfinite;  // time of the neighbour itself
  double weight = 0;           // 1 first order, 9/4 second order
};

class March {
 public:
  March(const PlanGrid& grid, const std::vector<double>& speed)
      : grid_(grid),
        speed_(speed),
        stride_(static_cast<Cell>(grid.columns + 2 * kBorder)),
        cost_(std::size_t{stride_} * static_cast<Cell>(grid.rows + 2 * kBorder), kInfinite),
        trial_(cost_.size(), kNever),
        done_(cost_.size(), kInfinite),
        anchor_(cost_.size(), kNoAnchor),
        beside_blocked_(cost_.size(), 0) {
    assert(speed.size() == grid.count());
    for (int row = 0; row < grid.rows; ++row)
      for (int column = 0; column < grid.columns; ++column) set_cell(column, row);
  }

  Cell padded(int column, int row) const {
    return static_cast<Cell>(row + kBorder) * stride_ + static_cast<Cell>(column + kBorder);
  }

  void offer(Cell cell, double time, AnchorNumber anchor = kNoAnchor) {
    if (!(time < trial_[cell])) return;
    trial_[cell] = time;
    anchor_[cell] = anchor;
    queue_.push(time, cell);
  }

  // Travel begins, or bends, at a point: what it reaches straight within `reach` cells.
  void spread_from(const Point& point, double time, int reach) {
    const auto anchor = static_cast<AnchorNumber>(anchors_.size());
    anchors_.push_back(in_cells(point));
    const int column = static_cast<int>(std::floor(anchors_.back().x)) - kBorder;
    const int row = static_cast<int>(std::floor(anchors_.back().y)) - kBorder;
    for (int r = std::max(0, row - reach); r <= std::min(grid_.rows - 1, row + reach); ++r) {
      for (int c = std::max(0, column - reach); c <= std::min(grid_.columns - 1, column + reach);
           ++c) {
        const Cell cell = padded(c, r);
        if (trial_[cell] > time)
          offer(cell, time + straight_time(point, grid_.centre(c, r), grid_, speed_), anchor);
      }
    }
  }

  void run() {
    while (!queue_.empty()) {
      const Cell cell = queue_.pop();
      if (done_[cell] < kInfinite) continue;
      const double now = done_[cell] = trial_[cell];
      const Cell row = cell / stride_, column = cell - row * stride_;
      if (beside_blocked_[cell] != 0) bend_round_corners(cell, column, row);
      if (trial_[cell - 1] > now) solve(cell - 1, column - 1, row);
      if (trial_[cell + 1] > now) solve(cell + 1, column + 1, row);
      if (trial_[cell - stride_] > now) solve(cell - stride_, column, row - 1);
      if (trial_[cell + stride_] > now) solve(cell + stride_, column, row + 1);
    }
  }

  std::vector<double> times() const {
    std::vector<double> times(grid_.count());
    for (int row = 0; row < grid_.rows; ++row) {
      const auto first = done_.begin() + padded(0, row);
      std::copy(first, first + grid_.columns,
                times.begin() + static_cast<std::ptrdiff_t>(grid_.index(0, row)));
    }
    return times;
  }

 private:
  void set_cell(int column, int row) {
    const double passing = speed_[grid_.index(column, row)];
    const Cell cell = padded(column, row);
    if (passing > 0) {
      cost_[cell] = grid_.cell / passing;
      trial_[cell] = kInfinite;
    } else {
      for (const Cell across : {cell - stride_, cell, cell + stride_})
        beside_blocked_[across - 1] = beside_blocked_[across] = beside_blocked_[across + 1] = 1;
    }
  }

  // In columns and rows of the bordered grid; a cell's number is its lower corner.
  Point in_cells(const Point& point) const {
    return {(point.x - grid_.corner.x) / grid_.cell + kBorder,
            (point.y - grid_.corner.y) / grid_.cell + kBorder};
  }
  double straight(const Point& anchor, double column, double row) const {
    const double dx = column + 0.5 - anchor.x, dy = row + 0.5 - anchor.y;
    return std::sqrt(dx * dx + dy * dy);
  }

  bool blocked(Cell cell) const { return trial_[cell] == kNever; }

  // The first of the three open cells round an outer corner of blocked ground to be reached sends
  // travel on from the corner itself.
  void bend_round_corners(Cell cell, Cell column, Cell row) {
    for (const int up : {0, 1}) {
      const Cell above = up == 1 ? cell + stride_ : cell - stride_;
      for (const int aside : {0, 1}) {
        const Cell beside = aside == 1 ? cell + 1 : cell - 1;
        const Cell across = aside == 1 ? above + 1 : above - 1;
        const int walls = blocked(above) + blocked(beside) + blocked(across);
        if (walls != 1 || reached(above) || reached(beside) || reached(across)) continue;
        bend_at(cell, column, row, {double(column) + aside, double(row) + up});
      }
    }
  }
  bool reached(Cell cell) const { return done_[cell] < kInfinite; }

  void bend_at(Cell cell, Cell column, Cell row, const Point& corner) {
    double more = std::sqrt(0.5);
    if (anchor_[cell] != kNoAnchor) {
      const Point& from = anchors_[anchor_[cell]];
      more = straight(from, corner.x - 0.5, corner.y - 0.5) - straight(from, column, row);
    }
    const Point place{grid_.corner.x + (corner.x - kBorder) * grid_.cell,
                      grid_.corner.y + (corner.y - kBorder) * grid_.cell};
    spread_from(place, done_[cell] + more * cost_[cell], kCornerReach);
  }

  bool alike(Cell a, Cell b) const { return std::abs(cost_[a] - cost_[b]) <= kAlike * cost_[a]; }

  // The side of the cell that the front comes from, along one axis.
  struct Side {
    Cell one = 0, two = 0;
    double sign = 0;  // of the way from there to the cell
    bool second = false;
    bool any = false;
  };
  Side side_of(Cell cell, Cell step) const {
    const bool lower = done_[cell - step] < done_[cell + step];
    const Cell one = lower ? cell - step : cell + step;
    const Cell two = lower ? one - step : one + step;
    const double near = done_[one];
    if (!(near < kInfinite)) return {};
    const bool second = done_[two] <= near && alike(cell, one) && alike(cell, two) &&
                        anchor_[one] == anchor_[two];
    return {one, two, lower ? 1.0 : -1.0, second, true};
  }

  Upwind upwind(const Side& side) const {
    if (!side.any) return {};
    const double near = done_[side.one];
    return side.second ? Upwind{(4 * near - done_[side.two]) / 3, near, 2.25}
                       : Upwind{near, near, 1.0};
  }

  static double alone(const Upwind& side, double cost) {
    return std::max(side.value + cost / std::sqrt(side.weight), side.nearest);
  }

  void solve(Cell cell, Cell column, Cell row) {
    const Side from_x = side_of(cell, 1), from_y = side_of(cell, stride_);
    Upwind x = upwind(from_x), y = upwind(from_y);
    const AnchorNumber anchor = anchor_[x.nearest < y.nearest ? from_x.one : from_y.one];
    const double cost = cost_[cell];
    if (anchor != kNoAnchor) {
      const Point& from = anchors_[anchor];
      const double dx = column + 0.5 - from.x, dy = row + 0.5 - from.y;
      const double r = std::sqrt(dx * dx + dy * dy);
      const auto bent = [&](const Side& side, double along, double across) {
        const double d1 = along - side.sign, d2 = d1 - side.sign;
        const double r1 = std::sqrt(d1 * d1 + across * across);
        const double rise = along * side.sign / r;
        if (!side.second) return r - r1 - rise;
        return r - (4 * r1 - std::sqrt(d2 * d2 + across * across)) / 3 - rise * (2.0 / 3);
      };
      if (from_x.any) x.value += cost * bent(from_x, dx, dy);
      if (from_y.any) y.value += cost * bent(from_y, dy, dx);
    }
    const double weights = x.weight + y.weight, apart = x.value - y.value;
    const double inside = weights * cost * cost - x.weight * y.weight * apart * apart;
    double time = kInfinite;
    if (from_x.any && from_y.any && inside >= 0) {
      time = (x.weight * x.value + y.weight * y.value + std::sqrt(inside)) / weights;
      if (time < std::max({x.nearest, y.nearest, x.value, y.value})) time = kInfinite;
    }
    if (!(time < kInfinite)) {
      if (from_x.any) time = alone(x, cost);
      if (from_y.any) time = std::min(time, alone(y, cost));
    }
    offer(cell, time, anchor);
  }

  PlanGrid grid_;
  const std::vector<double>& speed_;
  Cell stride_;
  std::vector<double> cost_;   // metres of open ground across a cell; infinite where blocked
  std::vector<double> trial_;  // best time so far
  std::vector<double> done_;   // final time, infinite until then
  std::vector<AnchorNumber> anchor_;
  std::vector<unsigned char> beside_blocked_;
  std::vector<Point> anchors_;
  TimeQueue queue_;
};

}  // namespace

TravelMap travel_from(const Point& source, const PlanGrid& grid, const std::vector<double>& speed) {
  const double column = std::floor((source.x - grid.corner.x) / grid.cell);
  const double row = std::floor((source.y - grid.corner.y) / grid.cell);
  if (!(column >= 0 && column < grid.columns && row >= 0 && row < grid.rows))
    return {grid, std::vector<double>(grid.count(), kInfinite), source};
  std::vector<double> passing = speed;
  passing[grid.index(static_cast<int>(column), static_cast<int>(row))] = 1;
  March march(grid, passing);
  march.spread_from(source, 0, kSourceReach);
  march.run();
  return {grid, march.times(), source};
}

TravelMap travel_from(const Point& source, const std::vector<TravelStart>& starts,
                      const PlanGrid& grid, const std::vector<double>& speed) {
  March march(grid, speed);
  for (const TravelStart& start : starts) {
    const auto columns = static_cast<std::size_t>(grid.columns);
    march.offer(march.padded(static_cast<int>(start.cell % columns),
                             static_cast<int>(start.cell / columns)),
                start.time);
  }
  march.run();
  return {grid, march.times(), source};
}

}  // namespace rootstead
