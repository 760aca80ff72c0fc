// Earthwork: what lies between two surfaces over an area: cut, fill, and how deep.
//
// Triangles against triangles: exact. The triangles are laid over one another in plan, the
// difference is linear on each common piece, and each piece is split where it changes its sign.
// Grid against grid with cells that lie exactly upon one another: by cells, each flat at its
// height, cut exactly by the outline of the area. Every other pair (a grid and triangles, grids
// that do not match): as triangles, with each grid cell a tent (prepared_levels.hpp); exact for
// that reading of the grid, which on smooth ground is off by at most cell^2/8 times the curvature,
// and in the half cell along a rim by half a cell times the slope.
// Accuracy of the arithmetic: about 1e-9 relative of the volume moved.
#pragma once

#include "engine/base/quantity.hpp"
#include "engine/base/result.hpp"
#include "engine/levels/prepared_levels.hpp"

namespace rootstead {

// Differences are after less before: cut is where the ground goes down.
struct Earthwork {
  Area area;                 // where both surfaces have a height
  Area missing;              // of the area asked for, where one of them has none
  double cut = 0, fill = 0;  // m3, both positive
  Area cut_area, fill_area;
  Length deepest_cut, highest_fill;
  double net() const { return fill - cut; }  // m3
  double mean_difference() const;            // m; 0 where there is no area
};

// Over `area`, or over all ground they have in common. No common ground: all zero, by itself no
// failure (zone_depths.hpp fails where ground is missing).
Earthwork earthwork_between(const PreparedLevels& before, const PreparedLevels& after);
Earthwork earthwork_between(const PreparedLevels& before, const PreparedLevels& after,
                            const MultiPolygon& area);

// The ground that a surface covers, all of it or of `area`; exact for both kinds.
Area covered(const PreparedLevels& levels);
Area covered(const PreparedLevels& levels, const MultiPolygon& area);

}  // namespace rootstead
