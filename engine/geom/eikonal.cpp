#include "engine/geom/eikonal.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <limits>
#include <utility>

#include "engine/geom/eikonal_march.hpp"

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
