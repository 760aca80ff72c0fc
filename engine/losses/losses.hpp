// Losses: works laid over zones and roots. The one place where works meet trees.
//
// What counts (decision record "What counts as affected ground"):
// - Affected ground is the footprint of a proposed or approved work and its working room: machines
//   press and store there. The part without working room is given beside it.
// - Existing works are listed with what they take, marked as existing, and are never part of a
//   share: limits speak of new works. Existing paving and buildings make ground "surfaced today".
// - A bore counts with its pits only; a root cut with the narrow corridor of the tool.
//
// Accuracy: areas of circular zones are exact to 1e-9 relative, unions and shadows included
// (straight edges by GEOS, the circle by a boundary integral). Zones with an outline are as exact
// as the outline.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "engine/geom/box_index.hpp"
#include "engine/losses/merged_ground.hpp"
#include "engine/roots/root_model.hpp"
#include "engine/rules/limits.hpp"
#include "engine/site/site.hpp"

namespace rootstead {

bool is_new(const Work& work);  // proposed or approved
// Does the work cut the roots it meets, so that what lies beyond is lost too? Works that dig, and
// root cuts; paving by the depth of its construction.
bool severs(const Work& work);
// How deep it severs: the bottom of the pits for a bore. Zero where it does not sever.
Length severed_depth(const Work& work);

// The works of a site prepared once: footprints, unions, boxes, an index by place. The site must
// outlive it.
class WorkMap {
 public:
  WorkMap() = default;  // without works
  explicit WorkMap(const Site& site);
  // The same, bit for bit, where `before` was made of this site and since then only the work
  // `changed` was put, added or removed: what it does not touch is taken from there.
  WorkMap(const Site& site, const WorkMap& before, std::string_view changed);
  struct Entry {
    const Work* work = nullptr;
    std::string id;          // of the work
    MultiPolygon ground;     // footprint; empty where the work has no shape
    MultiPolygon with_room;  // footprint and working room
    MultiPolygon room;       // working room alone
    Box box;                 // of with_room
  };
  const std::vector<Entry>& entries() const { return entries_; }
  // The entry of a work of this site. Requires: there is one.
  const Entry& entry(std::string_view work) const;
  // Indices into entries() of works that come, with their room, within `reach` of `at`, ascending.
  std::vector<std::size_t> near(const Point& at, Length reach) const;
  // Existing surfaces, existing buildings (barriers of kind building) merged, near a place.
  MultiPolygon surfaced_near(const Point& at, Length reach) const;

  // Unions over the whole site, so that no tree has to make its own.
  const MergedGround& affected() const { return affected_; }    // new works with working room
  const MergedGround& footprint() const { return footprint_; }  // new works without
  const MergedGround& existing() const { return existing_; }    // existing works, footprint
  const MergedGround& surfaced() const { return surfaced_; }
  const MergedGround& new_surfacing() const { return new_surfacing_; }  // not surfaced today

  // Boxes of all merged ground that was merged anew since the map this was made from: a far change
  // moves the last digit of areas here.
  const std::vector<Box>& merged_anew() const { return merged_anew_; }
  // What the work makes in the ground, with its room; empty where there is no such work.
  MultiPolygon ground_of(std::string_view work) const;

 private:
  void lay_together(const Site& site, const WorkMap& before);

  std::vector<Entry> entries_;
  BoxIndex places_;
  std::vector<Box> merged_anew_;
  MergedGround affected_, footprint_, existing_, surfaced_, hard_, new_surfacing_;
};

// With or without ZoneLoss::beyond, which takes most of the time and which few rules look at.
enum class Beyond { left_out, counted };
// Requires: the zone stands where its tree stands.
ZoneLoss zone_loss(const Zone& zone, const WorkMap& works, Beyond beyond = Beyond::counted);

// Every limit of `rule` on each of `zones` (`losses` in the same order), with its trail. Distances
// are counted from the bark where the zone is. `tree` gives the trunk where the zone took no
// diameter.
std::vector<LimitResult> check_limits(const ZoneRule& rule, const std::vector<Zone>& zones,
                                      const std::vector<ZoneLoss>& losses, const Tree& tree,
                                      const WorkMap& works);

// The same works as the root model sees them: footprints that sever, and what presses: works that
// do not sever, and the working room of all. New works only.
// Requires: tree.position.
std::vector<GroundTaking> takings_near(const Tree& tree, Length reach, const WorkMap& works);

// Ids of new works whose footprint meets the trunk, a disc of `trunk_radius` round the stem.
// Requires: tree.position.
std::vector<std::string> works_on_stem(const Tree& tree, Length trunk_radius, const WorkMap& works);

}  // namespace rootstead
