// FlatGeobuf holds one layer: the zones, each with the verdict of its tree.
#include "io/export_formats.hpp"
#include "io/export_ogr.hpp"
#include "io/export_rows.hpp"

namespace rootstead::io {

Outcome write_flatgeobuf(const Export& out, const PartFolder& folder, Warnings& warnings) {
  FlatLayer zones = flat_layer("zones", "", zones_out(out.site, out.assessment, out.tables));
  const auto lost = std::erase_if(zones.rows, [](const FlatRow& row) { return row.shape.empty(); });
  if (lost > 0) {
    warnings.push_back(std::to_string(lost) +
                       " zones of trees without a position are left out, because the format holds "
                       "only things that have a place; .csv and .gpkg hold them.");
  }
  ROOTSTEAD_CHECK(write_by_gdal(zones, out.site.system, {"FlatGeobuf", folder.file(), {}, {}}));
  return write_about_beside(out, folder);
}

}  // namespace rootstead::io
