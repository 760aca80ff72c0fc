// Figures of the root crown by hand: `rootstead figure root-crown.girdling depth=10cm`.
#pragma once

#include <vector>

#include "engine/base/hand_figure.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

// root-crown.girdling, root-crown.taper. `tables` must outlive them.
std::vector<HandFigure> root_crown_figures(const Tables& tables);

}  // namespace rootstead
