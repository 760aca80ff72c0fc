// Losses: works laid over zones and roots. The one place where works meet trees.
#pragma once

#include <vector>

#include "engine/roots/root_model.hpp"
#include "engine/rules/limits.hpp"
#include "engine/site/site.hpp"

namespace rootstead {

// The works of a site prepared once: footprints, unions, boxes, an index by place.
class WorkMap {
 public:
  explicit WorkMap(const Site& site);
  struct Entry {
    const Work* work = nullptr;
    MultiPolygon ground;     // footprint
    MultiPolygon with_room;  // footprint and working room
    Box box;                 // of with_room
  };
  const std::vector<Entry>& entries() const { return entries_; }
  // Indices into entries() of works whose box comes within `reach` of `at`, ascending.
  std::vector<std::size_t> near(const Point& at, Length reach) const;
  // Existing surfaces, existing buildings (barriers of kind building) merged, near a place.
  MultiPolygon surfaced_near(const Point& at, Length reach) const;

 private:
  std::vector<Entry> entries_;
  std::vector<Polygon> surfaced_;
};

ZoneLoss zone_loss(const Zone& zone, const WorkMap& works);
std::vector<LimitResult> check_limits(const ZoneRule& rule, const std::vector<Zone>& zones,
                                      const std::vector<ZoneLoss>& losses, const Tree& tree,
                                      const WorkMap& works);

// The same works as the root model and the anchorage model see them.
std::vector<GroundTaking> takings_near(const Tree& tree, Length reach, const WorkMap& works);

}  // namespace rootstead
