// Screening: every tree of a town against every work of a network, one rule at a time. It sorts out
// the few trees that a work comes near; the full model (engine/assess) is for those. Not an
// assessment of any tree.
//
// Counted as engine/losses counts: ground that proposed and approved works take, with their working
// room, as an exact share of the zone; ground that several works take counts once. Not looked at:
// barriers (no zone is redrawn), depth, levels, how roots grow.
#pragma once

#include <optional>
#include <string_view>

#include "engine/screening/network_ground.hpp"
#include "engine/screening/screen_zone.hpp"

namespace rootstead {

enum class ScreenStatus {
  in_reach,     // a work takes ground of the zone
  clear,        // no work does; says nothing else of the tree
  no_figure,    // the rule gives no zone: a palm, no diameter; the nearest work is still told
  no_position,  // nowhere to look
};
std::string_view to_text(ScreenStatus status);  // "in reach", "clear", "no figure", "no position"

struct TreeScreening {
  ScreenStatus status = ScreenStatus::no_position;
  std::optional<double> share;  // of the zone taken, 0 to 1; nothing without a zone or a place
  std::optional<double> worst_share;  // by the worst work alone; nothing where none takes any
  GroundAnswer ground;
};

// How far the nearest work is looked for where a zone reaches less far: our assumption.
inline constexpr Length kScreenLook = Length::metres(30);

TreeScreening screen(const Tree& tree, const ScreenZone& zone, const NetworkGround& ground,
                     Length look = kScreenLook);

}  // namespace rootstead
