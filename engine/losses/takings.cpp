#include <cassert>

#include "engine/geom/overlay.hpp"
#include "engine/losses/losses.hpp"

namespace rootstead {

namespace {

using Effect = GroundTaking::Effect;

GroundTaking taking(const Work& work, MultiPolygon area, Length depth, Effect effect) {
  GroundTaking taken;
  taken.work = work.id;
  taken.area = std::move(area);
  taken.depth = depth;
  taken.effect = effect;
  return taken;
}

}  // namespace

std::vector<GroundTaking> takings_near(const Tree& tree, Length reach, const WorkMap& works) {
  assert(tree.position);
  std::vector<GroundTaking> takings;
  for (const std::size_t i : works.near(tree.position->at, reach)) {
    const WorkMap::Entry& entry = works.entries()[i];
    const Work& work = *entry.work;
    if (!is_new(work)) continue;
    if (severs(work)) {
      takings.push_back(taking(work, entry.ground, severed_depth(work), Effect::severs));
    }
    if (!severs(work) || work.kind == WorkKind::paving) {  // paving seals what is left beneath it
      takings.push_back(taking(work, entry.ground, depth_of(work), Effect::presses));
    }
    if (!entry.room.empty()) takings.push_back(taking(work, entry.room, {}, Effect::presses));
  }
  return takings;
}

std::vector<std::string> works_on_stem(const Tree& tree, Length trunk_radius,
                                       const WorkMap& works) {
  assert(tree.position);
  const Point& stem = tree.position->at;
  std::vector<std::string> met;
  for (const std::size_t i : works.near(stem, trunk_radius)) {
    const WorkMap::Entry& entry = works.entries()[i];
    if (!is_new(*entry.work) || entry.ground.empty()) continue;
    if (distance_between(stem, entry.ground) <= trunk_radius) met.push_back(entry.work->id);
  }
  return met;
}

}  // namespace rootstead
