#include <algorithm>

#include "engine/losses/losses.hpp"
#include "engine/losses/taken_ground.hpp"
#include "engine/losses/zone_plan.hpp"

namespace rootstead {
namespace {

ZoneLoss::ByWork loss_by(const WorkMap::Entry& entry, const ZonePlan& plan) {
  ZoneLoss::ByWork by;
  by.work = entry.work->id;
  by.existing = !is_new(*entry.work);
  by.affected = plan.common(entry.with_room);
  if (!plan.counts(by.affected)) return by;
  by.share = plan.share_of(by.affected);
  by.nearest = plan.nearest(entry.with_room);
  by.footprint = std::min(plan.common(entry.ground), by.affected);
  return by;
}

}  // namespace

ZoneLoss zone_loss(const Zone& zone, const WorkMap& works, Beyond beyond) {
  const ZonePlan plan(zone);
  ZoneLoss loss;
  for (const std::size_t i : works.near(plan.centre(), plan.reach())) {
    ZoneLoss::ByWork by = loss_by(works.entries()[i], plan);
    if (plan.counts(by.affected)) loss.by_work.push_back(std::move(by));
  }
  loss.unsurfaced = zone.area - plan.common(works.surfaced());
  if (loss.by_work.empty()) return loss;
  loss.affected = plan.common(works.affected());
  loss.share = plan.share_of(loss.affected);
  loss.footprint = std::min(plan.common(works.footprint()), loss.affected);
  loss.existing = plan.common(works.existing());
  loss.beyond.reset();
  if (beyond == Beyond::counted)
    loss.beyond = std::max(taken_area(plan, works, {}, Hidden::counted) - loss.affected, Area());
  loss.new_surfacing = std::min(plan.common(works.new_surfacing()), loss.unsurfaced);
  return loss;
}

}  // namespace rootstead
