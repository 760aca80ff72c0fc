// Inside engine/protection only: what is laid on the ground of kept trees.
#pragma once

#include "engine/protection/enclosing.hpp"

namespace rootstead {

// Ways first, then works by the weight of what passes, then ground no fence can hold. None of them
// overlap each other, what is dug away or what is surfaced today.
std::vector<CoveredGround> covers_of(const Enclosing& enclosing, const PlanGround& ground);

// New paving in the ground of kept trees.
std::vector<NoDigArea> no_dig_areas(const PlanGround& ground);

// Bare ground inside the enclosures that is the trees', clear of the bark.
MultiPolygon mulch_of(const std::vector<Enclosure>& enclosures, const PlanGround& ground);

std::vector<ProtectedTree> protected_trees(const std::vector<Enclosure>& enclosures,
                                           const std::vector<CoveredGround>& covers,
                                           const PlanGround& ground);

// Trunks beside works or covers with no fence between.
std::vector<StemGuard> guards_of(const std::vector<Enclosure>& enclosures,
                                 const PlanGround& ground);

}  // namespace rootstead
