#include <cassert>

#include "engine/assess/tree_assessor.hpp"

namespace rootstead {
namespace {

AnchorageCut cut_of(const WorkMap::Entry& entry) {
  AnchorageCut cut;
  cut.work = entry.work->id;
  cut.area = entry.ground;
  cut.depth = severed_depth(*entry.work);
  cut.soil_removed = entry.work->kind != WorkKind::root_cut;
  cut.existing = !is_new(*entry.work);
  return cut;
}

}  // namespace

std::vector<AnchorageCut> cuts_near(const Tree& tree, Length reach, const WorkMap& works) {
  assert(tree.position);
  std::vector<AnchorageCut> cuts;
  bool any_new = false;
  for (const std::size_t i : works.near(tree.position->at, reach)) {
    const WorkMap::Entry& entry = works.entries()[i];
    if (!severs(*entry.work) || entry.ground.empty()) continue;
    any_new = any_new || is_new(*entry.work);
    cuts.push_back(cut_of(entry));
  }
  if (!any_new) cuts.clear();
  return cuts;
}

}  // namespace rootstead
