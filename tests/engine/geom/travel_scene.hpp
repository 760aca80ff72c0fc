// Scenes for the tests of travel distance: grids with blocked and half-open ground, and the error
// of a map against a closed form.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <string>
#include <vector>

#include "engine/geom/eikonal.hpp"

namespace rootstead::test {

struct TravelScene {
  PlanGrid grid;
  std::vector<double> speed;

  // Cells of side `cell` over the square from (-half, -half) to (half, half), all open.
  TravelScene(double half, double cell) {
    const int across = static_cast<int>(std::lround(2 * half / cell));
    grid = {{-half, -half}, cell, across, across};
    speed.assign(grid.count(), 1);
  }
  // `value` in every cell whose centre is `where`.
  template <class Where>
  TravelScene& lay(double value, const Where& where) {
    for (int row = 0; row < grid.rows; ++row)
      for (int column = 0; column < grid.columns; ++column)
        if (where(grid.centre(column, row))) speed[grid.index(column, row)] = value;
    return *this;
  }
  TravelScene& lay(double value, double x0, double y0, double x1, double y1) {
    return lay(value, [&](const Point& p) { return p.x > x0 && p.x < x1 && p.y > y0 && p.y < y1; });
  }
  bool open(const Point& p) const {
    const int column = static_cast<int>((p.x - grid.corner.x) / grid.cell);
    const int row = static_cast<int>((p.y - grid.corner.y) / grid.cell);
    return speed[grid.index(column, row)] > 0;
  }
};

struct TravelError {
  double largest = 0, mean = 0;
};

// Against exact(point), at the centres of open cells for which counts(point).
template <class Exact, class Counts>
TravelError error_of(const TravelMap& map, const TravelScene& scene, const Exact& exact,
                     const Counts& counts) {
  TravelError error;
  int cells = 0;
  for (int row = 0; row < scene.grid.rows; ++row) {
    for (int column = 0; column < scene.grid.columns; ++column) {
      const Point at = scene.grid.centre(column, row);
      const std::size_t i = scene.grid.index(column, row);
      if (!(scene.speed[i] > 0) || !counts(at)) continue;
      const double off = std::abs(map.times()[i] - exact(at));
      error.largest = std::max(error.largest, off);
      error.mean += off;
      ++cells;
    }
  }
  error.mean /= std::max(1, cells);
  return error;
}

// Halves the cell three times, prints error and order, and returns the errors, coarse to fine.
template <class ErrorAt>
std::vector<TravelError> converge(const std::string& what, double coarsest, const ErrorAt& at) {
  std::vector<TravelError> errors;
  for (double cell = coarsest; errors.size() < 4; cell /= 2) {
    errors.push_back(at(cell));
    const TravelError& now = errors.back();
    std::printf("%s: cell %.3f m, largest error %.2e m (%.3f cells), mean %.2e m", what.c_str(),
                cell, now.largest, now.largest / cell, now.mean);
    if (errors.size() > 1) {
      const TravelError& before = errors[errors.size() - 2];
      std::printf(", order %.2f (mean %.2f)", std::log2(before.largest / now.largest),
                  std::log2(before.mean / now.mean));
    }
    std::printf("\n");
  }
  return errors;
}

inline double order_of(double before, double after, int halvings) {
  return std::log2(before / after) / halvings;
}

}  // namespace rootstead::test
