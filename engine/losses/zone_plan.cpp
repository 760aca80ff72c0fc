#include "engine/losses/zone_plan.hpp"

#include <algorithm>

#include "engine/geom/circle_area.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"

namespace rootstead {
namespace {

// Rounding of areas on a grid of a million metres; a work that only touches a zone stays outside.
constexpr double kTouchShare = 1e-9;

Length farthest(const Point& centre, const MultiPolygon& outline) {
  Length reach;
  for (const Polygon& polygon : outline) {
    for (const Point& corner : polygon.outer) reach = std::max(reach, distance(centre, corner));
  }
  return reach;
}

}  // namespace

ZonePlan::ZonePlan(const Zone& zone)
    : zone_(zone), reach_(zone.outline ? farthest(zone.centre, *zone.outline) : zone.radius) {}

Area ZonePlan::common(const MultiPolygon& ground) const {
  if (ground.empty()) return {};
  const Area found = zone_.outline ? area_of(intersection_of(*zone_.outline, ground))
                                   : common_area(circle(), ground);
  return std::clamp(found, Area(), zone_.area);
}

Area ZonePlan::common(const MergedGround& ground) const {
  if (zone_.outline) return common(ground.near(centre(), reach_));
  return std::clamp(ground.common(circle()), Area(), zone_.area);
}

double ZonePlan::share_of(Area area) const {
  return zone_.area > Area() ? std::clamp(area / zone_.area, 0.0, 1.0) : 0.0;
}

Length ZonePlan::nearest(const MultiPolygon& ground) const {
  if (!zone_.outline) return distance_between(centre(), ground);
  return distance_between(centre(), intersection_of(*zone_.outline, ground));
}

bool ZonePlan::counts(Area area) const {
  return area > zone_.area * kTouchShare;
}

}  // namespace rootstead
