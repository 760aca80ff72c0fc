#include "serve/shape_json.hpp"

#include <cmath>

namespace rootstead::serve {
namespace {

using io::Json;

Error no_shape(const std::string& message) {
  return {Code::value_invalid, "the shape", message, "send lines, areas and points in metres"};
}

// Reads one shape and counts its positions.
class ShapeReader {
 public:
  Result<Point> point(const Json& json) {
    if (++positions_ > kMostPositions)
      return no_shape("it has more than " + std::to_string(kMostPositions) + " positions");
    const bool pair =
        json.is_array() && json.size() == 2 && json[0].is_number() && json[1].is_number();
    if (!pair) return no_shape("a position is not a pair of numbers");
    const Point at{json[0].get<double>(), json[1].get<double>()};
    if (!std::isfinite(at.x) || !std::isfinite(at.y))
      return no_shape("a position is not a finite number");
    return at;
  }

  Result<Line> line(const Json& json, std::size_t fewest) {
    if (!json.is_array()) return no_shape("a line is not a list of positions");
    if (json.size() < fewest)
      return no_shape("a line or ring has fewer than " + std::to_string(fewest) + " positions");
    return list<Point>(json, [this](const Json& one) { return point(one); });
  }

  Result<Polygon> polygon(const Json& json) {
    if (!json.is_array() || json.empty()) return no_shape("an area has no ring");
    ROOTSTEAD_TRY(auto rings, list<Ring>(json, [this](const Json& one) { return line(one, 3); }));
    Polygon polygon;
    polygon.outer = std::move(rings.front());
    polygon.holes.assign(std::next(rings.begin()), rings.end());
    return polygon;
  }

  template <class Item, class Read>
  Result<std::vector<Item>> list(const Json& json, Read read) {
    if (!json.is_array()) return no_shape("a list is missing");
    std::vector<Item> items;
    for (const Json& one : json) {
      ROOTSTEAD_TRY(Item item, read(one));
      items.push_back(std::move(item));
    }
    return items;
  }

 private:
  std::size_t positions_ = 0;
};

}  // namespace

Json to_json(const Point& point) {
  return Json::array({point.x, point.y});
}

Json to_json(const Line& line) {
  Json list = Json::array();
  for (const Point& point : line) list.push_back(to_json(point));
  return list;
}

Json to_json(const MultiPolygon& areas) {
  Json list = Json::array();
  for (const Polygon& area : areas) {
    Json rings = Json::array({to_json(area.outer)});
    for (const Ring& hole : area.holes) rings.push_back(to_json(hole));
    list.push_back(std::move(rings));
  }
  return list;
}

Json to_json(const Shape& shape) {
  Json lines = Json::array(), points = Json::array();
  for (const Line& line : shape.lines) lines.push_back(to_json(line));
  for (const Point& point : shape.points) points.push_back(to_json(point));
  return {
      {"lines", std::move(lines)}, {"areas", to_json(shape.areas)}, {"points", std::move(points)}};
}

Result<Shape> shape_from(const Json& json) {
  if (!json.is_object()) return no_shape("it is not an object");
  for (const char* key : {"lines", "areas", "points"})
    if (!json.contains(key)) return no_shape(std::string("it has no ") + key);
  if (json.size() != 3) return no_shape("it has a key that is not known");
  ShapeReader reader;
  Shape shape;
  ROOTSTEAD_TRY(shape.lines, reader.list<Line>(json["lines"], [&](const Json& one) {
    return reader.line(one, 2);
  }));
  ROOTSTEAD_TRY(shape.areas, reader.list<Polygon>(json["areas"], [&](const Json& one) {
    return reader.polygon(one);
  }));
  ROOTSTEAD_TRY(shape.points, reader.list<Point>(json["points"], [&](const Json& one) {
    return reader.point(one);
  }));
  if (shape.empty()) return no_shape("it is empty");
  return shape;
}

}  // namespace rootstead::serve
