// EikonalMarch: first-arrival times over a grid. Two means, one queue:
// - Sight. A cell that its anchor (the source, or the corner of blocked or slower ground that the
//   way last bends round) sees over ground of one speed gets T(anchor) + r / speed: exact. Corners
//   wait in the queue like cells and send sight on into their shadow.
// - Marching. Where the ground changes, times spread from cell to cell in the order of time, by
//   second-order differences of what T has beyond the straight way from the anchor.
// Internal to engine/geom: eikonal.hpp is what others use. Why so: docs/decisions/0015.
#pragma once

#include <cstdint>
#include <limits>
#include <optional>
#include <unordered_map>
#include <vector>

#include "engine/geom/plan_grid.hpp"
#include "engine/geom/sight.hpp"
#include "engine/geom/time_buckets.hpp"

namespace rootstead {

class EikonalMarch {
 public:
  EikonalMarch(const PlanGrid& grid, const std::vector<double>& speed);

  // Travel begins at a point; its own cell counts as open. Nothing where it is off the grid.
  void start_at(const Point& source);
  // Travel passes through a cell's centre at that time.
  void start_in(std::size_t cell, double time);
  void run();
  std::vector<double> times() const;

 private:
  using Cell = std::uint32_t;  // number in the grid with its border
  using AnchorNumber = std::uint32_t;
  static constexpr AnchorNumber kSeen = 1U << 31U;  // set where the anchor sees the cell
  static constexpr AnchorNumber kNoAnchor = kSeen - 1;
  static constexpr AnchorNumber kSource = 0 | kSeen;
  static constexpr Cell kCorner = 1U << 31U;  // in the queue: set where it is a corner that waits
  static constexpr float kBlocked = std::numeric_limits<float>::infinity();

  struct Node {
    double time = std::numeric_limits<double>::infinity();
    float slowness = kBlocked;  // 1 / speed
    AnchorNumber anchor = kNoAnchor;
    bool seen() const { return (anchor & kSeen) != 0; }
  };
  struct Anchor {
    Point place;  // in columns and rows of the bordered grid
    double time = 0;
    float slowness = 1;  // of the ground it stands in
  };
  struct Place {
    int column, row;  // of the bordered grid
  };
  // An outer corner of blocked or slower ground that travel has come to.
  struct Corner {
    double time = std::numeric_limits<double>::infinity();
    Point way;           // the direction it came in
    float slowness = 1;  // of the ground it came over
  };
  class Lighting;  // what light() does with what it sees
  // The neighbour of a cell that the front comes from along one axis, and what it says of the
  // cell's time: weight * (T - value)^2.
  struct Side {
    double value = 0, nearest = std::numeric_limits<double>::infinity();
    double weight = 0;  // 0 none, 1 first order, 9/4 second order
    int step = 0;       // from the cell to the neighbour along the axis
    Cell cell = 0;
  };

  Cell cell_at(int column, int row) const {
    return static_cast<Cell>(row) * stride_ + static_cast<Cell>(column);
  }
  double time_across(float slowness) const { return static_cast<double>(slowness) * grid_.cell; }

  void mark_border(Cell corner);
  double straight_time(int column, int row) const;  // from the source over open ground
  AnchorNumber add_anchor(const Point& place, double time, float slowness);
  void light(AnchorNumber number, const std::vector<View>& views);
  bool borders_other(Cell cell) const;

  void accept(Cell cell);
  void offer(Cell cell, double time, AnchorNumber anchor);
  void solve(Cell cell, Place place, double now);
  Side side(Cell cell, Cell step, double now) const;
  double over_the_border(Cell from, Cell step, float into) const;
  void straighten(const Anchor& anchor, Place place, double cost, Side& x, Side& y) const;
  static double time_from(const Side& x, const Side& y, double cost);

  // Which of the four cells round a corner is the only slower one (or blocked), as signs from the
  // corner.
  std::optional<Place> block_at(Cell corner, float slowness) const;
  void offer_corner(Cell corner, const Corner& arrival);
  void offer_corners_of(Cell cell, Place place, double now);
  void bend(Cell corner);

  PlanGrid grid_;
  int columns_, rows_;  // with the border
  Cell stride_;
  std::vector<Node> nodes_;
  std::vector<unsigned char> at_border_;  // 1 at cells with unlike ones among the eight round them
  bool from_source_ = false;              // and from nowhere else
  std::vector<Anchor> anchors_;           // the first is the source, where there is one
  std::unordered_map<Cell, Corner> corners_;  // by the cell whose least corner it is
  std::vector<Cell> lit_;
  TimeBuckets queue_;
};

}  // namespace rootstead
