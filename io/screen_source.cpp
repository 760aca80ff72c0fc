#include "io/screen_source.hpp"

#include <algorithm>

#include "engine/base/text.hpp"
#include "io/screen_trees.hpp"
#include "io/whole_file.hpp"

namespace rootstead::io {
namespace {

constexpr const char* kFiles[] = {"GPKG",       "GeoJSON",  "GeoJSONSeq", "ESRI Shapefile",
                                  "FlatGeobuf", "ESRIJSON", nullptr};
constexpr const char* kDatabases[] = {"PostgreSQL", nullptr};

constexpr std::string_view kFileEndings[] = {".gpkg", ".fgb",      ".geojson",
                                             ".json", ".geojsonl", ".shp"};

std::string names_of(GDALDataset& data) {
  std::vector<std::string> names;
  for (OGRLayer* layer : data.GetLayers()) names.emplace_back(layer->GetName());
  return joined(names, ", ");
}

// "schema"."table" of a layer's name.
std::string quoted(const std::string& name) {
  std::vector<std::string> parts = split(name, '.');
  for (std::string& part : parts) part = '"' + part + '"';
  return joined(parts, ".");
}

}  // namespace

OpenLayer::OpenLayer(OpenLayer&& other) noexcept
    : data(std::move(other.data)),
      rows(std::exchange(other.rows, nullptr)),
      of_query(other.of_query),
      system(std::move(other.system)),
      features(other.features) {}

OpenLayer::~OpenLayer() {
  if (data && rows != nullptr && of_query) data->ReleaseResultSet(rows);
}

bool is_database(const std::string& source) {
  return lower_case(source.substr(0, 3)) == "pg:";
}

std::string source_name(const std::string& of) {
  return is_database(of) ? "the database" : std::filesystem::path(of).filename().string();
}

Result<OpenLayer> open_layer(const ScreenSource& source) {
  GDALAllRegister();
  const QuietGdal quiet;
  const bool database = is_database(source.from);
  const std::string name = source_name(source.from);
  if (!database) ROOTSTEAD_CHECK(check_file(source.from));
  OpenLayer open;
  open.data.reset(GDALDataset::Open(source.from.c_str(), GDAL_OF_VECTOR | GDAL_OF_READONLY,
                                    database ? kDatabases : kFiles, nullptr, nullptr));
  if (!open.data)
    return Error{Code::format_broken, name, "it cannot be opened (" + quiet.last_message() + ")",
                 database ? "check the address, such as \"PG:dbname=trees\""
                          : "export it again, or check that it opens in a GIS"};
  OGRLayer* layer = source.layer.empty()
                        ? (open.data->GetLayerCount() == 1 ? open.data->GetLayer(0) : nullptr)
                        : open.data->GetLayerByName(source.layer.c_str());
  if (layer == nullptr)
    return Error{Code::unknown_name, name,
                 source.layer.empty() ? "it has several layers"
                                      : "there is no layer \"" + source.layer + "\"",
                 "name one of: " + names_of(*open.data)};
  open.system = system_of(*layer);
  open.features = layer->GetFeatureCount();
  open.rows = layer;
  const std::string key = layer->GetFIDColumn();
  if (!database || key.empty()) return open;
  const std::string query =
      "SELECT * FROM " + quoted(layer->GetName()) + " ORDER BY \"" + key + "\"";
  open.rows = open.data->ExecuteSQL(query.c_str(), nullptr, nullptr);
  open.of_query = open.rows != nullptr;
  if (open.rows == nullptr)
    return Error{Code::format_broken, name, "it cannot be read (" + quiet.last_message() + ")",
                 "check that you may read the table"};
  return open;
}

Result<std::unique_ptr<TreeBlocks>> TreeBlocks::open(const ScreenJob& job,
                                                     const ReferenceSystem& grid) {
  const std::string name = lower_case(source_name(job.trees.from));
  const bool layer = is_database(job.trees.from) ||
                     std::any_of(std::begin(kFileEndings), std::end(kFileEndings),
                                 [&](std::string_view ending) { return name.ends_with(ending); });
  if (layer) return open_tree_layer(job, grid);
  for (const std::string_view ending : {".csv", ".txt", ".tsv", ".tab", ".gz"})
    if (name.ends_with(ending)) return open_tree_table(job, grid);
  return Error{Code::format_unknown, name, "trees are not read from this kind of file",
               "give .csv, .txt or .tsv (also .gz), .gpkg, .fgb, .geojson, .shp or a PG: address"};
}

}  // namespace rootstead::io
