#include "io/source_look.hpp"

#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include <algorithm>
#include <array>
#include <optional>

#include "engine/base/text.hpp"
#include "io/csv.hpp"
#include "io/spatial_reference.hpp"
#include "io/whole_file.hpp"

namespace rootstead::io {
namespace {

namespace fs = std::filesystem;

bool is_of_shapes(const std::string& lower_name) {
  constexpr std::array<std::string_view, 6> kEndings{".geojson", ".json", ".geojsonl",
                                                     ".gpkg",    ".shp",  ".fgb"};
  return std::any_of(kEndings.begin(), kEndings.end(),
                     [&](std::string_view ending) { return lower_name.ends_with(ending); });
}

std::string number_of_system(OGRLayer& layer) {
  const OGRSpatialReference* system = layer.GetSpatialRef();
  if (system == nullptr) return {};
  const char* authority = system->GetAuthorityName(nullptr);
  const char* number = system->GetAuthorityCode(nullptr);
  if (authority == nullptr || number == nullptr) return {};
  return std::string(authority) + ":" + number;
}

Result<SourceLook> look_at_shapes(const fs::path& source) {
  GDALAllRegister();
  const QuietGdal quiet;
  constexpr const char* kDrivers[] = {"GPKG",       "GeoJSON",  "GeoJSONSeq", "ESRI Shapefile",
                                      "FlatGeobuf", "TopoJSON", "ESRIJSON",   nullptr};
  const GDALDatasetUniquePtr data(GDALDataset::Open(
      source.c_str(), GDAL_OF_VECTOR | GDAL_OF_READONLY, kDrivers, nullptr, nullptr));
  if (!data)
    return Error{Code::format_broken, source.filename().string(), "the file cannot be read",
                 "export it again"};
  SourceLook look;
  std::optional<std::string> system;
  for (OGRLayer* layer : data->GetLayers()) {
    OGRFeatureDefn* fields = layer->GetLayerDefn();
    for (int i = 0; i < fields->GetFieldCount(); ++i) {
      const std::string name = decoded(fields->GetFieldDefn(i)->GetNameRef()).text;
      if (std::find(look.header.begin(), look.header.end(), name) == look.header.end())
        look.header.push_back(name);
    }
    const std::string its_own = number_of_system(*layer);
    system = !system || *system == its_own ? its_own : std::string();
  }
  look.crs = system.value_or("");
  return look;
}

Result<SourceLook> look_at_table(const fs::path& source) {
  ROOTSTEAD_TRY(std::string bytes, read_bytes(source));
  const DecodedText text = decoded(std::move(bytes));
  CsvReader rows(text.text);
  CsvRow first;
  SourceLook look;
  if (rows.next(first))
    for (const std::string& cell : first.cells) look.header.emplace_back(trimmed(cell));
  return look;
}

}  // namespace

Result<SourceLook> look_at_source(const fs::path& source) {
  ROOTSTEAD_CHECK(check_file(source));
  const std::string name = lower_case(source.filename().string());
  if (name.ends_with(".dxf")) return SourceLook{};
  return is_of_shapes(name) ? look_at_shapes(source) : look_at_table(source);
}

}  // namespace rootstead::io
