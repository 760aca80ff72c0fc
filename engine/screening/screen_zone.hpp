// The zone by which a tree is screened, remembered: a city has a million trees and a few thousand
// sizes of them.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <unordered_map>

#include "engine/rules/zone.hpp"

namespace rootstead {

// A zone round any tree alike in all that rules look at. Where there is none, `why_none` says why
// and the rest is empty.
struct ScreenZone {
  std::string zone;  // id in the rule
  Length radius;     // where the zone is an outline, of the circle of its area
  Length reach;
  Area area;
  std::shared_ptr<const MultiPolygon> outline;  // about (0, 0); null where the zone is a circle
  std::string why_none;
  std::string remark;  // what was taken for want of a measurement; empty where nothing

  bool known() const { return why_none.empty(); }
};

// One for each thread: it is not shared. Every zone is that of zones_of() without barriers.
class ZoneMemory {
 public:
  // `zone` is the id of one of the rule's zones; where it is empty, the widest that the rule draws
  // round the tree is taken, so that no work in reach of any is overlooked. Rule and tables must
  // outlive it. Requires: the rule has a zone of that id.
  ZoneMemory(const ZoneRule& rule, const Tables& tables, std::string zone = {});
  // Valid until the next call.
  const ScreenZone& zone_of(const Tree& tree);

 private:
  const ZoneRule& rule_;
  const Tables& tables_;
  std::string zone_;
  std::string key_;
  std::unordered_map<std::string, ScreenZone> known_;
};

}  // namespace rootstead
