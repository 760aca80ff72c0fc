// Limits: what share of a zone works take, and which of a rule's limits that passes.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/rules/zone.hpp"

namespace rootstead {

// What one tree's zone loses, exactly: by each work alone and by all together (a union, so nothing
// counts twice). Affected ground is the footprint of every proposed or approved work with its
// working room, since machines press there; works that exist already are listed apart.
struct ZoneLoss {
  Area affected;     // union of all new works inside the zone
  double share = 0;  // of the zone's area
  Area footprint;    // the part of `affected` without working room
  Area existing;     // union of the existing works inside the zone, never part of `affected`
  // Zone area behind severing works as seen from the stem, not affected itself; nothing where it
  // was not asked for.
  std::optional<Area> beyond = Area();
  Area unsurfaced;     // zone area not surfaced or built on today
  Area new_surfacing;  // of the unsurfaced area, by new hard surfaces and buildings
  struct ByWork {
    std::string work;
    Area affected;
    double share = 0;
    Length nearest;         // from the zone's centre to the nearest affected point
    Area footprint;         // the part of `affected` without working room
    bool existing = false;  // stands already: not part of the zone's `affected`
  };
  std::vector<ByWork> by_work;  // only works that reach the zone, in the order of the site
};

struct LimitResult {
  std::string rule, zone, limit;  // ids
  bool passed_over = false;       // the limit is exceeded
  double value = 0;               // what was found, in the limit's own measure
  double threshold = 0;
  LimitDefinition::Weight weight = LimitDefinition::Weight::note;
  std::string triggers;
  std::vector<std::string> works;  // that bear on it, the largest first
  Figure figure;
};

}  // namespace rootstead
