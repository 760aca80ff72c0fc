// The sentences of a verdict.
#include <algorithm>

#include "engine/base/text.hpp"
#include "engine/remedies/verdict_case.hpp"

namespace rootstead {
namespace {

using Measure = LimitDefinition::Measure;

const ZoneRule* rule_of(const LimitResult& result, const Tables& tables) {
  return tables.rule(result.rule);
}

const LimitDefinition* definition_of(const LimitResult& result, const Tables& tables) {
  const ZoneRule* rule = rule_of(result, tables);
  if (rule == nullptr) return nullptr;
  for (const LimitDefinition& limit : rule->limits) {
    if (limit.id == result.limit && limit.zone == result.zone) return &limit;
  }
  return nullptr;
}

const ZoneDefinition* zone_of(const LimitResult& result, const Tables& tables) {
  const ZoneRule* rule = rule_of(result, tables);
  if (rule == nullptr) return nullptr;
  for (const ZoneDefinition& zone : rule->zones) {
    if (zone.id == result.zone) return &zone;
  }
  return nullptr;
}

// "the zone "Root protection area" (bs5837-2012)"
std::string zone_words(const LimitResult& result, const Tables& tables) {
  const ZoneRule* rule = rule_of(result, tables);
  const ZoneDefinition* zone = zone_of(result, tables);
  const std::string zone_name = zone ? zone->name : result.zone;
  return "the zone \"" + zone_name + "\" (" + (rule ? rule->id : result.rule) + ")";
}

// What was found, by which works, against what is allowed.
std::string finding_words(const LimitResult& r, Measure measure, const VerdictCase& c) {
  const std::string zone = zone_words(r, c.tables);
  const std::string works = names_of(r.works, c);
  const auto metres = [&](double v) { return length_text(Length::metres(v), c.in.units); };
  const std::string limit = ", where the limit is " + percent(r.threshold);
  switch (measure) {
    case Measure::area_share:
      return percent(r.value) + " of " + zone + " taken by " + works + limit;
    case Measure::trench_side:
      return percent(r.value) + " of " + zone + " taken or cut off by " + works + limit;
    case Measure::unsurfaced_share:
      return percent(r.value) + " of the ground in " + zone +
             " that is bare today would be surfaced by " + works + limit;
    case Measure::any_entry:
      return "Ground of " + zone + " entered by " + works;
    case Measure::nearest_approach:
      return percent(r.value) + " of the radius of " + zone + " left free by " + works +
             ", where the least is " + percent(r.threshold);
    case Measure::nearest_distance:
      return "Only " + metres(r.value) + " left free by " + works + ", where " + zone +
             " asks for " + metres(r.threshold);
    case Measure::level_change:
      return "Ground of " + zone + " raised or lowered by up to " + metres(r.value) + " by " +
             works + ", where the limit is " + metres(r.threshold);
  }
  return "Ground of " + zone + " entered by " + works;
}

}  // namespace

std::string names_of(const std::vector<std::string>& works, const VerdictCase& c) {
  std::vector<std::string> names;
  for (const std::string& id : works) {
    const Work* work = c.work(id);
    const bool named = work && !work->name.empty() && work->name != id;
    names.push_back(named ? id + " (" + work->name + ")" : id);
  }
  return joined(names, ", ");
}

std::string length_text(Length length, UnitSystem units) {
  return AmountText{units}.length(length);
}

std::string range_text(const Range& share) {
  // Finer where it is small, as beside every bar of the report.
  constexpr double kSmall = 0.1;
  const auto words = [](double v) { return percent(v, v != 0 && v < kSmall ? 1 : 0); };
  const std::string best = words(share.best), low = words(share.low), high = words(share.high);
  return low == high ? best : best + " (" + low + " to " + high + ")";
}

bool is_within_another(const LimitResult& result, const VerdictCase& c) {
  const LimitDefinition* own = definition_of(result, c.tables);
  if (own == nullptr || own->measure != Measure::any_entry) return false;
  return std::any_of(c.in.limits.begin(), c.in.limits.end(), [&](const LimitResult& other) {
    const LimitDefinition* larger = definition_of(other, c.tables);
    return larger != nullptr && other.passed_over && other.rule == result.rule &&
           other.zone == result.zone && other.weight > result.weight &&
           larger->measure == Measure::area_share;
  });
}

Reason reason_of(const LimitResult& result, const VerdictCase& c, Reason::About about) {
  const LimitDefinition* definition = definition_of(result, c.tables);
  const Measure measure = definition ? definition->measure : Measure::area_share;
  Reason reason;
  reason.about = about;
  reason.rule = result.rule;
  reason.limit = result.limit;
  reason.work = result.works.empty() ? "" : result.works.front();
  reason.text = finding_words(result, measure, c) + ": " + result.triggers + " (" +
                cited(result.figure.from) + ").";
  return reason;
}

}  // namespace rootstead
