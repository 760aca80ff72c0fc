// The distances of overlay.hpp: plain arithmetic, no GEOS.
#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/geom/along.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"

namespace rootstead {
namespace {

constexpr double kNowhere = std::numeric_limits<double>::infinity();

double distance_to_ring(const Point& p, const Ring& ring) {
  double least = kNowhere;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point& next = ring[i + 1 < ring.size() ? i + 1 : 0];
    least = std::min(least, distance_to_segment(p, ring[i], next));
  }
  return least;
}

}  // namespace

Length distance_between(const Point& point, const MultiPolygon& area) {
  if (contains(area, point)) return {};
  double least = kNowhere;
  for (const Polygon& polygon : area) {
    least = std::min(least, distance_to_ring(point, polygon.outer));
    for (const Ring& hole : polygon.holes) least = std::min(least, distance_to_ring(point, hole));
  }
  return Length::metres(least);
}

Length distance_between(const Point& point, const Line& line) {
  if (line.size() == 1) return distance(point, line.front());
  double least = kNowhere;
  for (std::size_t i = 1; i < line.size(); ++i)
    least = std::min(least, distance_to_segment(point, line[i - 1], line[i]));
  return Length::metres(least);
}

}  // namespace rootstead
