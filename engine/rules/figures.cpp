#include "engine/rules/figures.hpp"

#include <algorithm>
#include <set>

#include "engine/base/text.hpp"
#include "engine/rules/plain_figures.hpp"
#include "engine/rules/zone_builder.hpp"

namespace rootstead {
namespace {

constexpr std::string_view kAllZones = "zone";

// The inputs a definition can use.
void add_keys(const ZoneDefinition& definition, std::set<std::string>& keys) {
  using Kind = ZoneTerm::Kind;
  if (definition.centre == ZoneCentre::bark) keys.insert("stem");
  for (const ZoneTerm& term : definition.terms) {
    if (term.about_stem()) keys.insert("stem");
    if (term.about_crown()) keys.insert({"crown", "crown_n", "crown_e", "crown_s", "crown_w"});
    if (term.kind == Kind::height_multiple) keys.insert("height");
    if (term.kind == Kind::vigour_table) keys.insert({"tolerance", "stage", "species"});
  }
  if (keys.contains("stem")) keys.insert("girth");
  if (definition.measure == StemMeasure::basal) keys.insert("basal");
  const Applies& applies = definition.applies;
  keys.insert("form");
  if (!applies.conditions.empty()) keys.insert("condition");
  if (!applies.stages.empty()) keys.insert("stage");
  if (!applies.categories.empty()) keys.insert("category");
  if (!applies.taxa.empty()) keys.insert("species");
  if (applies.columnar) keys.insert("columnar");
  if (applies.leaning) keys.insert("lean");
}

std::vector<FigureInput> keys_for(const ZoneRule& rule, std::string_view zone,
                                  const std::vector<std::string>& more = {}) {
  std::set<std::string> keys(more.begin(), more.end());
  for (const ZoneDefinition& definition : rule.zones) {
    if (zone.empty() || definition.id == zone) add_keys(definition, keys);
  }
  if (keys.contains("columnar")) keys.insert("crown");
  return hand_keys({keys.begin(), keys.end()});
}

Figure area_figure(const Zone& zone) {
  Figure figure = zone.figure;
  figure.name = zone.rule + "." + zone.zone + ".area";
  figure.value = zone.area.square_metres();
  figure.unit = "m2";
  figure.formula += zone.outline ? "; A = area of the outline" : "; A = pi r^2";
  return figure;
}

Figure bark_figure(const Zone& zone) {
  Figure figure = zone.figure;
  figure.name = zone.rule + "." + zone.zone + ".radius-from-bark";
  figure.value = (zone.radius - zone.diameter / 2).metres();
  figure.formula += "; from the bark: r - D/2";
  return figure;
}

const ZoneDefinition* definition_of(const ZoneRule& rule, std::string_view zone) {
  const auto found = std::find_if(rule.zones.begin(), rule.zones.end(),
                                  [&](const ZoneDefinition& other) { return other.id == zone; });
  return found == rule.zones.end() ? nullptr : &*found;
}

std::vector<Figure> figures_of_zone(const ZoneRule& rule, const Zone& zone) {
  std::vector<Figure> figures{zone.figure, area_figure(zone)};
  const ZoneDefinition* definition = definition_of(rule, zone.zone);
  if (definition != nullptr && definition->centre == ZoneCentre::bark) {
    figures.push_back(bark_figure(zone));
  }
  return figures;
}

// What a rule's limit allows in one zone: an area, or a distance from the stem centre.
struct Allowance {
  std::string unit;
  std::string meaning;
};

std::optional<Allowance> allowance_of(const LimitDefinition& limit) {
  using Measure = LimitDefinition::Measure;
  switch (limit.measure) {
    case Measure::area_share:
    case Measure::trench_side:
      return Allowance{"m2", "area of the zone that may be affected"};
    case Measure::unsurfaced_share:
      return Allowance{"m2", "area that may be newly surfaced"};
    case Measure::nearest_approach:
      return Allowance{"m", "nearest distance to the zone's centre that is allowed"};
    case Measure::nearest_distance:
    case Measure::any_entry:
    case Measure::level_change:
      return std::nullopt;
  }
  return std::nullopt;
}

// One name a person can ask for, and how it is answered.
struct RuleFigure {
  FigureKind kind;
  const ZoneRule* rule = nullptr;
  std::string zone;                        // empty: all
  std::string part;                        // "radius", "area", "radius-from-bark"; empty: all
  const LimitDefinition* limit = nullptr;  // an allowance
};

void add_zone_figures(const ZoneRule& rule, const ZoneDefinition& zone,
                      std::vector<RuleFigure>& figures) {
  const std::string name = rule.id + "." + zone.id;
  const auto keys = keys_for(rule, zone.id);
  figures.push_back(
      {{name, "m", zone.name + ": radius and area", keys}, &rule, zone.id, "", nullptr});
  figures.push_back({{name + ".radius", "m", zone.name + ": radius from the stem centre", keys},
                     &rule,
                     zone.id,
                     "radius",
                     nullptr});
  figures.push_back(
      {{name + ".area", "m2", zone.name + ": area", keys}, &rule, zone.id, "area", nullptr});
  if (zone.centre != ZoneCentre::bark) return;
  figures.push_back(
      {{name + ".radius-from-bark", "m", zone.name + ": radius counted from the bark", keys},
       &rule,
       zone.id,
       "radius-from-bark",
       nullptr});
}

void add_limit_figure(const ZoneRule& rule, const LimitDefinition& limit,
                      std::vector<RuleFigure>& figures) {
  const auto allowance = allowance_of(limit);
  if (!allowance) return;
  const bool area = allowance->unit == "m2";
  const bool unsurfaced = limit.measure == LimitDefinition::Measure::unsurfaced_share;
  std::vector<std::string> more{area ? "area" : "radius"};
  if (unsurfaced) more.push_back("surfaced");
  figures.push_back({{rule.id + "." + limit.id, allowance->unit,
                      allowance->meaning + " before this holds: " + limit.triggers,
                      keys_for(rule, limit.zone, more)},
                     &rule,
                     limit.zone,
                     "",
                     &limit});
}

std::vector<RuleFigure> rule_figures(const Tables& tables) {
  std::vector<RuleFigure> figures;
  for (const ZoneRule& rule : tables.rules) {
    figures.push_back({{rule.id + "." + std::string(kAllZones), "m",
                        rule.title + ": radius and area of every zone", keys_for(rule, "")},
                       &rule,
                       "",
                       "",
                       nullptr});
    std::set<std::string> named;
    for (const ZoneDefinition& zone : rule.zones) {
      if (named.insert(zone.id).second) add_zone_figures(rule, zone, figures);
    }
    for (const LimitDefinition& limit : rule.limits) add_limit_figure(rule, limit, figures);
  }
  return figures;
}

std::string example_for(const std::string& message) {
  for (const FigureInput& key : hand_keys()) {
    const bool fits = message.find(key.symbol) != std::string::npos;
    if (fits) return "add it, e.g. " + key.symbol + "=" + key.value;
  }
  return "add it";
}

Error in_words_of_figure(const Error& error, std::string_view name) {
  Error told = error;
  told.subject = std::string(name);
  if (error.code == Code::missing_measurement) {
    told.code = Code::wrong_use;
    told.remedy = example_for(error.message);
  }
  return told;
}

// Tolerance and growth form as given, else as the species has them.
void fill_from_species(const Tables& tables, HandInput& input) {
  const Species* species = tables.species_of(input.tree.botanical_name);
  if (species == nullptr) return;
  if (input.tolerance == Tolerance::unknown) input.tolerance = species->tolerance;
  if (input.tree.form == GrowthForm::unknown) input.tree.form = species->form;
}

// All zones asked for; a zone that is for this tree but lacks a measurement fails the whole.
Result<std::vector<Zone>> zones_asked_for(const RuleFigure& asked, const HandInput& input) {
  ZoneRule rule = *asked.rule;
  std::erase_if(rule.zones, [&](const ZoneDefinition& zone) {
    return !asked.zone.empty() && zone.id != asked.zone;
  });
  ROOTSTEAD_TRY(std::vector<Zone> zones, zones_for(input.tree, input.tolerance, rule, {}));
  const TreeSize size = size_of(input.tree, input.tolerance, rule);
  for (const ZoneDefinition& zone : rule.zones) {
    const bool there = std::any_of(zones.begin(), zones.end(),
                                   [&](const Zone& other) { return other.zone == zone.id; });
    if (there || !applies_to(zone.applies, input.tree)) continue;
    const auto failed = build_zone(zone, size, rule, {});
    if (!failed) return failed.error();
  }
  return zones;
}

Result<Figure> allowance(const RuleFigure& asked, const HandInput& input) {
  const LimitDefinition& limit = *asked.limit;
  const bool distance = asked.kind.unit == "m";
  Figure figure;
  Length radius = input.radius.value_or(Length());
  Area area = input.area.value_or(Area());
  if (distance ? !input.radius : !input.area) {
    ROOTSTEAD_TRY(const std::vector<Zone> zones, zones_asked_for(asked, input));
    figure = zones.front().figure;
    figure.formula += "; ";
    radius = zones.front().radius;
    area = zones.front().area;
  } else {
    figure.inputs = input.given;
  }
  const Area surfaced = input.surfaced.value_or(Area());
  const double share = limit.threshold;
  if (distance)
    figure.value = share * radius.metres();
  else
    figure.value = share * std::max(0.0, (area - surfaced).square_metres());
  const bool unsurfaced = limit.measure == LimitDefinition::Measure::unsurfaced_share;
  figure.formula += "limit = " + shortest_number(share) +
                    (distance     ? " r"
                     : unsurfaced ? " (A - A surfaced today)"
                                  : " A");
  if (input.surfaced && !input.area) {
    figure.inputs.push_back({"A surfaced today", "ground in the zone that is surfaced today",
                             fixed_number(surfaced.square_metres(), 3) + " m2"});
  }
  figure.name = asked.kind.name;
  figure.unit = asked.kind.unit;
  const Status of_zone = figure.from.source.empty() ? limit.from.status : figure.from.status;
  figure.from = limit.from;
  figure.from.status = weaker(of_zone, limit.from.status);
  return figure;
}

Result<std::vector<Figure>> answer(const Tables& tables, const RuleFigure& asked,
                                   const FigureArguments& arguments) {
  ROOTSTEAD_TRY(HandInput input, read_arguments(asked.kind.name, arguments, asked.kind.inputs));
  fill_from_species(tables, input);
  if (asked.limit != nullptr) {
    ROOTSTEAD_TRY(Figure one, allowance(asked, input));
    return std::vector<Figure>{std::move(one)};
  }
  ROOTSTEAD_TRY(const std::vector<Zone> zones, zones_asked_for(asked, input));
  std::vector<Figure> figures;
  for (const Zone& zone : zones) {
    for (Figure& figure : figures_of_zone(*asked.rule, zone)) {
      if (asked.part.empty() || figure.name.ends_with("." + asked.part)) {
        figures.push_back(std::move(figure));
      }
    }
  }
  return figures;
}

Result<std::vector<Figure>> answer(const PlainFigure& asked, const FigureArguments& arguments) {
  ROOTSTEAD_TRY(const HandInput input,
                read_arguments(asked.kind.name, arguments, asked.kind.inputs));
  ROOTSTEAD_TRY(Figure one, asked.compute(input));
  one.name = asked.kind.name;
  one.inputs = input.given;
  return std::vector<Figure>{std::move(one)};
}

}  // namespace

std::vector<FigureKind> rule_figure_kinds(const Tables& tables) {
  std::vector<FigureKind> kinds;
  for (const RuleFigure& figure : rule_figures(tables)) kinds.push_back(figure.kind);
  for (const PlainFigure& figure : plain_figures()) kinds.push_back(figure.kind);
  std::sort(kinds.begin(), kinds.end(),
            [](const FigureKind& a, const FigureKind& b) { return a.name < b.name; });
  return kinds;
}

Result<std::vector<Figure>> rule_figure(const Tables& tables, std::string_view name,
                                        const FigureArguments& arguments) {
  for (const PlainFigure& plain : plain_figures()) {
    if (plain.kind.name == name) return answer(plain, arguments);
  }
  for (const RuleFigure& asked : rule_figures(tables)) {
    if (asked.kind.name != name) continue;
    auto figures = answer(tables, asked, arguments);
    if (!figures) return in_words_of_figure(figures.error(), name);
    return figures;
  }
  return Error{Code::unknown_name, "figure", "there is no figure \"" + std::string(name) + "\"",
               "list them with `rootstead figure --list`"};
}

}  // namespace rootstead
