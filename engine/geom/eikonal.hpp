// Travel distance through ground of different ease: the first-arrival time T of
//   |grad T| = 1 / speed,  T(source) = 0
// on a plan grid, speed 1 in open ground, so T is metres of open ground; 0 where nothing passes.
// Second order away from the source and from places where fronts meet (measured: docs/methods/
// roots.md). Blocked cells, and cells no way leads to, have T infinite.
// Source: Sethian 1996, PNAS 93:1591-1595 (fast marching); Zhao 2005, Math. Comp. 74:603-627
// (sweeping).
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
  // Between cell centres; infinite outside the grid, in blocked ground and where there is no way.
  double at(const Point& point) const;
  // The way back to the source by steepest descent: from `from` to the source, both included.
  // Empty where there is no way.
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
// From many starts (and the source, where given a way back is wanted): T = least over all of them.
TravelMap travel_from(const Point& source, const std::vector<TravelStart>& starts,
                      const PlanGrid& grid, const std::vector<double>& speed);

}  // namespace rootstead
