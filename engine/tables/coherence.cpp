#include <algorithm>
#include <set>

#include "engine/base/nearest.hpp"
#include "engine/tables/distribution.hpp"
#include "engine/tables/rule_faults.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {
namespace {

std::string subject_of(const ZoneRule& rule, const RuleFault& fault) {
  const std::string whole = "rule " + (rule.id.empty() ? rule.file : rule.id);
  switch (fault.part) {
    case RuleFault::Part::rule:
      return whole;
    case RuleFault::Part::zone:
      return whole + ", zone " + rule.zones[fault.index].id;
    case RuleFault::Part::limit:
      return whole + ", limit " + rule.limits[fault.index].id;
  }
  return whole;
}

constexpr double kLightestWood = 0.05, kHeaviestWood = 1.5;  // g/cm3, oven-dry mass by green volume
constexpr double kHeaviestSoil = 2.3;                        // g/cm3, oven dry

class Coherence {
 public:
  explicit Coherence(const std::vector<Source>& sources) {
    for (const Source& source : sources) ids_.push_back(source.id);
  }

  void unknown_source(const Citation& citation, const std::string& subject) {
    if (std::find(ids_.begin(), ids_.end(), citation.source) != ids_.end()) return;
    error(subject, "the source \"" + citation.source + "\" is not in sources.csv",
          citation.source.empty() ? "name the source" : suggestion(citation.source, ids_));
  }

  void error(std::string subject, std::string message, std::string remedy) {
    errors.push_back(
        {Code::table_incoherent, std::move(subject), std::move(message), std::move(remedy)});
  }

  template <class Rows, class Name>
  void unique(const Rows& rows, const std::string& table, Name name) {
    std::set<std::string> seen;
    for (const auto& row : rows) {
      if (name(row).empty()) error(table, "a row has no name", "fill its first column");
      if (!seen.insert(name(row)).second) {
        error(table, "\"" + name(row) + "\" is there twice", "keep one of the two");
      }
    }
  }

  void rule(const ZoneRule& rule) {
    for (const RuleFault& fault : faults_of(rule)) {
      error(subject_of(rule, fault), fault.message, fault.remedy);
    }
    for (const ZoneDefinition& zone : rule.zones) {
      unknown_source(zone.from, "rule " + rule.id + ", zone " + zone.id);
    }
    for (const LimitDefinition& limit : rule.limits) {
      unknown_source(limit.from, "rule " + rule.id + ", limit " + limit.id);
    }
  }

  void species(const Species& row) {
    const std::string subject = "species.csv, " + row.botanical_name;
    if (row.form == GrowthForm::unknown) error(subject, "the growth form is missing", "fill it");
    if (row.architecture != RootArchitecture::unknown) {
      unknown_source(row.architecture_from, subject);
    }
    if (row.tolerance != Tolerance::unknown) unknown_source(row.tolerance_from, subject);
    if (row.palm_top_share && (*row.palm_top_share <= 0 || *row.palm_top_share > 1)) {
      error(subject, "palm_top_share is no share", "give a number above 0 and up to 1");
    }
  }

  void parameter(const Parameter& row) {
    const std::string subject = "data/parameters, " + row.id;
    if (row.low > row.best || row.best > row.high) {
      error(subject, "low, best and high do not rise", "order the three");
    } else if (!Distribution::of(row)) {
      error(subject, "\"" + row.spread + "\" is no spread",
            "write fixed, uniform, triangular, or normal or lognormal with its standard deviation");
    }
    unknown_source(row.from, subject);
  }

  void resistance(const AnchorageResistance& row) {
    const std::string subject = "anchorage_resistance.csv, " + row.botanical_name;
    unknown_source(row.from, subject);
    if (!(row.least > 0 && row.least <= row.middle() && row.middle() <= row.most))
      error(subject, "least, middle and most do not rise from above zero", "order the three");
    if (row.sd_ln <= 0 || row.trees <= 0)
      error(subject, "the spread or the number of trees is not above zero", "check the row");
  }

  void drag(const CrownDrag& row) {
    const std::string subject = "crown_drag.csv, " + row.taxon;
    unknown_source(row.from, subject);
    const Range& leaf = row.in_leaf;
    if (!(leaf.low > 0 && leaf.low <= leaf.best && leaf.best <= leaf.high))
      error(subject, "low, best and high do not rise from above zero", "order the three");
  }

  void crown_width(const CrownWidth& row) {
    const std::string subject = "crown_widths.csv, " + row.botanical_name;
    unknown_source(row.from, subject);
    if (row.ft_per_in <= 0)
      error(subject, "the crown does not widen with the stem", "check the row");
    if (row.ft_per_in2 > 0) error(subject, "the crown widens ever faster", "check the sign");
  }

  void wood_density(const WoodDensity& row) {
    const std::string subject = "wood_density.csv, " + row.botanical_name;
    unknown_source(row.from, subject);
    if (row.density < kLightestWood || row.density > kHeaviestWood)
      error(subject, "no wood has this density", "give it in g/cm3, e.g. 0.58");
    if (row.sd && *row.sd <= 0) error(subject, "the spread is not above zero", "leave it empty");
  }

  void density_limit(const BulkDensityLimit& row) {
    const std::string subject = "density_limits.csv, " + row.id;
    unknown_source(row.from, subject);
    double before = 0;
    for (const auto& limit : {row.ideal, row.affects, row.restricts}) {
      if (!limit) continue;
      if (*limit < before || *limit <= 0 || *limit > kHeaviestSoil)
        error(subject, "ideal, affects and restricts do not rise, or no soil is so dense",
              "give them in g/cm3, e.g. 1.55");
      before = *limit;
    }
    if (before <= 0) error(subject, "the row has no limit", "give one, in g/cm3");
  }

  void ground_pressure(const GroundPressure& row) {
    const std::string subject = "ground_pressures.csv, " + row.name;
    unknown_source(row.from, subject);
    for (const Range& range : {row.pressure, row.mass.value_or(row.pressure)})
      if (!(range.low > 0 && range.low <= range.best && range.best <= range.high))
        error(subject, "low, best and high do not rise from above zero", "order the three");
    if (row.supports < 1 || row.length_per_width <= 0)
      error(subject, "supports or length_per_width is no number of its kind", "check the row");
  }

  void protection(const GroundProtection& row) {
    const std::string subject = "ground_protection.csv, " + row.id;
    unknown_source(row.from, subject);
    if (row.plate_width.has_value() != row.plate_length.has_value())
      error(subject, "of the plate one side is missing", "give both or none");
    if (row.chips < 0 || row.plate_width.value_or(1) <= 0 || row.plate_length.value_or(1) <= 0)
      error(subject, "a thickness or size is below zero", "check the row");
    if (row.chips <= 0 && !row.plate_width) error(subject, "nothing is laid", "check the row");
  }

  void soil(const SoilTables& rows) {
    unique(rows.density_limits, "density_limits.csv", [](const auto& row) { return row.id; });
    unique(rows.ground_pressures, "ground_pressures.csv", [](const auto& row) { return row.name; });
    unique(rows.protections, "ground_protection.csv", [](const auto& row) { return row.id; });
    unique(rows.fill_rules, "fill_rules.csv", [](const auto& row) { return row.id; });
    unique(rows.fill_sensitivities, "fill_sensitivity.csv",
           [](const auto& row) { return row.botanical_name; });
    for (const auto& row : rows.density_limits) density_limit(row);
    for (const auto& row : rows.ground_pressures) ground_pressure(row);
    for (const auto& row : rows.protections) protection(row);
    for (const auto& row : rows.fill_rules) {
      unknown_source(row.from, "fill_rules.csv, " + row.id);
      if (row.thickness <= 0)
        error("fill_rules.csv, " + row.id, "the thickness is not above zero", "give it in m");
    }
    for (const auto& row : rows.fill_sensitivities)
      unknown_source(row.from, "fill_sensitivity.csv, " + row.botanical_name);
  }

  void submittal(const SubmittalItem& row) {
    using Answered = SubmittalItem::Answered;
    const std::string subject = "submittal.csv, " + row.id;
    for (const std::string& id : row.sources) unknown_source({id, "", row.status}, subject);
    if (row.item.empty() || row.group.empty())
      error(subject, "the item or its group is missing", "say in words what is asked for");
    if (row.sources.empty() && row.status == Status::published)
      error(subject, "a published item names no source", "name it, or change the status");
    if ((row.answered == Answered::from_data) == row.check.empty())
      error(subject, "a check belongs to an item answered by data, and only there",
            "fill or empty the column check");
    if (row.answered == Answered::from_output && row.output.empty())
      error(subject, "the output is missing", "name the output that answers it");
    if (row.answered == Answered::by_you && !row.output.empty())
      error(subject, "an item that you answer has no output", "empty the column output");
  }

  std::vector<Error> errors;

 private:
  std::vector<std::string> ids_;
};

}  // namespace

std::vector<Error> coherence(const ZoneRule& rule, const std::vector<Source>& sources) {
  Coherence check(sources);
  check.rule(rule);
  return std::move(check.errors);
}

std::vector<Error> coherence(const Tables& tables) {
  Coherence check(tables.sources);
  check.unique(tables.rules, "rules", [](const ZoneRule& row) { return row.id; });
  check.unique(tables.sources, "sources.csv", [](const Source& row) { return row.id; });
  check.unique(tables.parameters, "data/parameters", [](const Parameter& row) { return row.id; });
  const auto taxon = [](const auto& row) { return row.botanical_name; };
  check.unique(tables.species, "species.csv", taxon);
  check.unique(tables.crown_widths, "crown_widths.csv", taxon);
  check.unique(tables.wood_densities, "wood_density.csv", taxon);
  check.unique(tables.leaves, "leaves.csv", taxon);
  check.unique(tables.wet_soil, "wet_soil.csv", taxon);
  for (const ZoneRule& rule : tables.rules) check.rule(rule);
  for (const Species& row : tables.species) check.species(row);
  for (const Parameter& row : tables.parameters) check.parameter(row);
  check.unique(tables.anchorage_resistances, "anchorage_resistance.csv",
               [](const AnchorageResistance& row) { return row.botanical_name; });
  check.unique(tables.crown_drags, "crown_drag.csv",
               [](const CrownDrag& row) { return row.taxon; });
  for (const AnchorageResistance& row : tables.anchorage_resistances) check.resistance(row);
  for (const CrownDrag& row : tables.crown_drags) check.drag(row);
  for (const CrownWidth& row : tables.crown_widths) check.crown_width(row);
  for (const WoodDensity& row : tables.wood_densities) check.wood_density(row);
  for (const Leaves& row : tables.leaves)
    check.unknown_source(row.from, "leaves.csv, " + row.botanical_name);
  for (const WetSoilTolerance& row : tables.wet_soil)
    check.unknown_source(row.from, "wet_soil.csv, " + row.botanical_name);
  check.soil(tables.soil);
  check.unique(tables.replacement_rules, "replacement rules",
               [](const ReplacementRule& row) { return row.id; });
  for (const ReplacementRule& rule : tables.replacement_rules)
    for (Error& fault : coherence(rule, tables.sources)) check.errors.push_back(std::move(fault));
  check.unique(tables.submittal_items, "submittal.csv",
               [](const SubmittalItem& row) { return row.id; });
  for (const SubmittalItem& row : tables.submittal_items) check.submittal(row);
  if (tables.version.empty()) check.error("VERSION", "the data version is missing", "write one");
  return std::move(check.errors);
}

}  // namespace rootstead
