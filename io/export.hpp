// Data out: one file, format by its ending (.dxf .geojson .csv .gpkg .fgb .shp). Written beside its
// name and moved into place when complete. Layer and field names: docs/formats/exports.md.
#pragma once

#include <filesystem>

#include "engine/rootstead.hpp"

namespace rootstead::io {

Outcome write_export(const Site& site, const Assessment& assessment, const Tables& tables,
                     const std::filesystem::path& file);

}  // namespace rootstead::io
