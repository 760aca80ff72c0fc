// Limits that count distance or depth: how near a work comes, how much it raises or lowers ground.
#include <algorithm>

#include "engine/base/text.hpp"
#include "engine/geom/circle_area.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/losses/limit_case.hpp"
#include "engine/losses/taken_ground.hpp"

namespace rootstead {
namespace {

// The definition behind a zone: several may share an id, the name tells them apart.
const ZoneDefinition* definition_of(const LimitCase& c) {
  const ZoneDefinition* found = nullptr;
  for (const ZoneDefinition& definition : c.rule.zones) {
    if (definition.id != c.zone.zone) continue;
    if (definition.name == c.zone.name) return &definition;
    if (found == nullptr) found = &definition;
  }
  return found;
}

// What lies between the stem centre and where the rule begins to count.
Length counted_from(const LimitCase& c) {
  const ZoneDefinition* definition = definition_of(c);
  if (definition == nullptr || definition->centre == ZoneCentre::stem_centre) return {};
  if (c.zone.diameter > Length()) return c.zone.diameter / 2;
  const auto diameter = combined_diameter(c.tree, c.rule.diameter);
  return diameter.ok() ? *diameter / 2 : Length();
}

struct Near {
  Length distance;  // from where the rule counts; `reach` where no work is nearer
  std::vector<std::string> works;
};
Near nearest_works(const LimitCase& c, Length from, Length reach) {
  Near near{reach - from, {}};
  std::vector<WeighedWork> weighed;
  for (const std::size_t i : c.works.near(c.plan.centre(), reach)) {
    const WorkMap::Entry& entry = c.works.entries()[i];
    if (!is_new(*entry.work) || !is_among(c.limit.kinds, entry.work->kind)) continue;
    const Length at = distance_between(c.plan.centre(), entry.with_room);
    if (at > reach) continue;
    near.distance = std::min(near.distance, std::max(at - from, Length()));
    weighed.push_back({entry.work->id, -at.metres()});
  }
  near.works = heaviest_first(std::move(weighed));
  return near;
}

void say_nearest(const Near& near, Length from, Length reach, Finding& f) {
  f.inputs.push_back({"d",
                      near.works.empty() ? "no new work is nearer than"
                                         : "distance of the nearest ground of a new work",
                      text_of(near.distance)});
  if (from > Length()) f.inputs.push_back({"D/2", "counted from the bark", text_of(from)});
  if (near.works.empty()) f.inputs.push_back({"reach", "searched from the stem", text_of(reach)});
}

// Where a rule names no kinds: works that leave, or for a while make, the ground higher or lower.
bool changes_level(const LimitDefinition& limit, WorkKind kind) {
  static const std::vector<WorkKind> kLevelKinds = {WorkKind::cut, WorkKind::fill, WorkKind::pit,
                                                    WorkKind::trench, WorkKind::building};
  return is_among(limit.kinds.empty() ? kLevelKinds : limit.kinds, kind);
}

}  // namespace

Finding nearest_approach(const LimitCase& c) {
  const Length from = counted_from(c);
  const Length radius = c.zone.radius - from;
  const Length reach = from + radius * std::max(c.limit.threshold, 1.0);
  const Near near = nearest_works(c, from, reach);
  Finding f{.value = radius > Length() ? near.distance / radius : 0.0,
            .threshold = c.limit.threshold};
  f.formula = "ratio = d / r";
  say_nearest(near, from, reach, f);
  f.inputs.push_back({"r", "zone radius, counted from the same place", text_of(radius)});
  f.works = near.works;
  f.passed = !near.works.empty() && is_below(f, c.limit.inclusive);
  return f;
}

Finding nearest_distance(const LimitCase& c) {
  const Length from = counted_from(c);
  const Length threshold = c.limit.depth.length();
  const Length reach = std::max(from + threshold, c.plan.reach());
  const Near near = nearest_works(c, from, reach);
  Finding f{.value = near.distance.metres(), .threshold = threshold.metres(), .unit = "m"};
  f.formula = "d, at least " + to_text(c.limit.depth);
  say_nearest(near, from, reach, f);
  f.works = near.works;
  f.passed = !near.works.empty() && is_below(f, c.limit.inclusive);
  return f;
}

Finding level_change(const LimitCase& c) {
  const Circle inner{c.plan.centre(), c.zone.radius * c.limit.within};
  std::vector<WeighedWork> weighed;
  for (const std::size_t i : c.works.near(inner.centre, inner.radius)) {
    const WorkMap::Entry& entry = c.works.entries()[i];
    if (!is_new(*entry.work) || !changes_level(c.limit, entry.work->kind)) continue;
    if (!c.plan.counts(common_area(inner, entry.ground))) continue;
    weighed.push_back({entry.work->id, depth_of(*entry.work).metres()});
  }
  Finding f{.threshold = c.limit.depth.length().metres(), .unit = "m"};
  for (const WeighedWork& one : weighed) f.value = std::max(f.value, one.weight);
  f.formula = "deepest cut or fill within " + shortest_number(c.limit.within) + " r";
  f.inputs = {{"r", "zone radius", text_of(c.zone.radius)},
              {"h", "deepest cut or fill there", text_of(Length::metres(f.value))}};
  f.works = heaviest_first(std::move(weighed));
  f.passed = !f.works.empty() && is_above(f, c.limit.inclusive);
  return f;
}

}  // namespace rootstead
