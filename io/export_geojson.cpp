// One FeatureCollection after RFC 7946: longitude and latitude on WGS 84, outer rings
// counter-clockwise; the property `kind` says which layer a feature is of.
#include <algorithm>
#include <nlohmann/json.hpp>

#include "engine/geom/measure.hpp"
#include "io/export_formats.hpp"
#include "io/export_rows.hpp"
#include "io/spatial_reference.hpp"

namespace rootstead::io {
namespace {

using Json = nlohmann::ordered_json;

// From metres of the site to longitude and latitude.
class Globe {
 public:
  explicit Globe(const ReferenceSystem& system) : unit_(metres_per(system.file_unit)) {
    const auto plane = spatial_reference(system.code);
    const auto world = spatial_reference("EPSG:4326");
    if (plane && world) way_ = transformation(*plane, *world);
  }
  bool known() const { return way_ != nullptr; }

  Json place(const Point& at) {
    double x = at.x / unit_;
    double y = at.y / unit_;
    const QuietGdal quiet;
    failed_ = failed_ || !way_->Transform(1, &x, &y);
    // Nine decimals of a degree are a tenth of a millimetre.
    constexpr double kScale = 1e9;
    return Json::array({std::round(x * kScale) / kScale, std::round(y * kScale) / kScale});
  }
  bool failed() const { return failed_; }

 private:
  double unit_;
  Transformation way_;
  bool failed_ = false;
};

Json line_json(Globe& globe, const Line& line) {
  Json points = Json::array();
  for (const Point& point : line) points.push_back(globe.place(point));
  return points;
}

Json ring_json(Globe& globe, Ring ring, bool outer) {
  if ((signed_area(ring) > 0) != outer) std::reverse(ring.begin(), ring.end());
  if (!ring.empty()) ring.push_back(ring.front());
  return line_json(globe, ring);
}

Json areas_json(Globe& globe, const MultiPolygon& areas) {
  Json all = Json::array();
  for (const Polygon& area : areas) {
    Json rings = Json::array({ring_json(globe, area.outer, true)});
    for (const Ring& hole : area.holes) rings.push_back(ring_json(globe, hole, false));
    all.push_back(std::move(rings));
  }
  return all;
}

Json geometry_json(const char* type, Json coordinates) {
  return {{"type", type}, {"coordinates", std::move(coordinates)}};
}

// Single parts are written singly.
Json shape_json(Globe& globe, const Shape& shape) {
  std::vector<Json> parts;
  if (!shape.lines.empty()) {
    Json lines = Json::array();
    for (const Line& line : shape.lines) lines.push_back(line_json(globe, line));
    const bool one = lines.size() == 1;
    parts.push_back(one ? geometry_json("LineString", lines[0])
                        : geometry_json("MultiLineString", lines));
  }
  if (!shape.areas.empty()) {
    Json areas = areas_json(globe, shape.areas);
    const bool one = areas.size() == 1;
    parts.push_back(one ? geometry_json("Polygon", areas[0])
                        : geometry_json("MultiPolygon", areas));
  }
  if (!shape.points.empty()) {
    Json points = line_json(globe, shape.points);
    const bool one = points.size() == 1;
    parts.push_back(one ? geometry_json("Point", points[0]) : geometry_json("MultiPoint", points));
  }
  if (parts.empty()) return nullptr;
  if (parts.size() == 1) return parts.front();
  return {{"type", "GeometryCollection"}, {"geometries", parts}};
}

struct ToJson {
  Json operator()(std::monostate) const { return nullptr; }
  Json operator()(const auto& value) const { return value; }
};

Json feature_json(Globe& globe, const char* kind, const FlatLayer& layer, const FlatRow& row) {
  Json properties{{"kind", kind}};
  for (std::size_t i = 0; i < layer.columns.size(); ++i) {
    properties[layer.columns[i].name] = std::visit(ToJson{}, row.cells[i]);
  }
  return {{"type", "Feature"},
          {"geometry", shape_json(globe, row.shape)},
          {"properties", std::move(properties)}};
}

const char* kind_of(const std::string& layer) {
  constexpr std::array<std::pair<std::string_view, const char*>, 6> kKinds{
      {{"trees", "tree"},
       {"works", "work"},
       {"bore_pits", "bore pit"},
       {"barriers", "barrier"},
       {"ground", "surface"},
       {"zones", "zone"}}};
  for (const auto& [name, kind] : kKinds) {
    if (name == layer) return kind;
  }
  return nullptr;
}

Json about_json(const Export& out) {
  Json about = Json::array();
  for (const AboutOut& line : about_of(out.site, out.assessment, out.tables)) {
    about.push_back({{"topic", line.topic}, {"text", line.text}});
  }
  return about;
}

}  // namespace

Outcome write_geojson(const Export& out, const PartFolder& folder, Warnings&) {
  Globe globe(out.site.system);
  const Error lost{Code::crs_unknown, out.site.system.code,
                   "positions in this system cannot be turned into longitude and latitude",
                   "export to .gpkg or .dxf, which keep the system of the project"};
  if (!globe.known()) return lost;
  Json features = Json::array();
  for (const FlatLayer& layer : export_layers(out.site, out.assessment, out.tables)) {
    const char* kind = kind_of(layer.name);
    if (kind == nullptr) continue;
    for (const FlatRow& row : layer.rows) {
      features.push_back(feature_json(globe, kind, layer, row));
    }
  }
  if (globe.failed()) return lost;
  const Json collection{
      {"type", "FeatureCollection"}, {"about", about_json(out)}, {"features", std::move(features)}};
  // Bytes that are no UTF-8 (in a survey) become the replacement sign rather than an error.
  return write_bytes(folder.file(),
                     collection.dump(1, ' ', false, Json::error_handler_t::replace) + "\n");
}

}  // namespace rootstead::io
