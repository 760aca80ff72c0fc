#include <algorithm>

#include "engine/geom/overlay.hpp"
#include "engine/losses/losses.hpp"
#include "engine/losses/shadow.hpp"
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

Area area_beyond(const ZonePlan& plan, const WorkMap& works, const std::vector<WorkKind>& kinds,
                 Area affected) {
  std::vector<MultiPolygon> parts;
  const Circle reach{plan.centre(), plan.reach()};
  for (const std::size_t i : works.near(plan.centre(), plan.reach())) {
    const WorkMap::Entry& entry = works.entries()[i];
    if (!is_new(*entry.work) || !severs(*entry.work) || !is_among(kinds, entry.work->kind)) continue;
    parts.push_back(shadow_of(entry.ground, reach));
  }
  if (parts.empty()) return {};
  parts.push_back(works.affected().near(plan.centre(), plan.reach()));
  const Area all = plan.common(union_of(parts));
  return std::max(all - affected, Area());
}

ZoneLoss zone_loss(const Zone& zone, const WorkMap& works) {
  const ZonePlan plan(zone);
  ZoneLoss loss;
  for (const std::size_t i : works.near(plan.centre(), plan.reach())) {
    ZoneLoss::ByWork by = loss_by(works.entries()[i], plan);
    if (plan.counts(by.affected)) loss.by_work.push_back(std::move(by));
  }
  const Area surfaced = plan.common(works.surfaced());
  loss.unsurfaced = zone.area - surfaced;
  if (loss.by_work.empty()) return loss;
  loss.affected = plan.common(works.affected());
  loss.share = plan.share_of(loss.affected);
  loss.footprint = std::min(plan.common(works.footprint()), loss.affected);
  loss.existing = plan.common(works.existing());
  loss.beyond = area_beyond(plan, works, {}, loss.affected);
  loss.new_surfacing = std::min(plan.common(works.new_surfacing()), loss.unsurfaced);
  return loss;
}

}  // namespace rootstead
