// ZonePlan: a zone as ground in plan, circle or outline, so that areas are asked in one way.
#pragma once

#include "engine/losses/merged_ground.hpp"
#include "engine/rules/zone.hpp"

namespace rootstead {

// Keeps a reference to the zone, which must outlive it.
class ZonePlan {
 public:
  explicit ZonePlan(const Zone& zone);

  const Point& centre() const { return zone_.centre; }
  Length reach() const { return reach_; }  // from the centre to its farthest point
  Circle circle() const { return {zone_.centre, zone_.radius}; }

  // `ground` must not overlap itself. Never more than the zone's area.
  Area common(const MultiPolygon& ground) const;
  Area common(const MergedGround& ground) const;
  // `area` as a share of the zone, in [0, 1].
  double share_of(Area area) const;
  // From the centre to the nearest point of `ground` inside the zone. Requires common() > 0.
  Length nearest(const MultiPolygon& ground) const;
  // Is this area more than a touch, given rounding?
  bool counts(Area area) const;

 private:
  const Zone& zone_;
  Length reach_;
};

}  // namespace rootstead
