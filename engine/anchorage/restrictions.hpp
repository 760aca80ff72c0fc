// Walls, kerbs and foundations near a stem: where they stand no roots are, down to their underside.
// They act as cuts that exist already, and the tree has grown up with them.
#pragma once

#include <span>
#include <vector>

#include "engine/anchorage/anchorage.hpp"

namespace rootstead {

// Those within `reach` of the stem. An area that holds the stem itself is left out: a stem does
// not grow in a wall, and a tree pit drawn as an area would sever everything.
// Requires: tree.position.
std::vector<AnchorageCut> restrictions_near(const Tree& tree, Length reach,
                                            std::span<const Barrier> barriers);

}  // namespace rootstead
