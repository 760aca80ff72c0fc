// Exact area common to a circle and polygons: a boundary integral over the edges clipped by the
// circle (Green's theorem), with no faceting of the circle.
// Accuracy: 1e-9 relative, tested against closed forms (segment, half disc, disc) and against
// GEOS with the circle as a regular polygon of many corners.
#pragma once

#include "engine/geom/shapes.hpp"

namespace rootstead {

// Holes subtract by orientation-independent rule: the area inside the outer ring and outside the
// holes. Requires: polygons of a MultiPolygon do not overlap (union_of() them first).
Area common_area(const Circle& circle, const Polygon& polygon);
Area common_area(const Circle& circle, const MultiPolygon& area);

// Area of the circle on the far side of a straight line at `distance` from its centre, 0 where
// the line misses it: r^2 acos(d/r) - d sqrt(r^2 - d^2).
Area segment_area(Length radius, Length distance);

}  // namespace rootstead
