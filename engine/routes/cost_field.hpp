// CostField: what a metre of line costs at each place of a grid, in each direction and by each
// method: money for building it, and the weight of what it would take from trees.
//
// What a line takes from a tree is a sum along the line, and depends on its direction: running
// across the roots severs all that lies beyond, running straight away from the stem only what it
// digs out. A piece of line that the stem sees under the angle a severs, of the fine roots, those
// that lie beyond it within that angle, and no more. Summed over the line this counts a ray twice
// where the line crosses it twice, so it is never less than what is severed: it leads the search;
// what is told of a route is assessed anew by the whole model (appraisal.hpp).
// Accuracy: the field is constant within a cell; a line's integral over it is exact but for the
// directions between two of the sixteen axes, which are interpolated.
#pragma once

#include <array>
#include <limits>
#include <vector>

#include "engine/geom/plan_grid.hpp"
#include "engine/routes/prices.hpp"
#include "engine/site/site.hpp"

namespace rootstead {

// How a line work is built, as far as its cost goes.
struct LineSize {
  double width = 0.5, depth = 1, room = 0;  // m; room each side
  double pit_side = 1.5;                    // m, of a bore's pits
  double bore_depth = 1.5;                  // m, to its crown
};

// Where a route may not go. `digging`: neither trench nor pit; `all`: not even a bore.
struct RouteGround {
  MultiPolygon digging, all;
  MultiPolygon within;  // the corridor; empty: everywhere
};

inline constexpr int kAxes = 16;  // directions of which opposite ones count as one
inline constexpr float kNoWay = std::numeric_limits<float>::infinity();

// The direction of each axis as a step over the grid, in columns and rows.
struct AxisStep {
  int columns, rows;
};
const std::array<AxisStep, kAxes>& axis_steps();

class CostField {
 public:
  // Trees that go, dead ones and those without a place weigh nothing.
  CostField(const PlanGrid& grid, const Site& site, const Tables& tables, const RoutePrices& prices,
            const LineSize& size, const RouteGround& ground);

  const PlanGrid& grid() const { return grid_; }
  const RoutePrices& prices() const { return prices_; }
  // Money a metre in that cell along that axis.
  float along(RouteMethod method, std::size_t cell, int axis) const {
    if (method == RouteMethod::bore) return bore_[cell] + extra_[cell];
    const auto& plane = method == RouteMethod::open ? open_ : hand_;
    return plane[cell * kAxes + static_cast<std::size_t>(axis)] + extra_[cell];
  }
  // Money for one pit whose middle is in that cell.
  float pit(std::size_t cell) const { return pit_[cell]; }
  // The least any metre costs by that method.
  double least(RouteMethod method) const { return prices_.per_metre(method); }

  // Cost of the straight line from a to b; infinite where it meets ground it may not.
  double straight(RouteMethod method, const Point& a, const Point& b) const;
  // Of a pit at a point; infinite off the grid.
  double pit_at(const Point& at) const;
  // Can a line begin or end here, dug or bored?
  bool open_at(const Point& at) const;

  // Makes every metre near a line dearer, so that the next search looks elsewhere.
  void shun(const Line& line, double within, double money_a_metre);
  void forget_shunned();

  // A field for tests: the same cost in every direction, by cell, for all methods alike.
  CostField(const PlanGrid& grid, const std::vector<float>& open, const std::vector<float>& hand,
            const std::vector<float>& bore, const RoutePrices& prices);

 private:
  struct Pull;
  class TreePull;
  void add(const Pull& pull, std::size_t cell, double pit_side, double width);
  void add_tree(const Tree& tree, const Site& site, const Tables& tables, const LineSize& size);
  bool shut_beside(RouteMethod method, int column, int row, int right, int up) const;
  void block(const RouteGround& ground, double half_width);

  PlanGrid grid_;
  RoutePrices prices_;
  std::vector<float> open_, hand_;         // by cell, then axis
  std::vector<float> bore_, pit_, extra_;  // by cell
};

}  // namespace rootstead
