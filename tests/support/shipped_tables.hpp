// The shipped species and parameters, read straight from data/ so that the tests of the engine
// need nothing of the io room.
#pragma once

#include <gtest/gtest.h>

#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "engine/base/text.hpp"
#include "engine/tables/tables.hpp"
#include "tests/support/shared_data.hpp"

namespace rootstead::test {

using CsvRow = std::map<std::string, std::string>;

inline std::vector<std::string> csv_cells(const std::string& line) {
  std::vector<std::string> cells(1);
  bool quoted = false;
  for (const char c : line) {
    if (c == '"') quoted = !quoted;
    if (c == ',' && !quoted) cells.emplace_back();
    if (c != '"' && (c != ',' || quoted)) cells.back() += c;
  }
  return cells;
}

inline std::vector<CsvRow> csv_rows(const std::filesystem::path& name) {
  std::ifstream file(source_dir() / "data" / name);
  EXPECT_TRUE(file.good()) << "data/" << name << " is not there";
  std::vector<std::string> header;
  std::vector<CsvRow> rows;
  for (std::string line; std::getline(file, line);) {
    if (line.empty()) continue;
    const auto cells = csv_cells(line);
    if (header.empty()) {
      header = cells;
      continue;
    }
    EXPECT_EQ(cells.size(), header.size()) << name << ": " << line;
    CsvRow row;
    for (std::size_t i = 0; i < cells.size() && i < header.size(); ++i) row[header[i]] = cells[i];
    rows.push_back(row);
  }
  return rows;
}

inline double number_of(const std::string& text) {
  const auto number = number_from(text);
  EXPECT_TRUE(number) << "\"" << text << "\" is no number";
  return number.value_or(0);
}

inline Citation citation_of(CsvRow& row, const std::string& prefix) {
  return {row[prefix + "source"], row[prefix + "place"],
          status_from(row[prefix + "status"]).value_or(Status::assumption)};
}

inline SoilTables shipped_soil_tables() {
  SoilTables soil;
  for (CsvRow row : csv_rows("density_limits.csv"))
    soil.density_limits.push_back({row["id"], row["table"], row["texture"],
                                   number_from(row["ideal"]), number_from(row["affects"]),
                                   number_from(row["restricts"]), number_from(row["air_share"]),
                                   citation_of(row, "")});
  for (CsvRow row : csv_rows("ground_pressures.csv")) {
    const Range mass{number_of(row["mass_low"]), number_of(row["mass_best"]),
                     number_of(row["mass_high"])};
    soil.ground_pressures.push_back(
        {row["name"],
         row["words"],
         {number_of(row["low"]), number_of(row["best"]), number_of(row["high"])},
         mass,
         number_of(row["supports"]),
         number_of(row["length_per_width"]),
         citation_of(row, "")});
  }
  for (CsvRow row : csv_rows("ground_protection.csv"))
    soil.protections.push_back({row["id"], row["name"], number_of(row["chips_m"]),
                                number_from(row["plate_width_m"]),
                                number_from(row["plate_length_m"]), number_from(row["heaviest_kg"]),
                                citation_of(row, "")});
  for (CsvRow row : csv_rows("fill_rules.csv"))
    soil.fill_rules.push_back({row["id"], row["texture"], number_of(row["thickness_m"]),
                               row["harmless"] == "yes", row["text"], citation_of(row, "")});
  for (CsvRow row : csv_rows("fill_sensitivity.csv"))
    soil.fill_sensitivities.push_back(
        {row["botanical_name"],
         fill_sensitivity_from(row["sensitivity"]).value_or(FillSensitivity::unknown),
         citation_of(row, "")});
  return soil;
}

inline Tables shipped_tables() {
  Tables tables;
  tables.version = "test";
  for (const auto& file : std::filesystem::directory_iterator(source_dir() / "data/parameters"))
    for (CsvRow row : csv_rows(file.path()))
      tables.parameters.push_back({row["id"], number_of(row["low"]), number_of(row["best"]),
                                   number_of(row["high"]), row["spread"], row["unit"],
                                   row["meaning"], citation_of(row, "")});
  for (CsvRow row : csv_rows("species.csv")) {
    Species species;
    species.botanical_name = row["botanical_name"];
    species.common_name = row["common_name"];
    species.form = growth_form_from(row["form"]).value_or(GrowthForm::unknown);
    species.architecture =
        root_architecture_from(row["architecture"]).value_or(RootArchitecture::unknown);
    species.tolerance = tolerance_from(row["tolerance"]).value_or(Tolerance::unknown);
    species.sources_disagree = row["tolerance_disagree"] == "yes";
    species.palm_top_share = number_from(row["palm_top_share"]);
    species.architecture_from = citation_of(row, "architecture_");
    species.tolerance_from = citation_of(row, "tolerance_");
    tables.species.push_back(species);
  }
  for (CsvRow row : csv_rows("anchorage_resistance.csv"))
    tables.anchorage_resistances.push_back(
        {row["botanical_name"], row["synonym"], static_cast<int>(number_of(row["trees"])),
         number_from(row["geometric_mean"]), number_of(row["median"]), number_of(row["least"]),
         number_of(row["most"]), number_of(row["sd_ln"]), citation_of(row, "")});
  for (CsvRow row : csv_rows("crown_drag.csv")) {
    CrownDrag drag{row["taxon"],
                   {number_of(row["low"]), number_of(row["best"]), number_of(row["high"])},
                   {},
                   citation_of(row, "")};
    if (const auto bare = number_from(row["bare_best"]))
      drag.bare = {number_of(row["bare_low"]), *bare, number_of(row["bare_high"])};
    tables.crown_drags.push_back(drag);
  }
  for (CsvRow row : csv_rows("crown_widths.csv"))
    tables.crown_widths.push_back({row["botanical_name"], number_of(row["constant_ft"]),
                                   number_of(row["ft_per_in"]), number_of(row["ft_per_in2"]),
                                   citation_of(row, "")});
  for (CsvRow row : csv_rows("wood_density.csv"))
    tables.wood_densities.push_back({row["botanical_name"], number_of(row["density_g_cm3"]),
                                     number_from(row["sd_g_cm3"]), citation_of(row, "")});
  for (CsvRow row : csv_rows("leaves.csv"))
    tables.leaves.push_back({row["botanical_name"],
                             leaf_habit_from(row["leaves"]).value_or(LeafHabit::unknown),
                             citation_of(row, "")});
  for (CsvRow row : csv_rows("wet_soil.csv"))
    tables.wet_soil.push_back({row["botanical_name"],
                               wet_soil_from(row["tolerance"]).value_or(WetSoil::unknown),
                               row["disagree"] == "yes", citation_of(row, "")});
  tables.soil = shipped_soil_tables();
  for (CsvRow row : csv_rows("sources.csv"))
    tables.sources.push_back({row["id"], row["title"], row["note"]});
  return tables;
}

// The same with one parameter set to one value.
inline Tables with(Tables tables, std::string_view id, double value) {
  for (Parameter& parameter : tables.parameters)
    if (parameter.id == id) parameter.low = parameter.best = parameter.high = value;
  return tables;
}

}  // namespace rootstead::test
