// Plan shapes to and from GDAL's geometries, for io's own .cpp files only. `unit` is metres per
// unit of the geometry's coordinates; a Site's are metres.
#pragma once

#include <ogr_geometry.h>

#include <memory>

#include "engine/site/work.hpp"

namespace rootstead::io {

using Geometry = std::unique_ptr<OGRGeometry>;

Geometry to_ogr(const Point& point, double unit = 1);
Geometry to_ogr(const MultiPolygon& area, double unit = 1);
// One kind of part gives a multi-geometry of it, several a collection: lines, areas, points.
// Null where the shape is empty.
Geometry to_ogr(const Shape& shape, double unit = 1);

// Every point, line and polygon of the geometry, in order; heights and measures are dropped,
// curves become chords. Rings come back without their repeated last point.
Shape shape_from(const OGRGeometry& geometry, double unit = 1);

}  // namespace rootstead::io
