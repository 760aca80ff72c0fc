// Which roots of one likely root system new works part from the tree: those that a work digs or
// cuts through, with all that grows from them.
#pragma once

#include <vector>

#include "engine/roots/architecture.hpp"
#include "engine/site/site.hpp"

namespace rootstead {

// One entry a piece of `roots`, true where it or a piece it grows from passes through the ground of
// a new work that severs (engine/losses/losses.hpp), no deeper than that work goes. Pieces count as
// straight; works as footprints with upright sides.
std::vector<bool> severed_pieces(const RootSystem& roots, const Site& site);

}  // namespace rootstead
