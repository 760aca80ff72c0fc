// PreparedLevels: a LevelSurface that was checked and indexed, so that questions are quick.
//
// What a surface says between its points: triangles are planes; a grid cell is a tent, that is,
// four triangles from its middle to its corners, where a corner has the mean height of the up to
// four cells round it that have one. A tent reproduces an even slope exactly, except in the half
// cell along the rim of the grid and of its gaps, where the ground is carried on level.
#pragma once

#include <array>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "engine/base/note.hpp"
#include "engine/base/result.hpp"
#include "engine/geom/box_index.hpp"
#include "engine/geom/level_surface.hpp"

namespace rootstead {

// One plane piece of a surface, its corners counter-clockwise in plan.
using Facet = std::array<LevelPoint, 3>;

// Cells of a grid from `column0` to before `column1`, and rows likewise.
struct CellRange {
  std::uint32_t column0 = 0, row0 = 0, column1 = 0, row1 = 0;
  std::size_t count() const { return std::size_t{column1 - column0} * (row1 - row0); }
};

class PreparedLevels {
 public:
  // Fails with empty_geometry where there are no triangles or no cells with a height, and with
  // invalid_geometry where a cell size is not above zero, the number of heights is not columns
  // times rows, a triangle names a point that does not exist, or a place or height of a used point
  // is not finite. Triangles without area in plan and exact repeats are left out; triangles that
  // overlap a neighbour are counted in a note. Cost: n log n.
  static Result<PreparedLevels> prepare(LevelSurface surface);

  const LevelSurface& surface() const { return *surface_; }
  const std::string& name() const { return surface_->name; }
  const std::vector<Note>& notes() const { return notes_; }

  // Metres above the datum; none where the surface does not reach.
  std::optional<double> height_at(const Point& at) const;
  Box extent() const { return extent_; }  // of the ground it covers, with its gaps

  // The same surface with all its heights changed by `by`.
  PreparedLevels raised(Length by) const;

  // The planes that meet the box, touching included.
  std::vector<Facet> facets_meeting(const Box& box) const;

  // Of grids: null and empty of triangles.
  const HeightGrid* grid() const;
  CellRange cells_meeting(const Box& box) const;
  std::optional<double> cell_height(std::uint32_t column, std::uint32_t row) const;

 private:
  struct Triangles {
    BoxIndex index;
    std::vector<std::array<std::uint32_t, 3>> kept;  // those in use, counter-clockwise
  };
  PreparedLevels() = default;
  Outcome take_triangles(const TriangleMesh& mesh);
  Outcome take_grid(const HeightGrid& grid);
  Facet facet(std::size_t triangle) const;
  void add_tents(std::uint32_t column, std::uint32_t row, std::vector<Facet>& facets) const;
  double corner_height(std::int64_t column, std::int64_t row) const;

  std::shared_ptr<const LevelSurface> surface_;
  std::shared_ptr<const Triangles> triangles_;  // null of a grid
  double raise_ = 0;
  Box extent_;
  std::vector<Note> notes_;
};

}  // namespace rootstead
