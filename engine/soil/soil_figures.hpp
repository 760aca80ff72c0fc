// Figures of the soil by hand: `rootstead figure soil.boussinesq load=10kN depth=0.5m`.
#pragma once

#include <vector>

#include "engine/base/hand_figure.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

std::vector<HandFigure> soil_figures(const Tables& tables);

}  // namespace rootstead
