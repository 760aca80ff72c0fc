// Plain measurements of plan shapes. No facets, no GEOS.
// Accuracy: rounding only; rings are measured from their first point, so coordinates of a million
// metres cost no digits of an area.
#pragma once

#include "engine/geom/shapes.hpp"

namespace rootstead {

double signed_area(const Ring& ring);  // square metres, positive counter-clockwise
Area area_of(const Polygon& polygon);  // outer ring less its holes, whatever their orientation
Area area_of(const MultiPolygon& area);
Length length_of(const Line& line);
// The smallest box round all points; empty where there are none. Points that are not finite are
// left out.
Box box_of(const Line& points);
Box box_of(const MultiPolygon& area);
Box joined(const Box& a, const Box& b);
// Centre of area, holes taken out; the mean of the points where the area is nil.
// Requires: a point in the outer ring.
Point centroid_of(const Polygon& polygon);

// Points on the boundary, of holes too, count as inside. Even-odd where a ring crosses itself.
bool contains(const Polygon& polygon, const Point& point);
bool contains(const MultiPolygon& area, const Point& point);

bool is_finite(const Point& point);

// Azimuth from `from` to `to`, 0 to below 360 degrees clockwise from grid north.
Angle azimuth(const Point& from, const Point& to);
// The point at `distance` from `from` in direction `azimuth`.
Point offset(const Point& from, Angle azimuth, Length distance);
Length distance(const Point& a, const Point& b);
// Shortest distance to a box, 0 inside it. Requires: box not empty.
Length distance(const Point& point, const Box& box);

}  // namespace rootstead
