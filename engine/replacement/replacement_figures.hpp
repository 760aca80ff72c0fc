// Figures of replacement by hand: `rootstead figure replacement.lake-elmo-mn removed=400in
// surveyed=1000in`. One kind for each rule of data/replacement.
#pragma once

#include <vector>

#include "engine/base/hand_figure.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

std::vector<HandFigure> replacement_figures(const Tables& tables);

}  // namespace rootstead
