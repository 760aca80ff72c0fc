// LevelSurface: ground levels as triangles or as a grid of heights. What is computed from two of
// them (depths, volumes) is in engine/levels.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <variant>
#include <vector>

#include "engine/geom/shapes.hpp"

namespace rootstead {

struct LevelPoint {
  Point at;
  double height = 0;  // m above the datum
};

struct TriangleMesh {
  std::vector<LevelPoint> points;
  std::vector<std::array<std::uint32_t, 3>> triangles;  // indices of points, any turn
};

// Heights at the middles of square cells, rows from the north down; NaN where there is none.
struct HeightGrid {
  Point north_west;  // outer corner
  double cell = 1;   // m
  std::uint32_t columns = 0, rows = 0;
  std::vector<float> heights;  // row by row
};

struct LevelSurface {
  std::string name;            // of the file or surface it came from
  std::string vertical_datum;  // as stated, "ODN", "NAVD88"; empty: not known
  std::string date;            // of the survey, as stated
  std::variant<TriangleMesh, HeightGrid> levels;
};

}  // namespace rootstead
