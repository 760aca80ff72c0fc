// What a change of levels does inside one zone of a tree.
#pragma once

#include <string>
#include <vector>

#include "engine/levels/earthwork.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

struct ZoneDepths {
  Earthwork all;
  Length threshold;         // levels.change_noticed
  double share_cut = 0;     // of the zone, lowered by more than the threshold
  double share_filled = 0;  // of the zone, raised by more
  Length cut_depth;         // that nine tenths of the lowered ground does not exceed
  Length fill_height;       // the same of the raised ground
};

// `subject` names the zone in messages: "tree T1, root protection area". Fails with
// value_invalid for datums that differ, and with outside_rule_domain where a surface does not
// cover the zone but for levels.missing_share: the sentence names the surface and the share.
Result<ZoneDepths> zone_depths(const PreparedLevels& existing, const PreparedLevels& proposed,
                               const MultiPolygon& zone, const std::string& subject,
                               const Tables& tables);

}  // namespace rootstead
