// Ground levels made by others: LandXML surfaces, rasters, contours, 3D points and spot levels.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "engine/rootstead.hpp"

namespace rootstead::io {

enum class LevelState { existing, proposed };
std::string_view to_text(LevelState state);
std::optional<LevelState> level_state_from(std::string_view text);

struct ReadLevelsOptions {
  std::string name;     // of the surface in the project; empty: as the source calls it
  std::string surface;  // which, where a source holds several
  std::string layer;    // of a vector file; empty: the only one
  // Answers the question of a source that names no unit. Heights may have a unit of their own.
  std::optional<LengthUnit> length_unit, height_unit;
  std::string height_column;   // of contours in plan or of a table; empty: guessed by its name
  std::string vertical_datum;  // where the source names none
  std::string date;
};

struct ReadLevels {
  LevelSurface surface;
  std::string understood;  // how it was read: format, unit, system, points, triangles
  std::vector<Problem> problems;
};

// Reads .tif .tiff .asc .xml .landxml (also .gz) .csv .txt .gpkg .geojson .shp .dxf. Positions come
// out in metres on the project's grid, heights in metres. Rasters must lie in the project's own
// system; other sources are transformed. Fails with one sentence and gives nothing half-read.
Result<ReadLevels> read_levels(const std::filesystem::path& source,
                               const ReadLevelsOptions& options, const ReferenceSystem& project);

}  // namespace rootstead::io
