// The writers behind write_export: each writes its file, and files beside it, into a PartFolder.
#pragma once

#include "io/export.hpp"
#include "io/whole_file.hpp"

namespace rootstead::io {

struct Export {
  const Site& site;
  const Assessment& assessment;
  const Tables& tables;
};

using Warnings = std::vector<std::string>;

Outcome write_csv(const Export& out, const PartFolder& folder, Warnings& warnings);
Outcome write_geojson(const Export& out, const PartFolder& folder, Warnings& warnings);
Outcome write_geopackage(const Export& out, const PartFolder& folder, Warnings& warnings);
Outcome write_flatgeobuf(const Export& out, const PartFolder& folder, Warnings& warnings);
Outcome write_shapefile(const Export& out, const PartFolder& folder, Warnings& warnings);
Outcome write_dxf(const Export& out, const PartFolder& folder, Warnings& warnings);

// NAME.about.txt beside the file, for formats that have no place for it inside.
Outcome write_about_beside(const Export& out, const PartFolder& folder);

}  // namespace rootstead::io
