// What the tables know of a species, by hand.
#pragma once

#include <vector>

#include "engine/base/hand_figure.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

std::vector<HandFigure> trait_figures(const Tables& tables);

}  // namespace rootstead
