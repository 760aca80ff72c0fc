#include "engine/geom/eikonal.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <limits>
#include <utility>

#include "engine/geom/eikonal_march.hpp"
#include "engine/geom/sight.hpp"

namespace rootstead {
namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();

// A corner of the square between four cell centres from the other three, as on a plane; what is
// missing of those is taken level. Own cell first, then beside it, then above, then across.
void fill_missing(std::array<double, 4>& corner) {
  auto& [own, beside, above, across] = corner;
  const bool cut_off = !std::isfinite(beside) && !std::isfinite(above);
  if (cut_off) across = kInfinite;
  if (!std::isfinite(beside)) beside = std::isfinite(across) ? own + across - above : own;
  if (!std::isfinite(above)) above = std::isfinite(across) ? own + across - beside : own;
  if (!std::isfinite(across)) across = beside + above - own;
}

}  // namespace

TravelMap::TravelMap(PlanGrid grid, std::vector<double> time, std::optional<Point> source)
    : grid_(grid), time_(std::move(time)), source_(source) {
  assert(time_.size() == grid_.count());
}

double TravelMap::time_in(int column, int row) const {
  const bool inside = column >= 0 && column < grid_.columns && row >= 0 && row < grid_.rows;
  return inside ? time_[grid_.index(column, row)] : kInfinite;
}

double TravelMap::straight(const Point& point) const {
  return source_ ? std::hypot(point.x - source_->x, point.y - source_->y) : 0;
}

// Linear between centres in what T has beyond the straight distance from the source, which leaves
// no kink at the source.
double TravelMap::at(const Point& point) const {
  const double x = (point.x - grid_.corner.x) / grid_.cell;
  const double y = (point.y - grid_.corner.y) / grid_.cell;
  if (!(x >= 0 && x < grid_.columns && y >= 0 && y < grid_.rows)) return kInfinite;
  const int column = static_cast<int>(x), row = static_cast<int>(y);
  if (!std::isfinite(time_in(column, row))) return kInfinite;
  const int aside = x - column < 0.5 ? -1 : 1, up = y - row < 0.5 ? -1 : 1;
  const auto beyond = [&](int c, int r) { return time_in(c, r) - straight(grid_.centre(c, r)); };
  std::array<double, 4> corner = {beyond(column, row), beyond(column + aside, row),
                                  beyond(column, row + up), beyond(column + aside, row + up)};
  fill_missing(corner);
  const double u = std::abs(x - column - 0.5), v = std::abs(y - row - 0.5);
  const double value =
      (1 - v) * ((1 - u) * corner[0] + u * corner[1]) + v * ((1 - u) * corner[2] + u * corner[3]);
  return std::max(0.0, value) + straight(point);
}

namespace {

// Walks down a map; every step ends where T is less.
class Descent {
 public:
  Descent(const TravelMap& map, std::optional<Point> source) : map_(map), source_(source) {
    cell_ = map.grid().cell;
  }

  Line from(const Point& start) {
    Line way = {start};
    double time = map_.at(start);
    while (!arrived(way.back())) {
      const auto [next, then] = step(way.back(), time);
      if (!(then < time)) return end_of(std::move(way));
      way.push_back(next);
      time = then;
    }
    if (way.back() != *source_) way.push_back(*source_);
    return way;
  }

 private:
  using Step = std::pair<Point, double>;

  bool sees(const Point& a, const Point& b) const {
    return in_sight(in_cells(a), in_cells(b), [&](int column, int row) {
      const PlanGrid& grid = map_.grid();
      return column >= 0 && column < grid.columns && row >= 0 && row < grid.rows &&
             std::isfinite(map_.times()[grid.index(column, row)]);
    });
  }
  Point in_cells(const Point& p) const {
    const Point& corner = map_.grid().corner;
    return {(p.x - corner.x) / cell_, (p.y - corner.y) / cell_};
  }
  bool arrived(const Point& at) const {
    return source_ && std::hypot(at.x - source_->x, at.y - source_->y) < 1.5 * cell_ &&
           sees(at, *source_);
  }
  // At the lowest place: with a start of its own this is the end, else there is no way.
  Line end_of(Line way) const { return way; }

  Step step(const Point& at, double time) const {
    const Step smooth = along_gradient(at);
    if (smooth.second < time - kLeastFall * cell_ && sees(at, smooth.first)) return smooth;
    return to_best_neighbour(at, time);
  }

  // Half a cell down the slope found half a step ahead.
  Step along_gradient(const Point& at) const {
    const Point half = moved(at, slope(at), 0.25 * cell_);
    const Point to = moved(at, slope(half), 0.5 * cell_);
    return {to, map_.at(to)};
  }
  static Point moved(const Point& at, const Point& slope, double way) {
    const double length = std::hypot(slope.x, slope.y);
    if (!(length > 0)) return at;
    return {at.x - slope.x / length * way, at.y - slope.y / length * way};
  }
  Point slope(const Point& at) const {
    const double d = 0.5 * cell_;
    return {rise({at.x - d, at.y}, at, {at.x + d, at.y}),
            rise({at.x, at.y - d}, at, {at.x, at.y + d})};
  }
  // Of T from `low` to `high`; one-sided, or none, beside blocked ground.
  double rise(const Point& low, const Point& at, const Point& high) const {
    const double a = map_.at(low), b = map_.at(at), c = map_.at(high);
    if (std::isfinite(a) && std::isfinite(c)) return (c - a) / 2;
    if (std::isfinite(a)) return std::max(0.0, b - a);
    return std::isfinite(c) ? std::min(0.0, c - b) : 0;
  }

  Step to_best_neighbour(const Point& at, double time) const {
    const PlanGrid& grid = map_.grid();
    const int column = static_cast<int>((at.x - grid.corner.x) / cell_);
    const int row = static_cast<int>((at.y - grid.corner.y) / cell_);
    Step best = {at, time};
    for (int r = std::max(0, row - 1); r <= std::min(grid.rows - 1, row + 1); ++r) {
      for (int c = std::max(0, column - 1); c <= std::min(grid.columns - 1, column + 1); ++c) {
        const double then = map_.times()[grid.index(c, r)];
        if (then < best.second && sees(at, grid.centre(c, r))) best = {grid.centre(c, r), then};
      }
    }
    return best;
  }

  static constexpr double kLeastFall = 1e-3;

  const TravelMap& map_;
  std::optional<Point> source_;
  double cell_ = 0;
};

}  // namespace

Line TravelMap::way_back(const Point& from) const {
  if (!std::isfinite(at(from))) return {};
  return Descent(*this, source_).from(from);
}

TravelMap travel_from(const Point& source, const PlanGrid& grid, const std::vector<double>& speed) {
  EikonalMarch march(grid, speed);
  march.start_at(source);
  march.run();
  return {grid, march.times(), source};
}

TravelMap travel_from(const Point& source, const std::vector<TravelStart>& starts,
                      const PlanGrid& grid, const std::vector<double>& speed) {
  EikonalMarch march(grid, speed);
  for (const TravelStart& start : starts) march.start_in(start.cell, start.time);
  march.run();
  return {grid, march.times(), source};
}

}  // namespace rootstead
