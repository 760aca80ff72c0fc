#include "io/ogr_shapes.hpp"

namespace rootstead::io {
namespace {

template <class Curve>
std::unique_ptr<Curve> curve_from(const Line& points, double unit) {
  auto curve = std::make_unique<Curve>();
  curve->setNumPoints(static_cast<int>(points.size()));
  int at = 0;
  for (const Point& p : points) curve->setPoint(at++, p.x / unit, p.y / unit);
  return curve;
}

std::unique_ptr<OGRLinearRing> closed(const Ring& ring, double unit) {
  auto curve = curve_from<OGRLinearRing>(ring, unit);
  if (!ring.empty()) curve->addPoint(ring.front().x / unit, ring.front().y / unit);
  return curve;
}

std::unique_ptr<OGRPolygon> polygon_from(const Polygon& polygon, double unit) {
  auto result = std::make_unique<OGRPolygon>();
  result->addRingDirectly(closed(polygon.outer, unit).release());
  for (const Ring& hole : polygon.holes) result->addRingDirectly(closed(hole, unit).release());
  return result;
}

Geometry lines_from(const std::vector<Line>& lines, double unit) {
  auto result = std::make_unique<OGRMultiLineString>();
  for (const Line& line : lines) {
    result->addGeometryDirectly(curve_from<OGRLineString>(line, unit).release());
  }
  return result;
}

Geometry points_from(const std::vector<Point>& points, double unit) {
  auto result = std::make_unique<OGRMultiPoint>();
  for (const Point& p : points) {
    result->addGeometryDirectly(to_ogr(p, unit).release());
  }
  return result;
}

Line points_of(const OGRSimpleCurve& curve, double unit) {
  Line line;
  line.reserve(static_cast<std::size_t>(curve.getNumPoints()));
  for (int i = 0; i < curve.getNumPoints(); ++i) {
    line.push_back({curve.getX(i) * unit, curve.getY(i) * unit});
  }
  return line;
}

Ring ring_of(const OGRLinearRing* ring, double unit) {
  if (ring == nullptr) return {};
  Ring points = points_of(*ring, unit);
  if (points.size() > 1 && points.front() == points.back()) points.pop_back();
  return points;
}

void collect(const OGRGeometry& geometry, double unit, Shape& shape) {
  switch (wkbFlatten(geometry.getGeometryType())) {
    case wkbPoint:
      if (const OGRPoint* p = geometry.toPoint(); !p->IsEmpty()) {
        shape.points.push_back({p->getX() * unit, p->getY() * unit});
      }
      return;
    case wkbLineString:
      shape.lines.push_back(points_of(*geometry.toLineString(), unit));
      return;
    case wkbPolygon: {
      const OGRPolygon* from = geometry.toPolygon();
      Polygon polygon{ring_of(from->getExteriorRing(), unit), {}};
      for (int i = 0; i < from->getNumInteriorRings(); ++i) {
        polygon.holes.push_back(ring_of(from->getInteriorRing(i), unit));
      }
      shape.areas.push_back(std::move(polygon));
      return;
    }
    case wkbMultiPoint:
    case wkbMultiLineString:
    case wkbMultiPolygon:
    case wkbGeometryCollection:
      for (const OGRGeometry* part : *geometry.toGeometryCollection()) collect(*part, unit, shape);
      return;
    default: {
      const Geometry chords(geometry.getLinearGeometry());
      const bool plain = chords && !chords->hasCurveGeometry(TRUE) &&
                         wkbFlatten(chords->getGeometryType()) <= wkbGeometryCollection &&
                         wkbFlatten(chords->getGeometryType()) != wkbUnknown;
      if (plain) collect(*chords, unit, shape);
    }
  }
}

}  // namespace

Geometry to_ogr(const Point& point, double unit) {
  return std::make_unique<OGRPoint>(point.x / unit, point.y / unit);
}

Geometry to_ogr(const MultiPolygon& area, double unit) {
  auto result = std::make_unique<OGRMultiPolygon>();
  for (const Polygon& part : area) {
    result->addGeometryDirectly(polygon_from(part, unit).release());
  }
  return result;
}

Geometry to_ogr(const Shape& shape, double unit) {
  std::vector<Geometry> parts;
  if (!shape.lines.empty()) parts.push_back(lines_from(shape.lines, unit));
  if (!shape.areas.empty()) parts.push_back(to_ogr(shape.areas, unit));
  if (!shape.points.empty()) parts.push_back(points_from(shape.points, unit));
  if (parts.empty()) return nullptr;
  if (parts.size() == 1) return std::move(parts.front());
  auto all = std::make_unique<OGRGeometryCollection>();
  for (Geometry& part : parts) all->addGeometryDirectly(part.release());
  return all;
}

Shape shape_from(const OGRGeometry& geometry, double unit) {
  Shape shape;
  collect(geometry, unit, shape);
  return shape;
}

}  // namespace rootstead::io
