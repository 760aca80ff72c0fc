// FlatGeobuf holds one layer: the zones, each with the verdict of its tree.
#include "io/export_formats.hpp"
#include "io/export_ogr.hpp"
#include "io/export_rows.hpp"

namespace rootstead::io {

Outcome write_flatgeobuf(const Export& out, const PartFolder& folder, Warnings&) {
  FlatLayer zones = flat_layer("zones", "", zones_out(out.site, out.assessment, out.tables));
  // The spatial index of the format has no place for a row without a shape.
  const bool all_placed = std::all_of(zones.rows.begin(), zones.rows.end(),
                                      [](const FlatRow& row) { return !row.shape.empty(); });
  const std::string index = all_placed ? "SPATIAL_INDEX=YES" : "SPATIAL_INDEX=NO";
  ROOTSTEAD_CHECK(
      write_by_gdal(zones, out.site.system, {"FlatGeobuf", folder.file(), {}, {index}}));
  return write_about_beside(out, folder);
}

}  // namespace rootstead::io
