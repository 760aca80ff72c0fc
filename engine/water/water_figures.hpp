// The figures of water that can be asked for by hand: `rootstead figure water.penman-monteith ...`.
#pragma once

#include <vector>

#include "engine/base/hand_figure.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

std::vector<HandFigure> water_figures(const Tables& tables);

}  // namespace rootstead
