// Builds one zone of one rule for one tree; zones_of() and figure() both come here.
#pragma once

#include <vector>

#include "engine/rules/tree_size.hpp"
#include "engine/rules/zone.hpp"

namespace rootstead {

// As zones_of(), with the tolerance given and the growth form as the tree says.
Result<std::vector<Zone>> zones_for(const Tree& tree, Tolerance tolerance, const ZoneRule& rule,
                                    const std::vector<Barrier>& barriers);

Result<Zone> build_zone(const ZoneDefinition& definition, const TreeSize& size,
                        const ZoneRule& rule, const std::vector<Barrier>& barriers);

}  // namespace rootstead
