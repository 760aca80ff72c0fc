// Inside engine/protection only: can machines get to every gate and every work, once the fences
// stand?
#pragma once

#include "engine/protection/plan_ground.hpp"

namespace rootstead {

// A work or a gate that no machine can reach, and the open ground round it.
struct ShutIn {
  std::string work, gate;  // one of them
  Point at;
  MultiPolygon ground;  // empty of a gate
};

struct Access {
  MultiPolygon reached;  // open ground that machines get to
  std::vector<ShutIn> shut_in;
};

// Gates of the plan for machines join what lies on their two sides.
Access access_of(const Site& site, const PlanGround& ground, const MultiPolygon& enclosures,
                 const std::vector<FenceGate>& gates);

bool is_at_boundary(const Gate& gate, const PlanGround& ground);

}  // namespace rootstead
