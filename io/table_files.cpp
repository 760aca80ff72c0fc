#include "io/table_files.hpp"

#include <algorithm>

#include "engine/base/nearest.hpp"
#include "engine/base/text.hpp"
#include "io/csv.hpp"
#include "io/embedded.hpp"
#include "io/table_row.hpp"

namespace rootstead::io {
namespace {

constexpr double kMostTrees = 1e6;

// ---- one row of each table ----------------------------------------------------------------------
// `known`: the fact holds a shipped row already, which an own one changes.

void read_row(TableRow& row, Source& source, bool) {
  row.set("id", source.id);
  row.set("title", source.title);
  row.set("note", source.note);
}

void read_row(TableRow& row, Species& species, bool) {
  row.set("botanical_name", species.botanical_name);
  row.set("common_name", species.common_name);
  row.set_word("form", species.form, growth_form_from);
  row.set_word("architecture", species.architecture, root_architecture_from);
  row.set_word("tolerance", species.tolerance, tolerance_from);
  row.set_yes("tolerance_disagree", species.sources_disagree);
  row.set_number("palm_top_share", species.palm_top_share);
}

// A species has two facts with sources; an own row changes those it names.
void cite(TableRow& row, Species& species, bool known) {
  if (!known || row.has("architecture"))
    row.set_citation("architecture_", species.architecture_from);
  if (!known || row.has("tolerance")) row.set_citation("tolerance_", species.tolerance_from);
  for (const char* column : {"architecture_source", "architecture_place", "architecture_status",
                             "tolerance_source", "tolerance_place", "tolerance_status"})
    row.has(column);
}

void read_row(TableRow& row, Parameter& parameter, bool known) {
  row.set("id", parameter.id);
  row.set_number("low", parameter.low, known);
  row.set_number("best", parameter.best, known);
  row.set_number("high", parameter.high, known);
  row.set("spread", parameter.spread);
  row.set("unit", parameter.unit);
  row.set("meaning", parameter.meaning);
}

// Marks what a user laid over.
void own(Parameter& parameter) {
  parameter.own = true;
}
template <class Fact>
void own(Fact&) {}

void read_row(TableRow& row, CrownWidth& width, bool known) {
  row.set("botanical_name", width.botanical_name);
  row.set_number("constant_ft", width.constant_ft, known);
  row.set_number("ft_per_in", width.ft_per_in, known);
  row.set_number("ft_per_in2", width.ft_per_in2, known);
}

void read_row(TableRow& row, WoodDensity& wood, bool known) {
  row.set("botanical_name", wood.botanical_name);
  row.set_number("density_g_cm3", wood.density, known);
  row.set_number("sd_g_cm3", wood.sd);
}

void read_row(TableRow& row, Leaves& leaves, bool) {
  row.set("botanical_name", leaves.botanical_name);
  row.set_word("leaves", leaves.habit, leaf_habit_from);
}

void read_row(TableRow& row, WetSoilTolerance& wet, bool) {
  row.set("botanical_name", wet.botanical_name);
  row.set_word("tolerance", wet.tolerance, wet_soil_from);
  row.set_yes("disagree", wet.sources_disagree);
}

void read_row(TableRow& row, AnchorageResistance& resistance, bool known) {
  double trees = resistance.trees;
  row.set("botanical_name", resistance.botanical_name);
  row.set("synonym", resistance.synonym);
  row.set_number("trees", trees, known);
  row.set_number("geometric_mean", resistance.geometric_mean);
  row.set_number("median", resistance.median, known);
  row.set_number("least", resistance.least, known);
  row.set_number("most", resistance.most, known);
  row.set_number("sd_ln", resistance.sd_ln, known);
  if (trees < 1 || trees > kMostTrees)
    row.fail("trees is no number of trees", "give how many were pulled, 1 or more");
  else
    resistance.trees = static_cast<int>(trees);
}

// Three cells that stand together or not at all.
std::optional<Range> range_in(TableRow& row, const std::string& prefix) {
  std::optional<double> low, best, high;
  row.set_number(prefix + "low", low);
  row.set_number(prefix + "best", best);
  row.set_number(prefix + "high", high);
  if (low && best && high) return Range{*low, *best, *high};
  if (low || best || high)
    row.fail("of " + prefix + "low, " + prefix + "best and " + prefix + "high one is missing",
             "give all three or none");
  return std::nullopt;
}

void read_row(TableRow& row, CrownDrag& drag, bool known) {
  row.set("taxon", drag.taxon);
  row.set_number("low", drag.in_leaf.low, known);
  row.set_number("best", drag.in_leaf.best, known);
  row.set_number("high", drag.in_leaf.high, known);
  if (const auto bare = range_in(row, "bare_")) drag.bare = bare;
}

void read_row(TableRow& row, BulkDensityLimit& limit, bool) {
  row.set("id", limit.id);
  row.set("table", limit.table);
  row.set("texture", limit.texture);
  row.set_number("ideal", limit.ideal);
  row.set_number("affects", limit.affects);
  row.set_number("restricts", limit.restricts);
  row.set_number("air_share", limit.air_share);
}

void read_row(TableRow& row, GroundPressure& pressure, bool known) {
  row.set("name", pressure.name);
  row.set("words", pressure.words);
  if (const auto range = range_in(row, ""))
    pressure.pressure = *range;
  else if (!known)
    row.fail("the pressure is missing", "give low, best and high in kPa");
  if (const auto mass = range_in(row, "mass_")) pressure.mass = mass;
  row.set_number("supports", pressure.supports, known);
  row.set_number("length_per_width", pressure.length_per_width, known);
}

void read_row(TableRow& row, GroundProtection& protection, bool known) {
  row.set("id", protection.id);
  row.set("name", protection.name);
  row.set_number("chips_m", protection.chips, known);
  row.set_number("plate_width_m", protection.plate_width);
  row.set_number("plate_length_m", protection.plate_length);
  row.set_number("heaviest_kg", protection.heaviest);
}

void read_row(TableRow& row, FillRule& rule, bool known) {
  row.set("id", rule.id);
  row.set("texture", rule.texture);
  row.set_number("thickness_m", rule.thickness, known);
  row.set_yes("harmless", rule.harmless);
  row.set("text", rule.text);
}

void read_row(TableRow& row, FillSensitivityRow& sensitivity, bool) {
  row.set("botanical_name", sensitivity.botanical_name);
  row.set_word("sensitivity", sensitivity.sensitivity, fill_sensitivity_from);
}

// Several sources in one cell, with blanks between them; none: nothing public was read.
void read_row(TableRow& row, SubmittalItem& item, bool) {
  row.set("id", item.id);
  row.set("group", item.group);
  row.set("item", item.item);
  row.set_word("answered", item.answered, submittal_answer_from);
  row.set("check", item.check);
  row.set("output", item.output);
  row.set_word("status", item.status, status_from);
  if (!row.has("sources")) return;
  item.sources.clear();
  for (const std::string& id : split(row.text("sources"), ' '))
    if (!id.empty()) item.sources.push_back(id);
}

void cite(TableRow&, Source&, bool) {}
void cite(TableRow&, SubmittalItem&, bool) {}
template <class Fact>
void cite(TableRow& row, Fact& fact, bool) {
  row.set_citation("", fact.from);
}

// ---- whole tables -------------------------------------------------------------------------------

void check_length(TableRow& row, const CsvRow& cells, const CsvTable& table) {
  if (cells.cells.size() == table.header.size()) return;
  row.fail("the row has " + std::to_string(cells.cells.size()) + " cells, the header " +
               std::to_string(table.header.size()),
           "put texts with commas in quotes");
}

template <class Fact>
std::vector<Fact> read_facts(std::string_view csv, const std::string& file,
                             std::vector<Error>& errors) {
  const auto table = parse_csv(csv, file, ',');
  if (!table) {
    errors.push_back(table.error());
    return {};
  }
  std::vector<Fact> facts;
  for (const CsvRow& cells : table->rows) {
    TableRow row(*table, cells, file, TableRow::Kind::whole);
    Fact fact;
    read_row(row, fact, false);
    cite(row, fact, false);
    check_length(row, cells, *table);
    if (row.error) errors.push_back(*row.error);
    if (!row.error) facts.push_back(std::move(fact));
  }
  return facts;
}

// ---- a user's own rows over shipped ones --------------------------------------------------------

const std::string& name_of(const Source& row) {
  return row.id;
}
const std::string& name_of(const Parameter& row) {
  return row.id;
}
const std::string& name_of(const SubmittalItem& row) {
  return row.id;
}
const std::string& name_of(const CrownDrag& row) {
  return row.taxon;
}
const std::string& name_of(const BulkDensityLimit& row) {
  return row.id;
}
const std::string& name_of(const GroundPressure& row) {
  return row.name;
}
const std::string& name_of(const GroundProtection& row) {
  return row.id;
}
const std::string& name_of(const FillRule& row) {
  return row.id;
}
template <class Fact>
const std::string& name_of(const Fact& row) {
  return row.botanical_name;
}
template <class Fact>
constexpr const char* kNameColumn = "botanical_name";
template <>
constexpr const char* kNameColumn<Source> = "id";
template <>
constexpr const char* kNameColumn<Parameter> = "id";
template <>
constexpr const char* kNameColumn<SubmittalItem> = "id";
template <>
constexpr const char* kNameColumn<CrownDrag> = "taxon";
template <>
constexpr const char* kNameColumn<BulkDensityLimit> = "id";
template <>
constexpr const char* kNameColumn<GroundPressure> = "name";
template <>
constexpr const char* kNameColumn<GroundProtection> = "id";
template <>
constexpr const char* kNameColumn<FillRule> = "id";

template <class Fact>
Fact* fact_named(std::vector<Fact>& facts, std::string_view name) {
  const auto found = std::find_if(facts.begin(), facts.end(), [&](const Fact& fact) {
    return lower_case(name_of(fact)) == lower_case(name);
  });
  return found == facts.end() ? nullptr : &*found;
}

template <class Fact>
void check_known(TableRow&, const std::string&, const std::vector<Fact>&) {}
// A parameter that nothing reads is a slip of the pen.
void check_known(TableRow& row, const std::string& id, const std::vector<Parameter>& parameters) {
  std::vector<std::string> known;
  for (const Parameter& parameter : parameters) known.push_back(parameter.id);
  const std::string near = nearest(id, known);
  row.fail("no parameter is called \"" + id + "\"", near.empty()
                                                        ? "take its name from data/parameters"
                                                        : "perhaps \"" + near + "\" is meant");
}

void check_order(TableRow& row, const Parameter& parameter) {
  if (parameter.low > parameter.best || parameter.best > parameter.high)
    row.fail("low, best and high do not rise (" + shortest_number(parameter.low) + ", " +
                 shortest_number(parameter.best) + ", " + shortest_number(parameter.high) + ")",
             "order the three, or give all of them");
}
template <class Fact>
void check_order(TableRow&, const Fact&) {}

void check_columns(const TableRow& row, const CsvTable& table, const std::string& file,
                   std::vector<Error>& errors) {
  const std::vector<std::string> known(row.asked().begin(), row.asked().end());
  for (const std::string& column : table.header)
    if (std::find(known.begin(), known.end(), column) == known.end())
      errors.push_back({Code::table_incoherent, file, "the column \"" + column + "\" is not known",
                        suggestion(column, known)});
}

template <class Fact>
void lay_rows_over(std::vector<Fact>& facts, std::string_view csv, const std::string& file,
                   std::vector<Error>& errors) {
  const auto table = parse_csv(csv, file, ',');
  if (!table) {
    errors.push_back(table.error());
    return;
  }
  std::set<std::string> seen;
  for (const CsvRow& cells : table->rows) {
    TableRow row(*table, cells, file, TableRow::Kind::own);
    const std::string name = row.text(kNameColumn<Fact>);
    if (name.empty())
      row.fail(std::string(kNameColumn<Fact>) + " is empty", "name what the row is about");
    if (!seen.insert(lower_case(name)).second)
      row.fail("\"" + name + "\" is there twice", "keep one of the two");
    Fact* shipped = fact_named(facts, name);
    if (!shipped) check_known(row, name, facts);
    Fact fact = shipped ? *shipped : Fact{};
    read_row(row, fact, shipped != nullptr);
    cite(row, fact, shipped != nullptr);
    own(fact);
    check_order(row, fact);
    check_length(row, cells, *table);
    if (&cells == &table->rows.front()) check_columns(row, *table, file, errors);
    if (row.error) {
      errors.push_back(*row.error);
    } else if (shipped) {
      *shipped = std::move(fact);
    } else {
      facts.push_back(std::move(fact));
    }
  }
}

}  // namespace

std::vector<Source> read_sources(std::string_view csv, std::vector<Error>& errors) {
  return read_facts<Source>(csv, "sources.csv", errors);
}

std::vector<Species> read_species(std::string_view csv, std::vector<Error>& errors) {
  return read_facts<Species>(csv, "species.csv", errors);
}

std::vector<Parameter> read_parameters(std::string_view csv, const std::string& file,
                                       std::vector<Error>& errors) {
  return read_facts<Parameter>(csv, file, errors);
}

std::vector<CrownWidth> read_crown_widths(std::string_view csv, std::vector<Error>& errors) {
  return read_facts<CrownWidth>(csv, "crown_widths.csv", errors);
}

std::vector<WoodDensity> read_wood_densities(std::string_view csv, std::vector<Error>& errors) {
  return read_facts<WoodDensity>(csv, "wood_density.csv", errors);
}

std::vector<Leaves> read_leaves(std::string_view csv, std::vector<Error>& errors) {
  return read_facts<Leaves>(csv, "leaves.csv", errors);
}

std::vector<WetSoilTolerance> read_wet_soil(std::string_view csv, std::vector<Error>& errors) {
  return read_facts<WetSoilTolerance>(csv, "wet_soil.csv", errors);
}

std::vector<SubmittalItem> read_submittal_items(std::string_view csv, std::vector<Error>& errors) {
  return read_facts<SubmittalItem>(csv, "submittal.csv", errors);
}

std::vector<AnchorageResistance> read_anchorage_resistances(std::string_view csv,
                                                            std::vector<Error>& errors) {
  return read_facts<AnchorageResistance>(csv, "anchorage_resistance.csv", errors);
}

std::vector<CrownDrag> read_crown_drags(std::string_view csv, std::vector<Error>& errors) {
  return read_facts<CrownDrag>(csv, "crown_drag.csv", errors);
}

std::vector<BulkDensityLimit> read_density_limits(std::string_view csv,
                                                  std::vector<Error>& errors) {
  return read_facts<BulkDensityLimit>(csv, "density_limits.csv", errors);
}

std::vector<GroundPressure> read_ground_pressures(std::string_view csv,
                                                  std::vector<Error>& errors) {
  return read_facts<GroundPressure>(csv, "ground_pressures.csv", errors);
}

std::vector<GroundProtection> read_ground_protection(std::string_view csv,
                                                     std::vector<Error>& errors) {
  return read_facts<GroundProtection>(csv, "ground_protection.csv", errors);
}

std::vector<FillRule> read_fill_rules(std::string_view csv, std::vector<Error>& errors) {
  return read_facts<FillRule>(csv, "fill_rules.csv", errors);
}

std::vector<FillSensitivityRow> read_fill_sensitivity(std::string_view csv,
                                                      std::vector<Error>& errors) {
  return read_facts<FillSensitivityRow>(csv, "fill_sensitivity.csv", errors);
}

const std::vector<Source>& shipped_sources() {
  static const std::vector<Source> sources = [] {
    std::vector<Error> ignored;  // load_tables reports them
    return read_sources(embedded_file("sources.csv").value_or(""), ignored);
  }();
  return sources;
}

const std::vector<std::string>& own_table_names() {
  static const std::vector<std::string> names = {"sources.csv",
                                                 "species.csv",
                                                 "wood_density.csv",
                                                 "crown_widths.csv",
                                                 "leaves.csv",
                                                 "wet_soil.csv",
                                                 "anchorage_resistance.csv",
                                                 "crown_drag.csv",
                                                 "density_limits.csv",
                                                 "ground_pressures.csv",
                                                 "ground_protection.csv",
                                                 "fill_rules.csv",
                                                 "fill_sensitivity.csv",
                                                 "submittal.csv"};
  return names;
}

void lay_over(Tables& tables, const std::string& name, std::string_view csv,
              const std::string& file, std::vector<Error>& errors) {
  if (name == "sources.csv") lay_rows_over(tables.sources, csv, file, errors);
  if (name == "species.csv") lay_rows_over(tables.species, csv, file, errors);
  if (name == "wood_density.csv") lay_rows_over(tables.wood_densities, csv, file, errors);
  if (name == "crown_widths.csv") lay_rows_over(tables.crown_widths, csv, file, errors);
  if (name == "leaves.csv") lay_rows_over(tables.leaves, csv, file, errors);
  if (name == "wet_soil.csv") lay_rows_over(tables.wet_soil, csv, file, errors);
  if (name == "anchorage_resistance.csv")
    lay_rows_over(tables.anchorage_resistances, csv, file, errors);
  if (name == "crown_drag.csv") lay_rows_over(tables.crown_drags, csv, file, errors);
  if (name == "density_limits.csv") lay_rows_over(tables.soil.density_limits, csv, file, errors);
  if (name == "ground_pressures.csv")
    lay_rows_over(tables.soil.ground_pressures, csv, file, errors);
  if (name == "ground_protection.csv") lay_rows_over(tables.soil.protections, csv, file, errors);
  if (name == "fill_rules.csv") lay_rows_over(tables.soil.fill_rules, csv, file, errors);
  if (name == "fill_sensitivity.csv")
    lay_rows_over(tables.soil.fill_sensitivities, csv, file, errors);
  if (name == "submittal.csv") lay_rows_over(tables.submittal_items, csv, file, errors);
  if (name == "parameters") lay_rows_over(tables.parameters, csv, file, errors);
}

}  // namespace rootstead::io
