// Ground levels made by others: LandXML surfaces, rasters, contours, 3D points and spot levels.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "io/project.hpp"

namespace rootstead::io {

std::string_view to_text(LevelState state);
std::optional<LevelState> level_state_from(std::string_view text);

struct ReadLevelsOptions {
  std::string name;     // of the surface in the project; empty: as the source calls it
  std::string surface;  // which surface (LandXML), layer (vector) or band (raster), if several
  // Answers the question of a source that names no unit. Heights may have a unit of their own.
  std::optional<LengthUnit> length_unit, height_unit;
  std::string height_column;   // of contours in plan or of a table; empty: found by its name
  std::string vertical_datum;  // where the source names none
  std::string date;            // of the survey
};

struct ReadLevels {
  LevelSurface surface;
  std::string understood;  // how it was read: format, unit, system, points, triangles
  std::vector<Problem> problems;
};

// Reads .xml and .landxml (also .gz) as LandXML 1.x; .tif, .tiff and .asc as grids; .csv, .txt,
// .tsv, .gpkg, .geojson, .shp, .fgb and .dxf as points to be triangulated, breaklines not honoured.
// Positions come out in metres on the project's grid, heights in metres. Grids must lie in the
// project's own system; other sources are transformed. Fails with one sentence and gives nothing
// half-read; what was passed over is counted in the problems.
Result<ReadLevels> read_levels(const std::filesystem::path& source,
                               const ReadLevelsOptions& options, const ReferenceSystem& project);

// Can a file of this name hold nothing but levels, as a raster or LandXML does?
bool holds_levels_only(const std::filesystem::path& source);

}  // namespace rootstead::io
