// The one file that knows GEOS. Each call has its own context, so calls share nothing and may run
// in many threads; GEOS reports its errors by null, and they end as a repair or an empty area.
#include "engine/geom/overlay.hpp"

#include <geos_c.h>

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <map>
#include <memory>
#include <optional>
#include <utility>

#include "engine/geom/measure.hpp"
#include "engine/geom/triangulate.hpp"

namespace rootstead {
namespace {

// Where GEOS fails even on repaired input, coordinates are snapped to this grid and it is asked
// again: far below any survey's accuracy.
constexpr double kRescueGrid = 1e-6;  // metres

struct ContextEnd {
  void operator()(GEOSContextHandle_t handle) const { GEOS_finish_r(handle); }
};
using Context = std::unique_ptr<std::remove_pointer_t<GEOSContextHandle_t>, ContextEnd>;

struct GeometryEnd {
  GEOSContextHandle_t handle;
  void operator()(GEOSGeometry* geometry) const { GEOSGeom_destroy_r(handle, geometry); }
};
using Geometry = std::unique_ptr<GEOSGeometry, GeometryEnd>;

// GEOS for the length of one call.
class Geos {
 public:
  Geos() : context_(GEOS_init_r()) {}

  Geometry take(GEOSGeometry* geometry) const { return {geometry, GeometryEnd{handle()}}; }
  GEOSContextHandle_t handle() const { return context_.get(); }

  Geometry valid_geometry(const MultiPolygon& area) const;
  Geometry repaired_polygon(const Polygon& polygon) const;
  Geometry polygon(const Polygon& polygon) const;
  Geometry collection(std::vector<Geometry> parts) const;
  Geometry united(std::vector<Geometry> parts) const;
  MultiPolygon read(const GEOSGeometry* geometry) const;

 private:
  GEOSGeometry* ring(const Ring& points) const;
  Ring read_ring(const GEOSGeometry* ring, bool counter_clockwise) const;
  Polygon read_polygon(const GEOSGeometry* polygon) const;

  Context context_;
};

// The ring's finite points without repeats; empty where fewer than three are left.
Ring cleaned(const Ring& points) {
  Ring kept;
  for (const Point& p : points) {
    if (is_finite(p) && (kept.empty() || p != kept.back())) kept.push_back(p);
  }
  while (kept.size() > 1 && kept.front() == kept.back()) kept.pop_back();
  if (kept.size() < 3) kept.clear();
  return kept;
}

GEOSGeometry* Geos::ring(const Ring& points) const {
  const auto size = static_cast<unsigned>(points.size());
  GEOSCoordSequence* sequence = GEOSCoordSeq_create_r(handle(), size + 1, 2);
  for (unsigned i = 0; i <= size; ++i) {
    const Point& p = points[i < size ? i : 0];
    GEOSCoordSeq_setXY_r(handle(), sequence, i, p.x, p.y);
  }
  return GEOSGeom_createLinearRing_r(handle(), sequence);
}

// As it is, valid or not; null where the outer ring has no area to speak of.
Geometry Geos::polygon(const Polygon& polygon) const {
  const Ring outer = cleaned(polygon.outer);
  if (outer.empty()) return take(nullptr);
  std::vector<GEOSGeometry*> holes;
  for (const Ring& hole : polygon.holes) {
    if (const Ring points = cleaned(hole); !points.empty()) holes.push_back(ring(points));
  }
  return take(GEOSGeom_createPolygon_r(handle(), ring(outer), holes.data(),
                                       static_cast<unsigned>(holes.size())));
}

Geometry Geos::repaired_polygon(const Polygon& shape) const {
  Geometry made = polygon(shape);
  if (!made || GEOSisValid_r(handle(), made.get()) == 1) return made;
  return take(GEOSMakeValid_r(handle(), made.get()));  // by linework: even-odd
}

Geometry Geos::collection(std::vector<Geometry> parts) const {
  std::vector<GEOSGeometry*> raw;
  for (Geometry& part : parts) {
    if (part) raw.push_back(part.release());
  }
  return take(GEOSGeom_createCollection_r(handle(), GEOS_GEOMETRYCOLLECTION, raw.data(),
                                          static_cast<unsigned>(raw.size())));
}

// Polygons only: the lines and points that a repair leaves over have no area.
Geometry Geos::united(std::vector<Geometry> parts) const {
  const Geometry all = collection(std::move(parts));
  if (!all) return take(nullptr);
  Geometry united = take(GEOSUnaryUnion_r(handle(), all.get()));
  if (!united) united = take(GEOSUnaryUnionPrec_r(handle(), all.get(), kRescueGrid));
  return united;
}

Geometry Geos::valid_geometry(const MultiPolygon& area) const {
  std::vector<Geometry> parts;
  for (const Polygon& polygon : area) {
    if (Geometry part = repaired_polygon(polygon)) parts.push_back(std::move(part));
  }
  if (parts.size() == 1 && GEOSGeomTypeId_r(handle(), parts[0].get()) == GEOS_POLYGON)
    return std::move(parts[0]);
  return united(std::move(parts));
}

Ring Geos::read_ring(const GEOSGeometry* ring, bool counter_clockwise) const {
  const GEOSCoordSequence* sequence = GEOSGeom_getCoordSeq_r(handle(), ring);
  unsigned size = 0;
  if (sequence == nullptr || GEOSCoordSeq_getSize_r(handle(), sequence, &size) == 0) return {};
  Ring points(size > 0 ? size - 1 : 0);
  for (unsigned i = 0; i < points.size(); ++i)
    GEOSCoordSeq_getXY_r(handle(), sequence, i, &points[i].x, &points[i].y);
  if ((signed_area(points) > 0) != counter_clockwise) std::reverse(points.begin(), points.end());
  return points;
}

Polygon Geos::read_polygon(const GEOSGeometry* polygon) const {
  Polygon read{read_ring(GEOSGetExteriorRing_r(handle(), polygon), true), {}};
  const int holes = GEOSGetNumInteriorRings_r(handle(), polygon);
  for (int i = 0; i < holes; ++i)
    read.holes.push_back(read_ring(GEOSGetInteriorRingN_r(handle(), polygon, i), false));
  return read;
}

MultiPolygon Geos::read(const GEOSGeometry* geometry) const {
  if (geometry == nullptr || GEOSisEmpty_r(handle(), geometry) == 1) return {};
  const int type = GEOSGeomTypeId_r(handle(), geometry);
  if (type == GEOS_POLYGON) return {read_polygon(geometry)};
  if (type != GEOS_MULTIPOLYGON && type != GEOS_GEOMETRYCOLLECTION) return {};
  MultiPolygon all;
  const int parts = GEOSGetNumGeometries_r(handle(), geometry);
  for (int i = 0; i < parts; ++i) {
    for (Polygon& part : read(GEOSGetGeometryN_r(handle(), geometry, i)))
      all.push_back(std::move(part));
  }
  return all;
}

using Overlay = GEOSGeometry* (*)(GEOSContextHandle_t, const GEOSGeometry*, const GEOSGeometry*);
using GridOverlay = GEOSGeometry* (*)(GEOSContextHandle_t, const GEOSGeometry*, const GEOSGeometry*,
                                      double);

MultiPolygon overlay(const MultiPolygon& a, const MultiPolygon& b, Overlay exact,
                     GridOverlay rescue) {
  const Geos geos;
  const Geometry first = geos.valid_geometry(a);
  const Geometry second = geos.valid_geometry(b);
  if (!first || !second) return {};
  Geometry made = geos.take(exact(geos.handle(), first.get(), second.get()));
  if (!made) made = geos.take(rescue(geos.handle(), first.get(), second.get(), kRescueGrid));
  return geos.read(made.get());
}

}  // namespace

MultiPolygon union_of(const std::vector<MultiPolygon>& parts) {
  const Geos geos;
  std::vector<Geometry> all;
  for (const MultiPolygon& part : parts) {
    for (const Polygon& polygon : part) {
      if (Geometry made = geos.repaired_polygon(polygon)) all.push_back(std::move(made));
    }
  }
  if (all.size() == 1) return geos.read(all.front().get());
  return geos.read(geos.united(std::move(all)).get());
}

MultiPolygon intersection_of(const MultiPolygon& a, const MultiPolygon& b) {
  if (a.empty() || b.empty()) return {};
  return overlay(a, b, GEOSIntersection_r, GEOSIntersectionPrec_r);
}

MultiPolygon difference_of(const MultiPolygon& a, const MultiPolygon& b) {
  if (b.empty()) return union_of({a});
  return overlay(a, b, GEOSDifference_r, GEOSDifferencePrec_r);
}

bool is_valid(const MultiPolygon& area) {
  const Geos geos;
  std::vector<GEOSGeometry*> parts;
  bool whole = true;
  for (const Polygon& polygon : area) {
    const auto finite = [](const Ring& ring) {
      return std::all_of(ring.begin(), ring.end(), is_finite);
    };
    whole = whole && finite(polygon.outer) &&
            std::all_of(polygon.holes.begin(), polygon.holes.end(), finite);
    Geometry made = geos.polygon(polygon);
    whole = whole && made != nullptr;
    if (made) parts.push_back(made.release());
  }
  const Geometry all = geos.take(GEOSGeom_createCollection_r(
      geos.handle(), GEOS_MULTIPOLYGON, parts.data(), static_cast<unsigned>(parts.size())));
  return whole && all && GEOSisValid_r(geos.handle(), all.get()) == 1;
}

MultiPolygon grown(const MultiPolygon& area, Length distance, int segments) {
  assert(segments >= 1);
  const Geos geos;
  const Geometry before = geos.valid_geometry(area);
  if (!before) return {};
  const Geometry after =
      geos.take(GEOSBuffer_r(geos.handle(), before.get(), distance.metres(), segments));
  return geos.read(after.get());
}

MultiPolygon union_on_lattice(const std::vector<MultiPolygon>& parts, Length spacing) {
  const Geos geos;
  std::vector<Geometry> all;
  for (const MultiPolygon& part : parts) {
    for (const Polygon& polygon : part) {
      if (Geometry made = geos.repaired_polygon(polygon)) all.push_back(std::move(made));
    }
  }
  const Geometry together = geos.collection(std::move(all));
  if (!together) return {};
  const Geometry united =
      geos.take(GEOSUnaryUnionPrec_r(geos.handle(), together.get(), spacing.metres()));
  return geos.read(united.get());
}

MultiPolygon simplified(const MultiPolygon& area, Length tolerance) {
  const Geos geos;
  const Geometry before = geos.valid_geometry(area);
  if (!before) return {};
  const Geometry after =
      geos.take(GEOSTopologyPreserveSimplify_r(geos.handle(), before.get(), tolerance.metres()));
  return geos.read(after.get());
}

namespace {

struct PlaceOrder {
  bool operator()(const Point& a, const Point& b) const {
    return a.x != b.x ? a.x < b.x : a.y < b.y;
  }
};

// The triangle as numbers of the points it was made from.
std::optional<std::array<std::uint32_t, 3>> numbers_of(
    const Polygon& triangle, const std::map<Point, std::uint32_t, PlaceOrder>& number_at) {
  if (triangle.outer.size() != 3) return std::nullopt;
  std::array<std::uint32_t, 3> numbers{};
  for (std::size_t i = 0; i < 3; ++i) {
    const auto found = number_at.find(triangle.outer[i]);
    if (found == number_at.end()) return std::nullopt;
    numbers[i] = found->second;
  }
  return numbers;
}

}  // namespace

Result<TriangleMesh> triangulated(const std::vector<LevelPoint>& points) {
  TriangleMesh mesh;
  std::map<Point, std::uint32_t, PlaceOrder> number_at;
  for (const LevelPoint& point : points) {
    if (!is_finite(point.at) || !std::isfinite(point.height)) {
      return Error{Code::invalid_geometry, "the points",
                   "one of them has no finite place and height",
                   "leave out points that were not measured"};
    }
    const auto number = static_cast<std::uint32_t>(mesh.points.size());
    if (number_at.emplace(point.at, number).second) mesh.points.push_back(point);
  }
  const Geos geos;
  GEOSCoordSequence* places =
      GEOSCoordSeq_create_r(geos.handle(), static_cast<unsigned>(mesh.points.size()), 2);
  for (unsigned i = 0; i < mesh.points.size(); ++i)
    GEOSCoordSeq_setXY_r(geos.handle(), places, i, mesh.points[i].at.x, mesh.points[i].at.y);
  const bool any_line = mesh.points.size() >= 2;
  if (!any_line) GEOSCoordSeq_destroy_r(geos.handle(), places);
  const Geometry line =
      geos.take(any_line ? GEOSGeom_createLineString_r(geos.handle(), places) : nullptr);
  const Geometry made =
      geos.take(line ? GEOSDelaunayTriangulation_r(geos.handle(), line.get(), 0, 0) : nullptr);
  for (const Polygon& triangle : geos.read(made.get())) {
    if (const auto numbers = numbers_of(triangle, number_at)) mesh.triangles.push_back(*numbers);
  }
  if (!mesh.triangles.empty()) return mesh;
  return Error{Code::empty_geometry, "the points",
               "there are fewer than three with a height that are not on one line",
               "give more levels"};
}

MultiPolygon grown_straight(const MultiPolygon& area, Length distance, double longest_mitre) {
  assert(distance >= Length() && longest_mitre >= 1);
  const Geos geos;
  const Geometry before = geos.valid_geometry(area);
  if (!before) return {};
  const Geometry after =
      geos.take(GEOSBufferWithStyle_r(geos.handle(), before.get(), distance.metres(), 1,
                                      GEOSBUF_CAP_FLAT, GEOSBUF_JOIN_MITRE, longest_mitre));
  return geos.read(after.get());
}

}  // namespace rootstead
