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
  Length radius;  // from the stem centre; where the zone is an outline, of the circle of its area
  Length reach;   // no part of the zone lies farther from the centre
  // Where the zone is no circle: a crown outline, a circle cut and enlarged at a barrier. Points
  // on the true curve; `area` is that of the curve, up to 5e-4 more than the outline's.
  std::optional<MultiPolygon> outline;
  Area area;
  bool capped = false, raised = false, redrawn = false;
  Length diameter;          // the D that went in; zero where the rule takes none
  Figure figure;            // the trail of the radius
  std::vector<Note> notes;  // what a reader must know to use it
};

// All zones of `rule` for one tree. `position` may be missing: the zone then stands at (0, 0) and
// no barrier redraws it. A growth form or tolerance that the tree does not say comes from the
// species; where that is silent too, a form is taken to be no palm and a tolerance to be poor, with
// a note.
// Barriers redraw a zone whose rule asks for it: a circle of equal area kept on the tree's side
// (engine/rules/redraw.hpp).
// A zone that lacks a measurement is left out and named in a note of the others. Fails with
// outside_rule_domain where the rule has no clause for the tree (a palm under a stem-diameter
// rule), with missing_measurement where no zone of the rule can be computed.
Result<std::vector<Zone>> zones_of(const Tree& tree, const ZoneRule& rule, const Tables& tables,
                                   const std::vector<Barrier>& barriers = {});

// Does the rule's definition speak of this tree?
bool applies_to(const Applies& applies, const Tree& tree);

}  // namespace rootstead
