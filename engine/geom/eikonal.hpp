// Travel distance through ground of different ease: the first-arrival time T of
//   |grad T| = 1 / speed,  T(source) = 0
// on a plan grid, speed 1 in open ground, so T is metres of open ground; 0 where nothing passes.
// Blocked cells, and cells no way leads to, have T infinite. Nothing passes between two blocked
// cells that touch at a corner.
//
// Accuracy, at cell centres (tests/engine/geom/eikonal_test.cpp prints it):
// - open and blocked ground: the taut string round the blocked cells, to rounding (1e-12 of T);
// - through ground that slows: second order; 0.03 cells behind a half-speed band at 0.2 m;
// - in patchwork of blocked and slow strips a few cells wide: 90 % of open cells within half a
//   cell of an independent search, 98 % within one; where a way clips the corners of cells as slow
//   as 0.15 it may be overrated by what crossing one costs (1.3 m at 0.2 m);
// - what a drawn wall becomes in cells is first order: within two cells in T.
// T is never below the straight distance. Blocking a cell never lowers T in open and blocked
// ground (to rounding); in mixed ground it may, by less than a crossing of the slowest cell.
// Sources: Sethian 1996, PNAS 93:1591-1595, and 1999, SIAM Review 41:199-235 (marching, second
// order); Fomel, Luo & Zhao 2009, J. Comput. Phys. 228:6440-6455 (taking the distance from the
// source out); all from memory. Choices and timings: docs/decisions/0015, bench/eikonal.cpp.
#pragma once

#include <optional>
#include <vector>

#include "engine/geom/plan_grid.hpp"

namespace rootstead {

class TravelMap {
 public:
  // `source`: where all travel began, if it began in one place.
  TravelMap(PlanGrid grid, std::vector<double> time, std::optional<Point> source = {});

  const PlanGrid& grid() const { return grid_; }
  const std::vector<double>& times() const { return time_; }  // of cell centres
  // Between cell centres, from those around that are open; infinite outside the grid, in blocked
  // ground and where there is no way.
  double at(const Point& point) const;
  // The way back by steepest descent: from `from` to the source, both included. Empty where there
  // is no way. Of a map with many starts it ends in the middle of the start it came from. In
  // ground of one speed its length is that of T within 5 % and two cells.
  Line way_back(const Point& from) const;

 private:
  double time_in(int column, int row) const;  // infinite outside
  double straight(const Point& point) const;  // from the source; 0 where there is none

  PlanGrid grid_;
  std::vector<double> time_;
  std::optional<Point> source_;
};

// A place where travel begins with a time already spent.
struct TravelStart {
  std::size_t cell = 0;
  double time = 0;
};

// From one point. `speed` has one value in [0, 1] a cell; the source's own cell counts as open.
TravelMap travel_from(const Point& source, const PlanGrid& grid, const std::vector<double>& speed);
// From many starts: T = least over all of them. `source` is where the travel behind them began; it
// is no start itself.
TravelMap travel_from(const Point& source, const std::vector<TravelStart>& starts,
                      const PlanGrid& grid, const std::vector<double>& speed);

}  // namespace rootstead
