#include <algorithm>
#include <cassert>

#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/losses/losses.hpp"

namespace rootstead {
namespace {

bool is_hard_surface(const Work& work) {
  return work.kind == WorkKind::paving || work.kind == WorkKind::building;
}

WorkMap::Entry entry_of(const Work& work) {
  WorkMap::Entry entry;
  entry.work = &work;
  entry.id = work.id;
  if (work.shape.empty() && work.bore_pits.empty()) return entry;
  entry.ground = footprint(work);
  entry.with_room = footprint(work, true);
  if (work.working_room) entry.room = difference_of(entry.with_room, entry.ground);
  entry.box = box_of(entry.with_room);
  return entry;
}

// What is sealed or built on before the new works begin.
std::vector<MultiPolygon> surfaced_today(const Site& site,
                                         const std::vector<WorkMap::Entry>& entries) {
  std::vector<MultiPolygon> parts;
  for (const Surface& surface : site.surfaces) parts.push_back(surface.area);
  for (const Barrier& barrier : site.barriers) {
    if (barrier.kind == BarrierKind::building) parts.push_back(barrier.shape.areas);
  }
  for (const WorkMap::Entry& entry : entries) {
    if (!is_new(*entry.work) && is_hard_surface(*entry.work)) parts.push_back(entry.ground);
  }
  return parts;
}

// What of `ground` is not surfaced today, polygon by polygon.
std::vector<MultiPolygon> bare(const MultiPolygon& ground, const MergedGround& surfaced) {
  std::vector<MultiPolygon> parts;
  for (const Polygon& polygon : ground) {
    const MultiPolygon there = surfaced.meeting(box_of(polygon.outer));
    parts.push_back(there.empty() ? MultiPolygon{polygon} : difference_of({polygon}, there));
  }
  return parts;
}

}  // namespace

bool is_new(const Work& work) {
  return work.state != WorkState::existing;
}

bool severs(const Work& work) {
  return work.digs() || work.kind == WorkKind::root_cut;
}

Length severed_depth(const Work& work) {
  if (!severs(work)) return {};
  const Length depth = depth_of(work);
  if (work.kind != WorkKind::bore || !work.bore_diameter) return depth;
  return depth + work.bore_diameter->length();
}

WorkMap::WorkMap(const Site& site) {
  for (const Work& work : site.works) entries_.push_back(entry_of(work));
  lay_together(site, {});
}

// The others stand in the same order as before.
WorkMap::WorkMap(const Site& site, const WorkMap& before, std::string_view changed) {
  auto old = before.entries_.begin();
  for (const Work& work : site.works) {
    if (work.id == changed) {
      entries_.push_back(entry_of(work));
      continue;
    }
    while (old->id == changed) ++old;
    entries_.push_back(*old++);
    entries_.back().work = &work;
  }
  lay_together(site, before);
  for (const auto ground : {&WorkMap::affected_, &WorkMap::footprint_, &WorkMap::existing_,
                            &WorkMap::surfaced_, &WorkMap::hard_, &WorkMap::new_surfacing_}) {
    const std::vector<Box> boxes = (this->*ground).changed_since(before.*ground);
    merged_anew_.insert(merged_anew_.end(), boxes.begin(), boxes.end());
  }
}

void WorkMap::lay_together(const Site& site, const WorkMap& before) {
  std::vector<Box> boxes;
  std::vector<MultiPolygon> affected, ground, existing, hard;
  for (const Entry& entry : entries_) {
    const Work& work = *entry.work;
    boxes.push_back(entry.box);
    (is_new(work) ? ground : existing).push_back(entry.ground);
    if (!is_new(work)) continue;
    affected.push_back(entry.with_room);
    if (is_hard_surface(work)) hard.push_back(entry.ground);
  }
  places_ = BoxIndex(boxes);
  affected_ = MergedGround(affected, before.affected_);
  footprint_ = MergedGround(ground, before.footprint_);
  existing_ = MergedGround(existing, before.existing_);
  surfaced_ = MergedGround(surfaced_today(site, entries_), before.surfaced_);
  hard_ = MergedGround(hard, before.hard_);
  new_surfacing_ = MergedGround(bare(hard_.all(), surfaced_), before.new_surfacing_);
}

const WorkMap::Entry& WorkMap::entry(std::string_view work) const {
  for (const Entry& entry : entries_) {
    if (entry.work->id == work) return entry;
  }
  assert(false && "no such work in this site");
  return entries_.front();
}

std::vector<std::size_t> WorkMap::near(const Point& at, Length reach) const {
  std::vector<std::size_t> found = places_.near(at, reach);
  const auto too_far = [&](std::size_t i) {
    return distance_between(at, entries_[i].with_room) > reach;
  };
  found.erase(std::remove_if(found.begin(), found.end(), too_far), found.end());
  return found;
}

MultiPolygon WorkMap::ground_of(std::string_view work) const {
  for (const Entry& entry : entries_)
    if (entry.id == work) return entry.with_room;
  return {};
}

MultiPolygon WorkMap::surfaced_near(const Point& at, Length reach) const {
  return surfaced_.near(at, reach);
}

}  // namespace rootstead
