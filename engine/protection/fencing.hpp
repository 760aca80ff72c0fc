// Inside engine/protection only: fences round the enclosures, with footings, posts, gates, signs.
#pragma once

#include "engine/protection/plan_ground.hpp"

namespace rootstead {

// Fences along the outlines, left out where a building or a wall closes the ground by itself.
std::vector<Fence> fences_of(const std::vector<Enclosure>& enclosures, const PlanGround& ground);

// A gate for people in every enclosure that has a fence, and the site's own gates that stand in
// fences. `reached` is the open ground that machines get to.
std::vector<FenceGate> gates_of(const std::vector<Enclosure>& enclosures,
                                const std::vector<Fence>& fences, const Site& site,
                                const PlanGround& ground, const MultiPolygon& reached);

// Stretches by footing, and posts: at corners, beside gates and evenly between.
void set_posts(std::vector<Fence>& fences, const std::vector<FenceGate>& gates,
               const PlanGround& ground);

std::vector<Sign> signs_of(const std::vector<Fence>& fences, Length spacing);

// Chainages that the gates of this fence take.
std::vector<std::pair<double, double>> openings_in(const Fence& fence,
                                                   const std::vector<FenceGate>& gates);

}  // namespace rootstead
