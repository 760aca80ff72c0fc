// Overlay of plan polygons: union, intersection, difference, corridors, growth, distance. GEOS does
// the work behind this header, in overlay.cpp only; nothing else in the engine sees it.
//
// Accuracy: GEOS in floating precision; areas of results agree with exact arithmetic to about
// 1e-12 relative. Rings come back closed-open (last point not repeated), outer rings
// counter-clockwise, holes clockwise. Invalid input is repaired first: rings that cross themselves
// by even-odd, polygons that overlap by their union, points that are not finite left out; rings
// of fewer than three distinct points have no area and vanish. So nothing here fails; an empty
// list in or out is the empty area. All functions may run in many threads at once.
#pragma once

#include <vector>

#include "engine/base/result.hpp"
#include "engine/geom/shapes.hpp"

namespace rootstead {

MultiPolygon union_of(const std::vector<MultiPolygon>& parts);
// The union with every corner moved to a lattice of this spacing first, by at most 0.71 of it, so
// that parts which should share an edge leave no slits.
MultiPolygon union_on_lattice(const std::vector<MultiPolygon>& parts, Length spacing);
MultiPolygon intersection_of(const MultiPolygon& a, const MultiPolygon& b);
MultiPolygon difference_of(const MultiPolygon& a, const MultiPolygon& b);  // a without b

// Is every polygon simple, with its holes inside it and apart, and no two overlapping?
bool is_valid(const MultiPolygon& area);

// The corridor of half-width `half_width` along a line: flat ends, mitred corners, a corner whose
// mitre would be longer than 5 half-widths cut straight across. Nothing is simplified away: the
// area of a straight line's corridor is 2 w L. A line that ends where it began is mitred there
// too. A line without length or a width of zero or less has no corridor.
MultiPolygon corridor(const Line& line, Length half_width);

// A polygon grown outward (or shrunk, negative distance) with round corners of `segments` chords
// a quarter. The chords' ends lie on the true arc, so that the rounded parts' area is low by at
// most 1 - sin(a)/a with a = 90 deg/segments: 0.04 % for 32. GEOS smooths away notches shallower
// than 1 % of the distance, so an outline with such notches may differ by that much.
MultiPolygon grown(const MultiPolygon& area, Length distance, int segments = 32);

// The outline with corners left out where it stays within `tolerance` of what it was; parts and
// holes stay apart.
MultiPolygon simplified(const MultiPolygon& area, Length tolerance);

// A polygon grown outward with straight corners: mitred, and where the mitre would be longer than
// `longest_mitre` distances cut straight across. It covers what grown() gives, with few corners.
// Requires distance >= 0, longest_mitre >= 1.
MultiPolygon grown_straight(const MultiPolygon& area, Length distance, double longest_mitre = 1.5);

// A circle as a regular polygon of `corners` points on the true circle, counter-clockwise from
// the east. Requires corners >= 3.
Polygon polygon_of(const Circle& circle, int corners = 256);

// Shortest distance between two shapes, 0 where they touch or overlap, infinite where the second
// is empty.
Length distance_between(const Point& point, const MultiPolygon& area);
Length distance_between(const Point& point, const Line& line);

}  // namespace rootstead
