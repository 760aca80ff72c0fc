// Works that follow from a change of levels: what is dug away and what is heaped up, and what it
// does at each trunk and over each tree's roots.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/base/note.hpp"
#include "engine/base/prescription.hpp"
#include "engine/base/units.hpp"
#include "engine/levels/survey_offset.hpp"
#include "engine/levels/zone_depths.hpp"
#include "engine/site/site.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

struct LevelOptions {
  // Ground for which works are looked for; empty: all that both surfaces cover.
  MultiPolygon within;
  // A uniform offset between the surfaces is earthwork, not a matter of survey: the person said so.
  bool offset_is_earthwork = false;
};

// Fill against the trunk of a tree, by the proposed levels.
struct TrunkFill {
  std::string tree;
  Length height;   // greatest rise at the trunk and levels.trunk_clear round it; 0: none
  Length lowered;  // greatest fall there; 0: none
};

// Lowered and raised ground over one zone of a tree.
struct ZoneLevels {
  std::string tree, rule, zone;
  ZoneDepths depths;
};

struct LevelChanges {
  std::vector<Work> works;  // "levels-cut-1", "levels-fill-1" ...: proposed, by size
  std::optional<SurveyOffset> offset;
  std::vector<TrunkFill> trunks;  // of trees with a position on covered ground
  std::vector<ZoneLevels> zones;  // of the rules of the site, where both surfaces cover them
  std::vector<Prescription> prescriptions;
  std::vector<Note> notes;  // zones not covered, trees without place, what was assumed
};

// Of the site's existing and proposed levels. No result, no failure, where the site has neither or
// only one of them: empty with a note where it has only one. Fails as PreparedLevels::prepare() and
// comparable() do.
//
// Works: ground lowered (raised) by more than levels.change_noticed, in patches of at least
// levels.least_patch. The outline is simplified; it holds all the true area and lies at most twice
// levels.outline_tolerance outside it. The depth is what nine tenths of the patch does not exceed.
// Where the surfaces are offset as a whole the offset is taken off first, and a note says so.
Result<LevelChanges> level_changes(const Site& site, const Tables& tables,
                                   const LevelOptions& options = {});

// The works alone.
Result<std::vector<Work>> level_works(const Site& site, const Tables& tables,
                                      const LevelOptions& options = {});

}  // namespace rootstead
