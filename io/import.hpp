// Reading surveys and drawings made by others. Nothing is dropped silently: every row that is not
// taken, or is doubtful, is a Problem with file and row.
#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "io/project.hpp"

namespace rootstead::io {

// Which column of a source is which field of ours, and in what unit. Kept as TOML
// (docs/formats/column-map.md); proposed by the program from header words in several languages.
struct ColumnMap {
  struct Column {
    std::string column;              // header in the source
    std::optional<LengthUnit> unit;  // of its numbers, where they carry none
  };
  std::map<std::string, Column> fields;  // our field name -> column, e.g. "stem_diameter"
  std::string crs;                       // of the coordinates; empty: the project's
  std::map<std::string, std::string>
      layer_kinds;  // CAD or GIS layer -> "trench", "kerb", "trees", "skip"
  std::map<std::string, std::string> values;  // constants: "depth" -> "900 mm" for every row
};

struct ImportOptions {
  std::string as;     // "trees", "works", "barriers", "ground", "evidence", "soil", "boundary",
                      // "gates"; empty: guessed
  std::string layer;  // empty: all layers
  std::optional<ColumnMap> columns;
  std::optional<LengthUnit> length_unit;  // answers the question of a unitless source
  // Ids that the project has, and the file each came from. Things of a drawing, which names none,
  // are numbered past those of other files; the same drawing gives the same ids again, so that it
  // cannot be added twice.
  std::map<std::string, std::string> taken;
};

// Fails (one sentence) where the file cannot be read at all or a question blocks: unit missing,
// no coordinate columns, unknown system. Otherwise the Import holds what was read: every row of a
// tree table is a tree, with or without a position; every row of a table of evidence is an opening
// or a root found in one; of drawings, what is not taken is counted by layer with the reason. Reads
// .csv .txt .tsv (plain or .gz), .geojson .json .gpkg .shp .fgb .dxf. Positions come out in metres
// on the project's grid, whatever the system and unit of the source.
Result<Import> read_source(const std::filesystem::path& source, const ImportOptions& options,
                           const ReferenceSystem& project);

// The map the program proposes for a table with these header words. `as` is "works", "barriers",
// "ground", "evidence" or "soil" where the table is not of trees ("type" is then the kind of work,
// "diameter" that of a root).
ColumnMap propose_columns(const std::vector<std::string>& header, const std::string& as = {});

// Fails with value_invalid at the first mistake, naming its line, and counts the others.
Result<ColumnMap> column_map_from_toml(const std::filesystem::path& file);
Result<ColumnMap> column_map_from_text(std::string_view toml, const std::string& file_name);
std::string to_toml(const ColumnMap& map);  // reads back to the same map

}  // namespace rootstead::io
