// The figures about roots among those of a tree. Private to this room.
#pragma once

#include <vector>

#include "engine/assess/assess.hpp"

namespace rootstead {

void add_root_figures(const TreeAssessment& tree, std::vector<Figure>& figures);

}  // namespace rootstead
