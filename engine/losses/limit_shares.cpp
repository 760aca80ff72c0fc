// Limits that count area: shares of a zone, and whether it is entered at all.
#include <algorithm>

#include "engine/geom/overlay.hpp"
#include "engine/losses/limit_case.hpp"
#include "engine/losses/taken_ground.hpp"

namespace rootstead {
namespace {

// The new works inside the zone that the limit counts, weighed by the area they take.
std::vector<WeighedWork> by_area(const LimitCase& c) {
  std::vector<WeighedWork> weighed;
  for (const ZoneLoss::ByWork& by : c.loss.by_work) {
    if (by.existing || !is_among(c.limit.kinds, c.works.entry(by.work).work->kind)) continue;
    weighed.push_back({by.work, by.affected.square_metres()});
  }
  return weighed;
}

bool counts_all_works(const LimitCase& c) {
  const auto counted = [&](const ZoneLoss::ByWork& by) {
    return by.existing || is_among(c.limit.kinds, c.works.entry(by.work).work->kind);
  };
  return std::all_of(c.loss.by_work.begin(), c.loss.by_work.end(), counted);
}

Area affected_by_kinds(const LimitCase& c) {
  if (counts_all_works(c)) return c.loss.affected;
  return taken_area(c.plan, c.works, c.limit.kinds, Hidden::left_out);
}

// New surfacing by the limit's kinds: what it covers that is not surfaced today.
Area new_surfacing(const LimitCase& c) {
  if (c.limit.kinds.empty()) return c.loss.new_surfacing;
  std::vector<MultiPolygon> parts;
  for (const WeighedWork& one : by_area(c)) parts.push_back(c.works.entry(one.work).ground);
  if (parts.empty()) return {};  // most trees of a large site; its paving may be one huge polygon
  const MultiPolygon bare =
      difference_of(union_of(parts), c.works.surfaced_near(c.plan.centre(), c.plan.reach()));
  return c.plan.common(bare);
}

}  // namespace

Finding area_share(const LimitCase& c) {
  const Area affected = affected_by_kinds(c);
  Finding f{.value = c.plan.share_of(affected), .threshold = c.limit.threshold};
  f.formula = "share = A_affected / A_zone";
  f.inputs = {{"A_affected", "zone area taken by new works and their working room, counted once",
               text_of(affected)},
              {"A_zone", "zone area", text_of(c.zone.area)}};
  f.works = heaviest_first(by_area(c));
  f.passed = !f.works.empty() && is_above(f, c.limit.inclusive);
  return f;
}

Finding trench_side(const LimitCase& c) {
  const Area affected = affected_by_kinds(c);
  const Area all = counts_all_works(c) && c.loss.beyond
                       ? c.loss.affected + *c.loss.beyond
                       : taken_area(c.plan, c.works, c.limit.kinds, Hidden::counted);
  Finding f{.value = c.plan.share_of(all), .threshold = c.limit.threshold};
  f.formula = "share = (A_affected + A_beyond) / A_zone";
  f.inputs = {{"A_affected", "zone area taken by new works and their working room, counted once",
               text_of(affected)},
              {"A_beyond", "zone area behind severing works as seen from the stem",
               text_of(std::max(all - affected, Area()))},
              {"A_zone", "zone area", text_of(c.zone.area)}};
  f.works = heaviest_first(by_area(c));
  f.passed = !f.works.empty() && is_above(f, c.limit.inclusive);
  return f;
}

Finding unsurfaced_share(const LimitCase& c) {
  const Area hard = new_surfacing(c);
  const Area bare = c.loss.unsurfaced;
  const bool any = c.plan.counts(hard);
  Finding f{.value = any ? std::min(hard / std::max(bare, hard), 1.0) : 0.0,
            .threshold = c.limit.threshold};
  f.formula = "share = A_new / (A_zone - A_surfaced)";
  f.inputs = {{"A_new", "zone area newly surfaced or built on, bare today", text_of(hard)},
              {"A_surfaced", "zone area surfaced or built on today", text_of(c.zone.area - bare)},
              {"A_zone", "zone area", text_of(c.zone.area)},
              {"A_limit", "new surfacing at the threshold", text_of(bare * c.limit.threshold)}};
  std::vector<WeighedWork> weighed;
  for (WeighedWork& one : by_area(c)) {
    const Work& work = *c.works.entry(one.work).work;
    const bool hard_kind = work.kind == WorkKind::paving || work.kind == WorkKind::building;
    if (hard_kind || !c.limit.kinds.empty()) weighed.push_back(std::move(one));
  }
  f.works = heaviest_first(std::move(weighed));
  f.passed = any && is_above(f, c.limit.inclusive);
  return f;
}

Finding any_entry(const LimitCase& c) {
  const Area affected = affected_by_kinds(c);
  Finding f{.value = c.plan.share_of(affected), .threshold = 0};
  f.formula = "entered where A_affected > 0";
  f.inputs = {{"A_affected", "zone area taken by new works and their working room, counted once",
               text_of(affected)},
              {"A_zone", "zone area", text_of(c.zone.area)}};
  f.works = heaviest_first(by_area(c));
  f.passed = c.plan.counts(affected) && !f.works.empty();
  return f;
}

}  // namespace rootstead
