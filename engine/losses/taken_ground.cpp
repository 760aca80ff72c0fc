#include "engine/losses/taken_ground.hpp"

#include <algorithm>

#include "engine/geom/overlay.hpp"
#include "engine/losses/shadow.hpp"

namespace rootstead {

bool is_among(const std::vector<WorkKind>& kinds, WorkKind kind) {
  return kinds.empty() || std::find(kinds.begin(), kinds.end(), kind) != kinds.end();
}

Area taken_area(const ZonePlan& plan, const WorkMap& works, const std::vector<WorkKind>& kinds,
                Hidden hidden) {
  std::vector<MultiPolygon> parts;
  for (const std::size_t i : works.near(plan.centre(), plan.reach())) {
    const WorkMap::Entry& entry = works.entries()[i];
    const Work& work = *entry.work;
    if (!is_new(work) || !is_among(kinds, work.kind)) continue;
    parts.push_back(entry.with_room);
    if (hidden == Hidden::left_out || !severs(work)) continue;
    for (MultiPolygon& shadow : shadows_of(entry.ground, {plan.centre(), plan.reach()})) {
      parts.push_back(std::move(shadow));
    }
  }
  return parts.size() == 1 ? plan.common(parts.front()) : plan.common(union_of(parts));
}

}  // namespace rootstead
