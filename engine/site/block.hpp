// Block: the ground that a work or a barrier takes, with upright sides, for sections and pictures.
#pragma once

#include <vector>

#include "engine/site/work.hpp"

namespace rootstead {

// Depths in metres below the ground of today; negative above it.
struct Block {
  MultiPolygon areas;
  double top = 0, bottom = 0;
  bool pipe = false;  // the bore itself, apart from its pits
};

inline constexpr Length kBarrierThickness = Length::millimetres(200);  // where none is known; ours

// Of a fill from its surface to the ground; of traffic a skin, only to be seen; of a bore its pits
// (and its line where that is shallow) and then the pipe beneath. A missing depth or width is the
// kind's default. None without a shape.
std::vector<Block> blocks_of(const Work& work);
// Lines as corridors of the barrier's width.
std::vector<Block> blocks_of(const Barrier& barrier);

// Of the bore or pipe: entered, or the kind's default width.
Length bore_diameter_of(const Work& work);

}  // namespace rootstead
