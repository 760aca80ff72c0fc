#include "io/import_shapes.hpp"

#include <ogr_geometry.h>

#include <cmath>
#include <memory>

#include "engine/base/result.hpp"

namespace rootstead::io {
namespace {

struct Destroy {
  void operator()(OGRGeometry* geometry) const { OGRGeometryFactory::destroyGeometry(geometry); }
};
using Geometry = std::unique_ptr<OGRGeometry, Destroy>;

class ShapeTaker {
 public:
  explicit ShapeTaker(const std::function<Point(Point)>& place) : place_(place) {}

  void take(const OGRGeometry& geometry) {
    switch (wkbFlatten(geometry.getGeometryType())) {
      case wkbPoint:
        return take_point(*geometry.toPoint());
      case wkbLineString:
      case wkbLinearRing:
        return take_line(*geometry.toSimpleCurve());
      case wkbPolygon:
      case wkbTriangle:
        return take_polygon(*geometry.toPolygon());
      case wkbMultiPoint:
      case wkbMultiLineString:
      case wkbMultiPolygon:
      case wkbGeometryCollection:
        for (const OGRGeometry* part : *geometry.toGeometryCollection()) take(*part);
        return;
      case wkbPolyhedralSurface:
      case wkbTIN:
        for (const OGRGeometry* part : *geometry.toPolyhedralSurface()) take(*part);
        return;
      default:
        doubt(std::string("a ") + geometry.getGeometryName() + " cannot be taken");
    }
  }

  ShapeReading done() { return std::move(reading_); }

 private:
  void doubt(std::string words) { reading_.doubts.push_back(std::move(words)); }

  bool finite(const Point& point) {
    if (std::isfinite(point.x) && std::isfinite(point.y)) return true;
    doubt("a point cannot be brought to the project's system and is left out");
    return false;
  }

  void take_point(const OGRPoint& point) {
    if (point.IsEmpty()) return doubt("a point is empty");
    const Point at = place_({point.getX(), point.getY()});
    if (finite(at)) reading_.shape.points.push_back(at);
  }

  Line points_of(const OGRSimpleCurve& curve) {
    Line line;
    line.reserve(static_cast<std::size_t>(curve.getNumPoints()));
    for (int i = 0; i < curve.getNumPoints(); ++i) {
      const Point at = place_({curve.getX(i), curve.getY(i)});
      if (!finite(at)) return {};
      if (line.empty() || !(line.back() == at)) line.push_back(at);
    }
    return line;
  }

  void take_line(const OGRSimpleCurve& curve) {
    Line line = points_of(curve);
    if (line.size() < 2) return doubt("a line has fewer than two points");
    reading_.shape.lines.push_back(std::move(line));
  }

  std::optional<Ring> ring_of(const OGRLinearRing& curve) {
    Ring ring = points_of(curve);
    if (ring.size() > 1 && ring.front() == ring.back()) ring.pop_back();
    if (ring.size() < 3) return std::nullopt;
    return ring;
  }

  void take_polygon(const OGRPolygon& source) {
    if (source.IsEmpty()) return doubt("a polygon is empty");
    const auto outer = ring_of(*source.getExteriorRing());
    if (!outer) return doubt("a polygon has fewer than three points");
    if (!source.IsValid()) doubt("a polygon crosses itself; its area is read by even and odd");
    Polygon polygon{*outer, {}};
    for (int i = 0; i < source.getNumInteriorRings(); ++i) {
      if (auto hole = ring_of(*source.getInteriorRing(i)))
        polygon.holes.push_back(std::move(*hole));
    }
    reading_.shape.areas.push_back(std::move(polygon));
  }

  const std::function<Point(Point)>& place_;
  ShapeReading reading_;
};

Result<Geometry> geometry_of_wkt(std::string_view wkt) {
  OGRGeometry* raw = nullptr;
  const std::string text(wkt);
  CPLPushErrorHandler(CPLQuietErrorHandler);
  const OGRErr failed = OGRGeometryFactory::createFromWkt(text.c_str(), nullptr, &raw);
  CPLPopErrorHandler();
  Geometry geometry(raw);
  if (failed != OGRERR_NONE || !geometry)
    return Error{Code::invalid_geometry, "", "the shape is not well-known text",
                 "write it like LINESTRING (0 0, 10 5) or POLYGON ((0 0, 4 0, 4 3, 0 0))"};
  return geometry;
}

}  // namespace

ShapeReading shape_of(const OGRGeometry& geometry, const std::function<Point(Point)>& place) {
  ShapeTaker taker(place);
  if (geometry.hasCurveGeometry(TRUE) != 0) {
    const Geometry linear(geometry.getLinearGeometry(kArcStepDegrees));
    if (linear) taker.take(*linear);
  } else {
    taker.take(geometry);
  }
  return taker.done();
}

Result<ShapeReading> shape_of_wkt(std::string_view wkt, const std::function<Point(Point)>& place) {
  ROOTSTEAD_TRY(const Geometry geometry, geometry_of_wkt(wkt));
  return shape_of(*geometry, place);
}

std::optional<Point> point_of_wkt(std::string_view wkt) {
  const auto geometry = geometry_of_wkt(wkt);
  if (!geometry) return std::nullopt;
  const OGRGeometry& found = **geometry;
  if (wkbFlatten(found.getGeometryType()) != wkbPoint || found.IsEmpty()) return std::nullopt;
  return Point{found.toPoint()->getX(), found.toPoint()->getY()};
}

}  // namespace rootstead::io
