// Plan shapes on the site's projected grid: x east, y north, metres. Angles are azimuths: degrees
// clockwise from grid north.
#pragma once

#include <vector>

#include "engine/base/quantity.hpp"

namespace rootstead {

struct Point {
  double x = 0;
  double y = 0;
  friend bool operator==(const Point&, const Point&) = default;
};

using Line = std::vector<Point>;

// Closed: the last point joins the first and is not repeated. Either orientation.
using Ring = std::vector<Point>;

struct Polygon {
  Ring outer;
  std::vector<Ring> holes;
  friend bool operator==(const Polygon&, const Polygon&) = default;
};

// Polygons that do not overlap; the empty list is the empty area.
using MultiPolygon = std::vector<Polygon>;

struct Circle {
  Point centre;
  Length radius;
};

struct Box {
  double min_x = 0, min_y = 0, max_x = -1, max_y = -1;  // empty where max < min
  bool empty() const { return max_x < min_x || max_y < min_y; }
  Point centre() const { return {(min_x + max_x) / 2, (min_y + max_y) / 2}; }
};

}  // namespace rootstead
