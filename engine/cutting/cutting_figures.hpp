// Figures of cutting, boring and digging by hand: `rootstead figure cutting.auger-distance
// stem=12in`.
#pragma once

#include <vector>

#include "engine/base/hand_figure.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

// cutting.auger-distance, .bore-depth, .force-lost, .least-distance, .palm-distance,
// .precaution-zone, .trench-slope. `tables` must outlive them.
std::vector<HandFigure> cutting_figures(const Tables& tables);

}  // namespace rootstead
