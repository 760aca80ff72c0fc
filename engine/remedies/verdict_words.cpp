// The sentences of a verdict.
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

// "the Root protection area of BS 5837:2012, root protection area"
std::string zone_words(const LimitResult& result, const Tables& tables) {
  const ZoneRule* rule = rule_of(result, tables);
  const ZoneDefinition* zone = zone_of(result, tables);
  const std::string zone_name = zone ? zone->name : result.zone;
  return "the zone \"" + zone_name + "\" (" + (rule ? rule->id : result.rule) + ")";
}

// What was found against what is allowed.
std::string finding_words(const LimitResult& r, Measure measure, const std::string& zone,
                          const VerdictCase& c) {
  const auto metres = [&](double v) { return length_text(Length::metres(v), c.in.units); };
  const std::string limit = "the limit is " + percent(r.threshold);
  switch (measure) {
    case Measure::area_share:
      return "takes " + percent(r.value) + " of " + zone + "; " + limit;
    case Measure::trench_side:
      return "takes or cuts off " + percent(r.value) + " of " + zone + "; " + limit;
    case Measure::unsurfaced_share:
      return "surfaces " + percent(r.value) + " of the ground in " + zone +
             " that is bare today; " + limit;
    case Measure::any_entry:
      return "enters " + zone;
    case Measure::nearest_approach:
      return "comes within " + percent(r.value) + " of the radius of " + zone + "; the least is " +
             percent(r.threshold);
    case Measure::nearest_distance:
      return "comes within " + metres(r.value) + " in " + zone + "; the least is " +
             metres(r.threshold);
    case Measure::level_change:
      return "changes the ground level by " + metres(r.value) + " in " + zone + "; the limit is " +
             metres(r.threshold);
  }
  return "reaches " + zone;
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
  if (units == UnitSystem::metric) return fixed_number(length.metres(), 2) + " m";
  return fixed_number(in_unit(length, LengthUnit::foot), 1) + " ft";
}

std::string cited(const Citation& from) {
  std::string text = from.source;
  if (!from.place.empty()) text += ", " + from.place;
  return text + "; " + std::string(to_text(from.status));
}

std::string range_text(const Range& share) {
  return percent(share.best, 0) + " (" + percent(share.low, 0) + " to " + percent(share.high, 0) +
         ")";
}

Reason reason_of(const LimitResult& result, const VerdictCase& c, Reason::About about) {
  const LimitDefinition* definition = definition_of(result, c.tables);
  const Measure measure = definition ? definition->measure : Measure::area_share;
  Reason reason;
  reason.about = about;
  reason.rule = result.rule;
  reason.limit = result.limit;
  reason.work = result.works.empty() ? "" : result.works.front();
  const std::string together = result.works.size() > 1 ? " together: " : " ";
  reason.text = names_of(result.works, c) + together +
                finding_words(result, measure, zone_words(result, c.tables), c) + ": " +
                result.triggers + " (" + cited(result.figure.from) + ").";
  return reason;
}

}  // namespace rootstead
