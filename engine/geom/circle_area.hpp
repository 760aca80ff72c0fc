// Exact area common to a circle and polygons: a boundary integral over the edges clipped by the
// circle (Green's theorem), with no faceting of the circle. Method: docs/methods/areas.md.
// Accuracy: absolute error below 1e-14 of the circle's area for ordinary polygons, so 1e-9
// relative or better wherever the common area is more than 1e-5 of the circle; tested against
// closed forms and against GEOS with the circle as a regular polygon of many corners.
// Coordinates of a million metres cost nothing: everything is measured from the circle's centre.
#pragma once

#include "engine/geom/shapes.hpp"

namespace rootstead {

// The area inside the outer ring and outside the holes, whatever their orientation. A radius of
// zero or less gives zero. Requires: rings that do not cross themselves, finite coordinates, and
// polygons of a MultiPolygon that do not overlap (union_of() them first: it repairs all three).
Area common_area(const Circle& circle, const Polygon& polygon);
Area common_area(const Circle& circle, const MultiPolygon& area);

// Area of the circle on the far side of a straight line at `distance` from its centre, 0 where
// the line misses it: r^2 acos(d/r) - d sqrt(r^2 - d^2). A negative distance is a line beyond the
// centre: more than half the disc. Accuracy: 1e-14 relative, for the thinnest segments too.
Area segment_area(Length radius, Length distance);

}  // namespace rootstead
