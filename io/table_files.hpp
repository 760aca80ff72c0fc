// The CSV files of data/, each row one fact with its source and status; and a user's own files of
// the same shapes, whose rows stand in for shipped ones.
#pragma once

#include <string_view>
#include <vector>

#include "engine/tables/tables.hpp"

namespace rootstead::io {

// Reads one file's text; faults are added to `errors` with their row, and their rows left out.
std::vector<Source> read_sources(std::string_view csv, std::vector<Error>& errors);
std::vector<Species> read_species(std::string_view csv, std::vector<Error>& errors);
std::vector<Parameter> read_parameters(std::string_view csv, const std::string& file,
                                       std::vector<Error>& errors);
std::vector<AnchorageResistance> read_anchorage_resistances(std::string_view csv,
                                                            std::vector<Error>& errors);
std::vector<CrownDrag> read_crown_drags(std::string_view csv, std::vector<Error>& errors);
std::vector<CrownWidth> read_crown_widths(std::string_view csv, std::vector<Error>& errors);
std::vector<WoodDensity> read_wood_densities(std::string_view csv, std::vector<Error>& errors);
std::vector<Leaves> read_leaves(std::string_view csv, std::vector<Error>& errors);
std::vector<WetSoilTolerance> read_wet_soil(std::string_view csv, std::vector<Error>& errors);
std::vector<BulkDensityLimit> read_density_limits(std::string_view csv, std::vector<Error>& errors);
std::vector<GroundPressure> read_ground_pressures(std::string_view csv, std::vector<Error>& errors);
std::vector<GroundProtection> read_ground_protection(std::string_view csv,
                                                     std::vector<Error>& errors);
std::vector<FillRule> read_fill_rules(std::string_view csv, std::vector<Error>& errors);
std::vector<FillSensitivityRow> read_fill_sensitivity(std::string_view csv,
                                                      std::vector<Error>& errors);
std::vector<SubmittalItem> read_submittal_items(std::string_view csv, std::vector<Error>& errors);

// The works of the shipped sources.csv, read once.
const std::vector<Source>& shipped_sources();

// Tables that a user may have of their own, by file name; "parameters/*.csv" besides.
const std::vector<std::string>& own_table_names();

// Lays the rows of a user's own file over `tables`. `name` is one of own_table_names(), or
// "parameters"; `file` is what errors and trails call it. A row with the name of a shipped one
// stands in for it, cell by cell; others are added, but a parameter must be one that is known.
// Unknown columns, names that come twice and cells that cannot be read are errors.
void lay_over(Tables& tables, const std::string& name, std::string_view csv,
              const std::string& file, std::vector<Error>& errors);

}  // namespace rootstead::io
