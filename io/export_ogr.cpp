#include "io/export_ogr.hpp"

#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include "io/ogr_shapes.hpp"
#include "io/spatial_reference.hpp"

namespace rootstead::io {
namespace {

OGRFieldType type_of(const Column& column) {
  if (column.type == "DOUBLE") return OFTReal;
  if (column.type == "INTEGER") return OFTInteger64;
  if (column.type == "BOOLEAN") return OFTInteger;
  return OFTString;
}

OGRwkbGeometryType type_of(const FlatLayer& layer) {
  if (layer.geometry == "POINT") return wkbPoint;
  if (layer.geometry == "MULTIPOLYGON") return wkbMultiPolygon;
  return layer.geometry.empty() ? wkbNone : wkbUnknown;
}

struct SetField {
  OGRFeature& feature;
  int at;
  void operator()(std::monostate) const { feature.SetFieldNull(at); }
  void operator()(bool v) const { feature.SetField(at, v ? 1 : 0); }
  void operator()(std::int64_t v) const { feature.SetField(at, static_cast<GIntBig>(v)); }
  void operator()(double v) const { feature.SetField(at, v); }
  void operator()(const std::string& v) const { feature.SetField(at, v.c_str()); }
};

Geometry geometry_of(const FlatLayer& layer, const Shape& shape, double unit) {
  if (shape.empty()) return nullptr;
  if (layer.geometry == "POINT") return to_ogr(shape.points.front(), unit);
  if (layer.geometry == "MULTIPOLYGON") return to_ogr(shape.areas, unit);
  return to_ogr(shape, unit);
}

Error failed(const OgrTarget& target, const QuietGdal& quiet) {
  return {Code::file_unwritable, target.file.filename().string(),
          "cannot be written (" + quiet.last_message() + ")",
          "check the folder, its permissions and the space on the disk"};
}

bool add_fields(OGRLayer& to, const FlatLayer& layer, const OgrTarget& target) {
  for (std::size_t i = 0; i < layer.columns.size(); ++i) {
    const std::string& name =
        target.field_names.empty() ? layer.columns[i].name : target.field_names[i];
    OGRFieldDefn field(name.c_str(), type_of(layer.columns[i]));
    if (layer.columns[i].type == "BOOLEAN") field.SetSubType(OFSTBoolean);
    if (to.CreateField(&field) != OGRERR_NONE) return false;
  }
  return true;
}

bool add_rows(OGRLayer& to, const FlatLayer& layer, double unit) {
  for (const FlatRow& row : layer.rows) {
    OGRFeature feature(to.GetLayerDefn());
    for (std::size_t i = 0; i < row.cells.size(); ++i) {
      std::visit(SetField{feature, static_cast<int>(i)}, row.cells[i]);
    }
    feature.SetGeometryDirectly(geometry_of(layer, row.shape, unit).release());
    if (to.CreateFeature(&feature) != OGRERR_NONE) return false;
  }
  return true;
}

}  // namespace

Outcome write_by_gdal(const FlatLayer& layer, const ReferenceSystem& system,
                      const OgrTarget& target) {
  GDALAllRegister();
  const QuietGdal quiet;
  GDALDriver* driver = GetGDALDriverManager()->GetDriverByName(target.driver);
  if (driver == nullptr) return failed(target, quiet);
  GDALDatasetUniquePtr data(driver->Create(target.file.c_str(), 0, 0, 0, GDT_Unknown, nullptr));
  if (!data) return failed(target, quiet);
  CPLStringList options;
  for (const std::string& option : target.options) options.AddString(option.c_str());
  auto reference = spatial_reference(system.code);
  OGRLayer* to = data->CreateLayer(layer.name.c_str(), reference ? &*reference : nullptr,
                                   type_of(layer), options.List());
  if (to == nullptr) return failed(target, quiet);
  const bool written =
      add_fields(*to, layer, target) && add_rows(*to, layer, metres_per(system.file_unit));
  // The end of a file is written when it closes; an error then shows in the message only.
  CPLErrorReset();
  data.reset();
  if (!written || CPLGetLastErrorType() == CE_Failure) return failed(target, quiet);
  return Nothing{};
}

}  // namespace rootstead::io
