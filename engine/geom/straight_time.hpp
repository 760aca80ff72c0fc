// Time along the straight line between two points: never less than the first-arrival time.
#pragma once

#include <vector>

#include "engine/geom/plan_grid.hpp"

namespace rootstead {

// Metres of open ground, exact but for rounding; infinite where the line meets a blocked cell, runs
// between two that touch at a corner, or leaves the grid. `speed` as for travel_from().
double straight_time(const Point& from, const Point& to, const PlanGrid& grid,
                     const std::vector<double>& speed);

}  // namespace rootstead
