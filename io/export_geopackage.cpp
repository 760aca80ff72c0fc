// A GeoPackage for a client or a GIS: the layers of the export, styled, in the project's system.
#include "io/export_formats.hpp"
#include "io/export_rows.hpp"
#include "io/project_schema.hpp"

namespace rootstead::io {
namespace {

Table table_of(const FlatLayer& layer) {
  Table table{layer.name, layer.meaning, layer.columns, ""};
  if (!layer.geometry.empty()) {
    table.columns.insert(table.columns.begin(), {"geom", layer.geometry});
  }
  return table;
}

struct Bind {
  Statement& to;
  void operator()(std::monostate) const { to.put_null(); }
  void operator()(bool v) const { to.put(std::int64_t{v}); }
  void operator()(std::int64_t v) const { to.put(v); }
  void operator()(double v) const { to.put(v); }
  void operator()(const std::string& v) const { to.put(std::string_view(v)); }
};

std::optional<std::string> blob_for(const FlatLayer& layer, const Shape& shape,
                                    const Frame& frame) {
  if (shape.empty()) return std::nullopt;
  if (layer.geometry == "POINT") return geometry_blob(shape.points.front(), frame);
  if (layer.geometry == "MULTIPOLYGON") return geometry_blob(shape.areas, frame);
  return geometry_blob(shape, frame);
}

Outcome fill(const Database& database, const Table& table, const FlatLayer& layer,
             const Frame& frame) {
  std::string places = "?";
  for (std::size_t i = 1; i < table.columns.size(); ++i) places += ", ?";
  Statement insert(database, "INSERT INTO " + table.name + " (" + names_of(table.columns) +
                                 ") VALUES (" + places + ")");
  for (const FlatRow& row : layer.rows) {
    if (!layer.geometry.empty()) {
      const auto blob = blob_for(layer, row.shape, frame);
      blob ? insert.put_bytes(*blob) : insert.put_null();
    }
    for (const Cell& cell : row.cells) std::visit(Bind{insert}, cell);
    ROOTSTEAD_CHECK(insert.run());
  }
  return Nothing{};
}

}  // namespace

Outcome write_geopackage(const Export& out, const PartFolder& folder, Warnings&) {
  const auto layers = export_layers(out.site, out.assessment, out.tables);
  std::vector<Table> tables;
  for (const FlatLayer& layer : layers) tables.push_back(table_of(layer));
  ROOTSTEAD_TRY(Database database, Database::in_memory(folder.file()));
  ROOTSTEAD_CHECK(make_geopackage(database, out.site.system, tables));
  const Frame frame = frame_of(out.site.system);
  ROOTSTEAD_CHECK(database.run("BEGIN"));
  for (std::size_t i = 0; i < layers.size(); ++i) {
    ROOTSTEAD_CHECK(fill(database, tables[i], layers[i], frame));
  }
  ROOTSTEAD_CHECK(database.run("COMMIT"));
  return write_bytes(folder.file(), database.image());
}

}  // namespace rootstead::io
