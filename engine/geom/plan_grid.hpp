// PlanGrid: square cells over a piece of the plan, rows from south to north, columns from west to
// east; values on it lie in one vector, row after row. And how polygons lie on it.
#pragma once

#include <cmath>
#include <cstddef>
#include <optional>
#include <vector>

#include "engine/geom/shapes.hpp"

namespace rootstead {

struct PlanGrid {
  Point corner;       // south-west corner of the first cell
  double cell = 0.2;  // m, side
  int columns = 0, rows = 0;

  // `middle` lies at the centre of the middle cell; covers at least `reach` on every side.
  static PlanGrid around(const Point& middle, Length reach, Length cell);

  std::size_t count() const {
    return static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows);
  }
  std::size_t index(int column, int row) const {
    return static_cast<std::size_t>(row) * static_cast<std::size_t>(columns) +
           static_cast<std::size_t>(column);
  }
  Point centre(int column, int row) const {
    return {corner.x + (column + 0.5) * cell, corner.y + (row + 0.5) * cell};
  }
  // The cell a point lies in, nothing outside the grid.
  std::optional<std::size_t> index_at(const Point& point) const {
    const double column = std::floor((point.x - corner.x) / cell);
    const double row = std::floor((point.y - corner.y) / cell);
    if (!(column >= 0 && row >= 0 && column < columns && row < rows)) return std::nullopt;
    return index(static_cast<int>(column), static_cast<int>(row));
  }
};

// Cells that the area touches at all, however little: an unbroken thin wall leaves no gap, not even
// across a corner. 1 where touched, else 0.
std::vector<unsigned char> cells_touched(const PlanGrid& grid, const MultiPolygon& area);
// Cells whose centre lies inside.
std::vector<unsigned char> cells_inside(const PlanGrid& grid, const MultiPolygon& area);

}  // namespace rootstead
