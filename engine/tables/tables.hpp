// Tables: everything the engine knows that is not in the survey, as typed rows with their sources.
// The io room reads them from data/; the engine only looks things up.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/base/figure.hpp"
#include "engine/base/range.hpp"
#include "engine/base/source.hpp"
#include "engine/tables/anchorage_tables.hpp"
#include "engine/tables/replacement_rule.hpp"
#include "engine/tables/soil_tables.hpp"
#include "engine/tables/submittal_item.hpp"
#include "engine/tables/trait_rows.hpp"
#include "engine/tables/zone_rule.hpp"

namespace rootstead {

enum class Tolerance { unknown, good, moderate, poor };  // of root loss and construction
enum class RootArchitecture { unknown, heart, plate, tap };

struct Species {
  std::string botanical_name;  // "Quercus robur", or a genus
  std::string common_name;
  GrowthForm form = GrowthForm::unknown;
  RootArchitecture architecture = RootArchitecture::unknown;
  Tolerance tolerance = Tolerance::unknown;
  bool sources_disagree = false;         // on the tolerance
  std::optional<double> palm_top_share;  // palms: share of roots in the top 30 of 60 cm
  Citation form_from, architecture_from, tolerance_from;
};

// One editable constant of a model: "roots.radius_per_diameter", 38, sigma 0.25 ...
struct Parameter {
  std::string id;
  double low = 0, best = 0, high = 0;  // P10/P50/P90 or the range in which it may be edited
  std::string spread;                  // "lognormal 0.25", "normal 0.006", "triangular", "fixed"
  std::string unit;
  std::string meaning;
  Citation from;
  bool own = false;  // a user's row stands in for the shipped one
};

// "38 (18 to 70)"; of a user's own row also where it stands.
FigureInput input_from(const Parameter& parameter, std::string symbol);

struct Tables {
  std::string version;  // of data/, printed on every output
  std::vector<ZoneRule> rules;
  std::vector<Species> species;
  std::vector<Parameter> parameters;
  std::vector<Source> sources;
  std::vector<AnchorageResistance> anchorage_resistances;
  std::vector<CrownDrag> crown_drags;
  std::vector<CrownWidth> crown_widths;
  std::vector<WoodDensity> wood_densities;
  std::vector<Leaves> leaves;
  std::vector<WetSoilTolerance> wet_soil;
  SoilTables soil;
  std::vector<ReplacementRule> replacement_rules;
  std::vector<SubmittalItem> submittal_items;

  const ZoneRule* rule(std::string_view id) const;                     // null where there is none
  const ReplacementRule* replacement_rule(std::string_view id) const;  // null where there is none
  const Source* source(std::string_view id) const;
  // The row of the species, else of its genus, else null. Case, author names, cultivars and the
  // hybrid sign do not matter.
  const Species* species_of(std::string_view botanical_name) const;
  // The same in the other tables of species; engine/tables/traits.hpp fills gaps with them.
  const CrownWidth* crown_width_of(std::string_view botanical_name) const;
  const WoodDensity* wood_density_of(std::string_view botanical_name) const;
  const Leaves* leaves_of(std::string_view botanical_name) const;
  const WetSoilTolerance* wet_soil_of(std::string_view botanical_name) const;
  const FillSensitivityRow* fill_sensitivity_of(std::string_view botanical_name) const;
  // Requires: the id exists (a missing parameter is a bug in data/, caught by coherence()).
  const Parameter& parameter(std::string_view id) const;
};

// "Author year, title, clause 4.6.1" of a citation; the bare id where the table has no such work.
std::string source_text(const Citation& citation, const Tables& tables);

// Is a tree of this name of that species (or, where `taxon` is one word, that genus)?
bool same_taxon(std::string_view botanical_name, std::string_view taxon);

// Every fault in the tables themselves: a source id that is not in sources, a limit naming no
// zone, a threshold outside its range, a duplicate id. Empty for shipped data, by test.
std::vector<Error> coherence(const Tables& tables);
// The same for one rule, for `rule check`: every mistake, each with what to do.
std::vector<Error> coherence(const ZoneRule& rule, const std::vector<Source>& sources);

std::string_view to_text(Tolerance tolerance);
std::string_view to_text(RootArchitecture architecture);
std::optional<Tolerance> tolerance_from(std::string_view text);
std::optional<RootArchitecture> root_architecture_from(std::string_view text);

}  // namespace rootstead
