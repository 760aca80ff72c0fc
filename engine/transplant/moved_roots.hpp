// How much of its roots a tree takes along. Sources measured four different things (volume of soil,
// length, surface, weight): they stay side by side, each by its name, and are never averaged.
#pragma once

#include <string>
#include <vector>

#include "engine/base/figure.hpp"
#include "engine/base/result.hpp"
#include "engine/roots/root_model.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

// Published shares, of trees that thicken: "transplant.moved-soil-volume", "-length", "-surface",
// "-weight"; all in [0, 1].
std::vector<Figure> published_shares_moved(const Tables& tables);

// Our own estimate: absorbing roots in an upright cylinder round the stem, by the root model of
// engine/roots with its ground and finds. In [0, 1]. A tree without a position is put on open
// ground. Fails as root_model does.
Result<Figure> share_in_ball(const Tree& tree, const Site& site, const Tables& tables,
                             Length radius, Length depth, const RootSimulation& how);

}  // namespace rootstead
