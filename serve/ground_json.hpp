// The ground that works and barriers take, and its levels, as JSON of api/schema.json.
#pragma once

#include "engine/geom/shapes.hpp"
#include "io/json.hpp"
#include "serve/standing.hpp"

namespace rootstead::serve {

// Blocks that come within the box; of a bore its pits and its pipe are two.
io::Json work_blocks(const Site& site, const Box& box);
io::Json barrier_blocks(const Site& site, const Box& box);

// Heights of the existing ground over the box, at most so many cells a side; null where no levels
// are known. A cell outside them is null.
inline constexpr int kMostGroundCells = 60;
io::Json ground_grid(const Standing& standing, const Box& box);

bool meet(const Box& a, const Box& b);
double rounded(double metres, double step = 0.001);  // to the millimetre: what a page can show

}  // namespace rootstead::serve
