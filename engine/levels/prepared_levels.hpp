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

// One plane piece of a surface, in plan coordinates less the origin of the surface's frame.
struct Facet {
  std::array<LevelPoint, 3> corners;  // counter-clockwise
};

class PreparedLevels {
 public:
  // Fails with empty_geometry where there are no triangles or no cells with a height, and with
  // invalid_geometry where a cell size is not above zero, the number of heights is not columns
  // times rows, a triangle names a point that does not exist, or a place or height of a used point
  // is not finite. Triangles without area in plan and exact repeats are left out; triangles that
  // overlap a neighbour are counted in a note. Cost: n log n; 2,000,000 cells in a second.
  static Result<PreparedLevels> prepare(LevelSurface surface);

  const LevelSurface& surface() const { return *surface_; }
  const std::string& name() const { return surface_->name; }
  const HeightGrid* grid() const;  // null of triangles
  const std::vector<Note>& notes() const { return notes_; }

  // Metres above the datum; none where the surface does not reach.
  std::optional<double> height_at(const Point& at) const;
  Box extent() const { return extent_; }  // of the ground it covers, with its gaps
  // The part of `area` that the surface covers, exact for both kinds.
  Area covered(const MultiPolygon& area) const;
  Area covered() const;  // all it covers

  // The same surface with all its heights changed by `by`.
  PreparedLevels raised(Length by) const;

  // The planes that meet the box, touching included.
  std::vector<Facet> facets_meeting(const Box& box) const;
  std::size_t facet_count() const;

 private:
  PreparedLevels() = default;
  std::shared_ptr<const LevelSurface> surface_;
  std::shared_ptr<const BoxIndex> index_;                                  // of triangles
  std::shared_ptr<const std::vector<std::array<std::uint32_t, 3>>> kept_;  // triangles in use
  double raise_ = 0;
  Box extent_;
  std::vector<Note> notes_;
};

}  // namespace rootstead
