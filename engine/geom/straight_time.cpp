#include "engine/geom/straight_time.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace rootstead {
namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();
constexpr double kTogether = 1e-12;  // two crossings so close pass through a corner

// One axis of the walk from cell to cell, in shares of the whole line.
struct Axis {
  int cell, step;
  double next, every;  // where the next side of a cell is crossed, and how far on the one after

  Axis(double from, double to)
      : cell(static_cast<int>(std::floor(from))),
        step(to > from ? 1 : -1),
        next(kInfinite),
        every(kInfinite) {
    const double way = std::abs(to - from);
    if (!(way > 0)) return;
    every = 1 / way;
    next = (step > 0 ? cell + 1 - from : from - cell) * every;
  }
  void cross() {
    cell += step;
    next += every;
  }
};

}  // namespace

double straight_time(const Point& from, const Point& to, const PlanGrid& grid,
                     const std::vector<double>& speed) {
  const double length = std::hypot(to.x - from.x, to.y - from.y);
  const auto cells = [&](double value, double corner) { return (value - corner) / grid.cell; };
  Axis x(cells(from.x, grid.corner.x), cells(to.x, grid.corner.x));
  Axis y(cells(from.y, grid.corner.y), cells(to.y, grid.corner.y));
  const auto speed_at = [&](int column, int row) {
    const bool inside = column >= 0 && column < grid.columns && row >= 0 && row < grid.rows;
    return inside ? speed[grid.index(column, row)] : 0.0;
  };
  double time = 0, passed = 0;
  for (;;) {
    const double here = speed_at(x.cell, y.cell);
    if (!(here > 0)) return kInfinite;
    const double next = std::min({x.next, y.next, 1.0});
    time += (next - passed) * length / here;
    passed = next;
    if (passed >= 1) return time;
    const bool over_x = x.next <= next + kTogether, over_y = y.next <= next + kTogether;
    if (over_x && over_y &&
        std::max(speed_at(x.cell + x.step, y.cell), speed_at(x.cell, y.cell + y.step)) <= 0)
      return kInfinite;
    if (over_x) x.cross();
    if (over_y) y.cross();
  }
}

}  // namespace rootstead
