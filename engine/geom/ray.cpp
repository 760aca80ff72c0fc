#include "engine/geom/ray.hpp"

#include <algorithm>
#include <cmath>

namespace rootstead {
namespace {

using Interval = std::pair<double, double>;

// Coordinates along the ray and across it, to the left.
struct RayFrame {
  Point origin;
  double east, north;  // unit vector of the ray

  Point of(const Point& p) const {
    const double dx = p.x - origin.x;
    const double dy = p.y - origin.y;
    return {dx * east + dy * north, dy * east - dx * north};
  }
};

// Where the ring crosses the whole line of the ray. Points on the line count as left of it, so
// every passage counts once and the number of crossings is even.
void add_crossings(const RayFrame& frame, const Ring& ring, std::vector<double>& along) {
  if (ring.size() < 3) return;
  Point a = frame.of(ring.back());
  for (const Point& corner : ring) {
    const Point b = frame.of(corner);
    if ((a.y >= 0) != (b.y >= 0)) along.push_back(a.x + (b.x - a.x) * (a.y / (a.y - b.y)));
    a = b;
  }
}

void add_intervals(const RayFrame& frame, double reach, const Polygon& polygon,
                   std::vector<Interval>& intervals) {
  std::vector<double> along;
  add_crossings(frame, polygon.outer, along);
  for (const Ring& hole : polygon.holes) add_crossings(frame, hole, along);
  std::sort(along.begin(), along.end());
  for (std::size_t i = 0; i + 1 < along.size(); i += 2) {
    const Interval part{std::max(along[i], 0.0), std::min(along[i + 1], reach)};
    if (part.first < part.second) intervals.push_back(part);
  }
}

void merge(std::vector<Interval>& intervals) {
  std::sort(intervals.begin(), intervals.end());
  std::size_t kept = 0;
  for (const Interval& next : intervals) {
    if (kept > 0 && next.first <= intervals[kept - 1].second) {
      intervals[kept - 1].second = std::max(intervals[kept - 1].second, next.second);
    } else {
      intervals[kept++] = next;
    }
  }
  intervals.resize(kept);
}

}  // namespace

std::vector<Interval> ray_crossings(const Point& origin, Angle azimuth, double reach,
                                    const MultiPolygon& area) {
  const RayFrame frame{origin, std::sin(azimuth.radians()), std::cos(azimuth.radians())};
  std::vector<Interval> intervals;
  for (const Polygon& polygon : area) add_intervals(frame, reach, polygon, intervals);
  merge(intervals);
  return intervals;
}

}  // namespace rootstead
