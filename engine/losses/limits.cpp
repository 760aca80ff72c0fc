#include <cassert>

#include "engine/base/text.hpp"
#include "engine/losses/limit_case.hpp"

namespace rootstead {
namespace {

using Measure = LimitDefinition::Measure;

Finding found(const LimitCase& c) {
  switch (c.limit.measure) {
    case Measure::area_share:
      return area_share(c);
    case Measure::unsurfaced_share:
      return unsurfaced_share(c);
    case Measure::any_entry:
      return any_entry(c);
    case Measure::nearest_approach:
      return nearest_approach(c);
    case Measure::nearest_distance:
      return nearest_distance(c);
    case Measure::level_change:
      return level_change(c);
    case Measure::trench_side:
      return trench_side(c);
  }
  return {};
}

LimitResult result_of(const LimitCase& c) {
  Finding f = found(c);
  LimitResult result;
  result.rule = c.rule.id;
  result.zone = c.zone.zone;
  result.limit = c.limit.id;
  result.passed_over = f.passed;
  result.value = f.value;
  result.threshold = f.threshold;
  result.weight = c.limit.weight;
  result.triggers = c.limit.triggers;
  result.works = std::move(f.works);
  result.figure.name = c.rule.id + "." + c.zone.zone + "." + c.limit.id;
  result.figure.value = f.value;
  result.figure.unit = std::move(f.unit);
  result.figure.inputs = std::move(f.inputs);
  result.figure.inputs.push_back({"threshold", c.limit.triggers, shortest_number(f.threshold)});
  result.figure.formula = std::move(f.formula);
  result.figure.from = c.limit.from;
  return result;
}

}  // namespace

std::vector<LimitResult> check_limits(const ZoneRule& rule, const std::vector<Zone>& zones,
                                      const std::vector<ZoneLoss>& losses, const Tree& tree,
                                      const WorkMap& works) {
  assert(zones.size() == losses.size());
  std::vector<LimitResult> results;
  for (std::size_t i = 0; i < zones.size(); ++i) {
    for (const LimitDefinition& limit : rule.limits) {
      if (limit.zone != zones[i].zone) continue;
      results.push_back(result_of(LimitCase{rule, limit, zones[i], losses[i], tree, works}));
    }
  }
  return results;
}

}  // namespace rootstead
