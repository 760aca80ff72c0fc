#include "serve/underlay.hpp"

#include "engine/base/text.hpp"
#include "io/csv.hpp"
#include "io/dxf_scan.hpp"
#include "io/import.hpp"
#include "io/underlay_image.hpp"
#include "serve/base64.hpp"
#include "serve/shape_json.hpp"

namespace rootstead::serve {
namespace {

using io::Json;

Json line_json(const Line& line, bool closed) {
  Json json = Json::array();
  for (const Point& point : line) json.push_back(Json::array({point.x, point.y}));
  if (closed && !line.empty()) json.push_back(Json::array({line.front().x, line.front().y}));
  return json;
}

void put_lines(const Shape& shape, Json& lines) {
  for (const Line& line : shape.lines) lines.push_back(line_json(line, false));
  for (const Polygon& area : shape.areas) {
    lines.push_back(line_json(area.outer, true));
    for (const Ring& hole : area.holes) lines.push_back(line_json(hole, true));
  }
}

// Whatever a layer is called, its lines are read as those of one kind that may be open.
Result<Json> lines_of(const SentFile& file, const ReferenceSystem& system,
                      std::optional<LengthUnit> unit) {
  constexpr const char* kAnyLine = "trench";
  ROOTSTEAD_TRY(const std::string text, io::read_bytes(file.path()));
  ROOTSTEAD_TRY(const io::DxfDrawing scanned, io::scan_dxf(text, file.name()));
  io::ImportOptions options;
  options.as = "works";
  options.length_unit = unit;
  options.columns.emplace();
  const auto take = [&](std::string_view layer) {
    options.columns->layer_kinds[io::decoded(std::string(layer)).text] = kAnyLine;
  };
  for (const std::string_view layer : scanned.layers) take(layer);
  for (const io::DxfEntity& entity : scanned.entities) take(entity.layer);
  for (const auto& [name, block] : scanned.blocks)
    for (const io::DxfEntity& entity : block.entities) take(entity.layer);
  auto drawing = io::read_source(file.path(), options, system);
  if (!drawing) {
    Error error = drawing.error();
    if (error.code == Code::unit_missing) error.remedy = "say in which unit it was drawn";
    return error;
  }
  Json lines = Json::array();
  for (const Work& work : drawing->works) put_lines(work.shape, lines);
  if (!lines.empty()) return lines;
  return Error{Code::empty_geometry, file.name(), "there are no lines in its model space",
               "send a drawing that has some"};
}

Result<Json> image_of(const SentFile& file, const ReferenceSystem& system) {
  ROOTSTEAD_TRY(const io::PlacedImage image, io::read_underlay_image(file.path(), system));
  return Json{{"png_base64", base64_of(image.png)}, {"system_named", image.system_named},
              {"west", image.place.min_x},          {"south", image.place.min_y},
              {"east", image.place.max_x},          {"north", image.place.max_y}};
}

}  // namespace

Result<Json> underlay_json(const SentFile& file, const ReferenceSystem& system,
                           std::optional<LengthUnit> unit) {
  const std::string name = lower_case(file.name());
  Json answer = {{"name", file.name()}, {"image", nullptr}, {"lines", Json::array()}};
  if (name.ends_with(".dxf")) {
    ROOTSTEAD_TRY(answer["lines"], lines_of(file, system, unit));
  } else if (name.ends_with(".tif") || name.ends_with(".tiff")) {
    ROOTSTEAD_TRY(answer["image"], image_of(file, system));
  } else {
    return Error{Code::format_unknown, file.name(), "this kind of file is not drawn under the plan",
                 "send a GeoTIFF (.tif) or a drawing (.dxf)"};
  }
  return answer;
}

}  // namespace rootstead::serve
