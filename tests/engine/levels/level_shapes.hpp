// Surfaces in a few lines, for the tests of this room.
#pragma once

#include <cmath>
#include <functional>
#include <numbers>

#include "engine/base/random.hpp"
#include "engine/levels/earthwork.hpp"
#include "tests/support/site_builder.hpp"

namespace rootstead::test {

using Height = std::function<double(double, double)>;

inline LevelSurface named(std::string name, std::variant<TriangleMesh, HeightGrid> levels) {
  return {std::move(name), "ODN", "", std::move(levels)};
}

// A square of `side` metres from `corner`, in `steps` by `steps` squares of two triangles; the
// inner points are moved about by up to a third of a step.
inline TriangleMesh mesh_of(const Height& height, double side, int steps, std::uint64_t seed = 0,
                            Point corner = {0, 0}) {
  RandomStream random(seed, "mesh");
  TriangleMesh mesh;
  const double step = side / steps;
  for (int row = 0; row <= steps; ++row) {
    for (int column = 0; column <= steps; ++column) {
      double x = column * step, y = row * step;
      const bool inner = row > 0 && column > 0 && row < steps && column < steps;
      if (inner && seed != 0) {
        x += random.uniform(-step / 3, step / 3);
        y += random.uniform(-step / 3, step / 3);
      }
      mesh.points.push_back({{corner.x + x, corner.y + y}, height(x, y)});
    }
  }
  const auto at = [steps](int column, int row) {
    return static_cast<std::uint32_t>(row * (steps + 1) + column);
  };
  for (int row = 0; row < steps; ++row) {
    for (int column = 0; column < steps; ++column) {
      mesh.triangles.push_back({at(column, row), at(column + 1, row), at(column + 1, row + 1)});
      mesh.triangles.push_back({at(column, row), at(column, row + 1), at(column + 1, row + 1)});
    }
  }
  return mesh;
}

inline HeightGrid grid_of(const Height& height, double side, int cells, Point corner = {0, 0}) {
  HeightGrid grid;
  grid.cell = side / cells;
  grid.north_west = {corner.x, corner.y + side};
  grid.columns = grid.rows = static_cast<std::uint32_t>(cells);
  for (int row = 0; row < cells; ++row) {
    for (int column = 0; column < cells; ++column) {
      grid.heights.push_back(
          static_cast<float>(height((column + 0.5) * grid.cell, side - (row + 0.5) * grid.cell)));
    }
  }
  return grid;
}

inline PreparedLevels ready(std::variant<TriangleMesh, HeightGrid> levels,
                            std::string name = "test") {
  auto made = PreparedLevels::prepare(named(std::move(name), std::move(levels)));
  EXPECT_TRUE(made.ok()) << (made.ok() ? "" : made.error().sentence());
  return std::move(made).value();
}

inline Height flat(double level) {
  return [level](double, double) { return level; };
}

// Uneven heights without a formula: each place has its own.
inline Height rough(std::uint64_t seed, double amount) {
  return [seed, amount](double x, double y) {
    const double turn = static_cast<double>(seed % 997);
    return amount * (std::sin(0.7 * x + turn) + std::cos(0.9 * y - turn) +
                     0.5 * std::sin(0.31 * x * y + turn));
  };
}

}  // namespace rootstead::test
