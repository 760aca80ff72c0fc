// One flat layer written by one of GDAL's drivers, for formats of one layer a file.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "io/flat_layer.hpp"

namespace rootstead::io {

struct OgrTarget {
  const char* driver = "";  // "FlatGeobuf", "ESRI Shapefile"
  std::filesystem::path file;
  std::vector<std::string> field_names;  // instead of the layer's own, where not empty
  std::vector<std::string> options;      // of layer creation, "KEY=VALUE"
};

Outcome write_by_gdal(const FlatLayer& layer, const ReferenceSystem& system,
                      const OgrTarget& target);

}  // namespace rootstead::io
