// Figures of moving trees, by hand: `rootstead figure transplant.ball-diameter calliper=3in`.
#pragma once

#include <vector>

#include "engine/base/hand_figure.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

// Asked of a palm (form=palm, or its species), those that go by calliper answer with the reason
// why they do not. `tables` must outlive them.
std::vector<HandFigure> transplant_figures(const Tables& tables);

}  // namespace rootstead
