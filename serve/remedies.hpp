// Other ways to do the works that reach a tree, each assessed as if it were so.
#pragma once

#include "engine/rootstead.hpp"
#include "io/json.hpp"

namespace rootstead::serve {

// `alone`: the site with this tree only; `now`: its answer there. For each new work that reaches
// the tree: a trench bored beneath its roots, paving laid without digging, a dig without working
// room. Ways that leave the same figures are not told.
io::Json remedies_for(const Site& alone, const TreeAssessment& now, const Tables& tables,
                      const RootSimulation& simulation);

}  // namespace rootstead::serve
