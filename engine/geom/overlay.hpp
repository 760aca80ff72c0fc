// Overlay of plan polygons: union, intersection, difference, buffers, distance. GEOS does the work
// behind this header, in overlay.cpp only; nothing else in the engine sees it.
//
// Accuracy: GEOS in floating precision; areas of results agree with exact arithmetic to about
// 1e-12 relative. Rings come back closed-open (last point not repeated), outer rings
// counter-clockwise, holes clockwise. Invalid input is repaired first (self-crossings by
// even-odd), so no function fails on a polygon with at least three distinct points.
#pragma once

#include <vector>

#include "engine/base/result.hpp"
#include "engine/geom/shapes.hpp"

namespace rootstead {

MultiPolygon union_of(const std::vector<MultiPolygon>& parts);
MultiPolygon intersection_of(const MultiPolygon& a, const MultiPolygon& b);
MultiPolygon difference_of(const MultiPolygon& a, const MultiPolygon& b);

// The corridor of half-width `distance` along a line: flat ends, mitred corners (limit 5).
MultiPolygon corridor(const Line& line, Length half_width);

// A polygon grown outward (or shrunk, negative distance) with round corners of `segments` chords
// a quarter; the chords lie on the true arc, so the area is at most 1 - cos(45 deg/segments) low.
MultiPolygon grown(const MultiPolygon& area, Length distance, int segments = 32);

// A circle as a regular polygon of `corners` points on the true circle.
Polygon polygon_of(const Circle& circle, int corners = 256);

// Shortest distance between two shapes, 0 where they touch or overlap.
Length distance_between(const Point& point, const MultiPolygon& area);
Length distance_between(const Point& point, const Line& line);

}  // namespace rootstead
