// The CSV files of data/, each row one fact with its source and status.
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

// The works of the shipped sources.csv, read once.
const std::vector<Source>& shipped_sources();

}  // namespace rootstead::io
