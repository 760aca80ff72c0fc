// Zones: what a rule draws round one tree. Exact geometry, no ranges; roots are another matter
// (engine/roots).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/base/figure.hpp"
#include "engine/base/note.hpp"
#include "engine/geom/shapes.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

struct Zone {
  std::string rule;  // ids
  std::string zone;
  std::string name;
  ZonePurpose purpose = ZonePurpose::vitality;
  Point centre;
  Length radius;  // from the stem centre; of the equal circle where the zone is an outline
  std::optional<MultiPolygon>
      outline;  // where the zone is no circle: crown outline, redrawn at a barrier
  Area area;
  bool capped = false, raised = false, redrawn = false;
  Length diameter;          // the D that went in; zero where the rule takes none
  Figure figure;            // the trail of the radius
  std::vector<Note> notes;  // "rule has no clause for palms" stays out: see zones_of
};

// All zones of `rule` for one tree. `position` may be missing: the zone then stands at (0, 0) and
// has radius and area only.
// Barriers redraw a zone whose rule asks for it: a circle of equal area kept on the tree's side.
// Fails with outside_rule_domain where the rule has no clause for this growth form (a palm under a
// stem-diameter rule), with missing_measurement where a needed measurement is absent.
Result<std::vector<Zone>> zones_of(const Tree& tree, const ZoneRule& rule, const Tables& tables,
                                   const std::vector<Barrier>& barriers = {});

// Radius R of the circle that, cut by a straight line at `distance` from its centre, keeps on the
// centre's side the area of the full circle of radius r: pi R^2 - segment(R, distance) = pi r^2.
// Accuracy: 1e-12 relative. Requires 0 <= distance.
Length equal_area_radius(Length r, Length distance);

}  // namespace rootstead
