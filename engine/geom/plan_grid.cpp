#include "engine/geom/plan_grid.hpp"

#include <algorithm>
#include <cmath>

namespace rootstead {
namespace {

// An overlap thinner than this share of a cell is rounding: a wall drawn exactly along the cells'
// sides must not take the next row too.
constexpr double kSliver = 1e-9;

// Plan coordinates as columns and rows.
class InCells {
 public:
  explicit InCells(const PlanGrid& grid) : grid_(grid) {}
  Point of(const Point& p) const {
    return {(p.x - grid_.corner.x) / grid_.cell, (p.y - grid_.corner.y) / grid_.cell};
  }

 private:
  const PlanGrid& grid_;
};

// First and last cell, within 0 ... count - 1, of those that [low, high] overlaps; none where
// last < first.
struct Span {
  int first = 0, last = -1;
  static Span of(double low, double high, int count) {
    const double first = std::floor(low + kSliver), last = std::floor(high - kSliver);
    return {static_cast<int>(std::clamp(first, 0.0, static_cast<double>(count))),
            static_cast<int>(std::clamp(last, -1.0, count - 1.0))};
  }
};

class Raster {
 public:
  explicit Raster(const PlanGrid& grid) : grid_(grid), cells_(grid.count(), 0) {}

  // Cells that the side from a to b passes through: in each row, what its part there spans.
  void mark_side(Point a, Point b) {
    if (b.y < a.y) std::swap(a, b);
    const Span rows = Span::of(a.y, b.y, grid_.rows);
    for (int row = rows.first; row <= rows.last; ++row) {
      const double x0 = x_at(a, b, std::max(a.y, static_cast<double>(row)));
      const double x1 = x_at(a, b, std::min(b.y, row + 1.0));
      const bool level = a.y == b.y;
      mark(row, level ? std::min(a.x, b.x) : std::min(x0, x1),
           level ? std::max(a.x, b.x) : std::max(x0, x1));
    }
  }

  // Cells whose centre lies inside, even-odd.
  void mark_inside(const std::vector<Ring>& rings) {
    std::vector<std::vector<double>> crossings(static_cast<std::size_t>(grid_.rows));
    for (const Ring& ring : rings) {
      for (std::size_t i = 0; i < ring.size(); ++i)
        cross(ring[i], ring[(i + 1) % ring.size()], crossings);
    }
    for (int row = 0; row < grid_.rows; ++row) {
      auto& at = crossings[static_cast<std::size_t>(row)];
      std::sort(at.begin(), at.end());
      for (std::size_t i = 0; i + 1 < at.size(); i += 2) mark_centres(row, at[i], at[i + 1]);
    }
  }

  std::vector<unsigned char> take() { return std::move(cells_); }

 private:
  static double x_at(const Point& a, const Point& b, double y) {
    return a.y == b.y ? a.x : a.x + (b.x - a.x) * ((y - a.y) / (b.y - a.y));
  }

  void mark(int row, double low, double high) {
    const Span columns = Span::of(low, high, grid_.columns);
    for (int column = columns.first; column <= columns.last; ++column)
      cells_[grid_.index(column, row)] = 1;
  }

  void mark_centres(int row, double low, double high) {
    const double first = std::max(0.0, std::ceil(low - 0.5));
    const double end = std::min(static_cast<double>(grid_.columns), std::ceil(high - 0.5));
    for (double column = first; column < end; ++column)
      cells_[grid_.index(static_cast<int>(column), row)] = 1;
  }

  // Where the side crosses the middle of each row; its upper end counts, its lower does not.
  void cross(Point a, Point b, std::vector<std::vector<double>>& crossings) const {
    if (b.y < a.y) std::swap(a, b);
    const double first = std::max(0.0, std::ceil(a.y - 0.5));
    const double end = std::min(static_cast<double>(grid_.rows), std::ceil(b.y - 0.5));
    for (double row = first; row < end; ++row)
      crossings[static_cast<std::size_t>(row)].push_back(x_at(a, b, row + 0.5));
  }

  const PlanGrid& grid_;
  std::vector<unsigned char> cells_;
};

std::vector<Ring> rings_in_cells(const PlanGrid& grid, const Polygon& polygon) {
  const InCells to_cells(grid);
  std::vector<Ring> rings = polygon.holes;
  rings.push_back(polygon.outer);
  for (Ring& ring : rings) {
    std::erase_if(ring, [](const Point& p) { return !std::isfinite(p.x) || !std::isfinite(p.y); });
    for (Point& point : ring) point = to_cells.of(point);
  }
  return rings;
}

}  // namespace

PlanGrid PlanGrid::around(const Point& middle, Length reach, Length cell) {
  const double side = cell.metres();
  const int half = static_cast<int>(std::ceil(std::max(0.0, reach.metres() / side - 0.5)));
  const int across = 2 * half + 1;
  return {{middle.x - (half + 0.5) * side, middle.y - (half + 0.5) * side}, side, across, across};
}

std::vector<unsigned char> cells_touched(const PlanGrid& grid, const MultiPolygon& area) {
  Raster raster(grid);
  for (const Polygon& polygon : area) {
    const std::vector<Ring> rings = rings_in_cells(grid, polygon);
    raster.mark_inside(rings);
    for (const Ring& ring : rings) {
      for (std::size_t i = 0; i < ring.size(); ++i)
        raster.mark_side(ring[i], ring[(i + 1) % ring.size()]);
    }
  }
  return raster.take();
}

std::vector<unsigned char> cells_inside(const PlanGrid& grid, const MultiPolygon& area) {
  Raster raster(grid);
  for (const Polygon& polygon : area) raster.mark_inside(rings_in_cells(grid, polygon));
  return raster.take();
}

}  // namespace rootstead
