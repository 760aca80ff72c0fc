// Plain measurements of plan shapes. Exact to rounding; no facets, no GEOS.
#pragma once

#include "engine/geom/shapes.hpp"

namespace rootstead {

double signed_area(const Ring& ring);  // square metres, positive counter-clockwise
Area area_of(const Polygon& polygon);
Area area_of(const MultiPolygon& area);
Length length_of(const Line& line);
Box box_of(const Line& points);
Box box_of(const MultiPolygon& area);
Point centroid_of(const Polygon& polygon);

// Points on the boundary count as inside.
bool contains(const Polygon& polygon, const Point& point);
bool contains(const MultiPolygon& area, const Point& point);

// Azimuth from `from` to `to`, 0 to 360 degrees clockwise from grid north.
Angle azimuth(const Point& from, const Point& to);
// The point at `distance` from `from` in direction `azimuth`.
Point offset(const Point& from, Angle azimuth, Length distance);
Length distance(const Point& a, const Point& b);

}  // namespace rootstead
