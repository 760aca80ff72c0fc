// Inside engine/protection only: which ground is fenced, and the ways that are left through it.
#pragma once

#include "engine/protection/plan_ground.hpp"

namespace rootstead {

struct Enclosing {
  std::vector<Enclosure> enclosures;
  std::vector<Way> ways;
};

Enclosing enclosing_of(const Site& site, const PlanGround& ground);

// The ground of a way: its line, flat at both ends.
MultiPolygon ground_of(const Way& way);
MultiPolygon areas_of(const std::vector<Enclosure>& enclosures);

}  // namespace rootstead
