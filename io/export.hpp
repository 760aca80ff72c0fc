// Data out: one file, format by its ending. Written in a hidden folder beside its name and moved
// into place when complete, so that nothing is half-written; an earlier file of the name is
// replaced. What each format holds, its layer and field names: docs/formats/exports.md.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "engine/rootstead.hpp"

namespace rootstead::io {

struct ExportReport {
  std::vector<std::filesystem::path> files;  // all that were made, the asked one first
  std::vector<std::string> warnings;         // what the format could not hold, a sentence each
};

// .dxf drawing, .geojson, .csv schedule, .gpkg with styles, .fgb and .shp zones. Fails with
// format_unknown (naming the endings), file_unwritable, or crs_unknown where positions cannot be
// turned into what the format wants.
Result<ExportReport> write_export(const Site& site, const Assessment& assessment,
                                  const Tables& tables, const std::filesystem::path& file);

}  // namespace rootstead::io
