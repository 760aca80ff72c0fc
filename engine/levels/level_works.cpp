#include "engine/levels/level_works.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "engine/base/amount_text.hpp"
#include "engine/base/text.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/levels/depth_spread.hpp"
#include "engine/levels/level_patches.hpp"
#include "engine/levels/level_prescriptions.hpp"
#include "engine/levels/level_words.hpp"
#include "engine/rules/zone.hpp"

namespace rootstead {
namespace {

// Both surfaces, ready, the offset of the surveys taken off.
struct Pair {
  PreparedLevels existing, proposed;
};

class Changes {
 public:
  Changes(const Site& site, const Tables& tables, const LevelOptions& options, Pair pair)
      : site_(site), tables_(tables), options_(options), pair_(std::move(pair)) {}

  Result<LevelChanges> work_out() {
    ROOTSTEAD_TRY(changes_.notes, comparable(pair_.existing, pair_.proposed, tables_));
    for (const PreparedLevels* levels : {&pair_.existing, &pair_.proposed})
      changes_.notes.insert(changes_.notes.end(), levels->notes().begin(), levels->notes().end());
    take_off_offset();
    find_works();
    for (const Tree& tree : site_.trees) look_at(tree);
    say_what_is_left_out();
    add_prescriptions(changes_, site_, tables_);
    return std::move(changes_);
  }

 private:
  double best(const char* parameter) const { return tables_.parameter(parameter).best; }

  // Ground outside every proposed work; empty where no work is drawn.
  MultiPolygon quiet_ground() const {
    std::vector<MultiPolygon> disturbed;
    for (const Work& work : site_.works) {
      if (work.state != WorkState::existing) disturbed.push_back(footprint(work, true));
    }
    if (disturbed.empty()) return {};
    const Box box = pair_.existing.extent();
    const MultiPolygon all{Polygon{{{box.min_x, box.min_y},
                                    {box.max_x, box.min_y},
                                    {box.max_x, box.max_y},
                                    {box.min_x, box.max_y}},
                                   {}}};
    return difference_of(all, union_of(disturbed));
  }

  void take_off_offset() {
    changes_.offset = survey_offset(pair_.existing, pair_.proposed, quiet_ground(), tables_);
    const SurveyOffset& offset = *changes_.offset;
    if (!offset.uniform || options_.offset_is_earthwork) return;
    changes_.notes.insert(changes_.notes.end(), offset.notes.begin(), offset.notes.end());
    pair_.proposed = pair_.proposed.raised(-offset.median);
    changes_.notes.push_back(
        {NoteCode::levels_offset, pair_.proposed.name(),
         "works and depths from levels are those that remain when " + signed_metres(offset.median) +
             " is taken off; say that the offset is earthwork if the ground really changes so."});
  }

  void find_works() {
    const PatchRule rule{best("levels.change_noticed"), best("levels.least_patch"),
                         best("levels.outline_tolerance")};
    const MultiPolygon* within = options_.within.empty() ? nullptr : &options_.within;
    const LevelPatches patches = level_patches(pair_.existing, pair_.proposed, within, rule);
    add_works(patches.lowered, WorkKind::cut, rule.least);
    add_works(patches.raised, WorkKind::fill, rule.least);
    if (changes_.works.empty()) return;
    changes_.notes.push_back({NoteCode::levels_works, "",
                              counted(changes_.works.size(), "work", "works") +
                                  " made from the levels; the depth of " + "each is what " +
                                  percent(best("levels.depth_quantile"), 0) +
                                  " of its ground does not exceed."});
  }

  static std::string counted(std::size_t count, const std::string& one, const std::string& many) {
    return std::to_string(count) + " " + (count == 1 ? one : many);
  }

  void add_works(const std::vector<Polygon>& patches, WorkKind kind, double least) {
    const bool cut = kind == WorkKind::cut;
    const double share = best("levels.depth_quantile");
    std::size_t number = 0;
    for (const Polygon& patch : patches) {
      const DepthSpread spread(pair_.existing, pair_.proposed, {patch});
      const Area changed = cut ? spread.below(-least) : spread.above(least);
      if (!(changed.square_metres() > 0)) continue;
      const double depth =
          cut ? spread.lowered_quantile(least, share) : spread.raised_quantile(least, share);
      Work work;
      work.id = std::string(cut ? "levels-cut-" : "levels-fill-") + std::to_string(++number);
      work.name = std::string(cut ? "Ground lowered " : "Ground raised ") + std::to_string(number);
      work.kind = kind;
      work.shape.areas = {patch};
      work.depth = EnteredLength{std::round(depth * 1000) / 1000, LengthUnit::metre};
      work.notes =
          "from " + surface_words(pair_.existing) + " and " + surface_words(pair_.proposed);
      work.origin = {pair_.proposed.name(), "levels"};
      changes_.works.push_back(std::move(work));
    }
  }

  void look_at(const Tree& tree) {
    if (!tree.position) {
      ++without_place_;
      return;
    }
    look_at_trunk(tree);
    for (const std::string& id : site_.settings.rules) {
      if (const ZoneRule* rule = tables_.rule(id)) look_at_zones(tree, *rule);
    }
  }

  // Greatest rise and fall at the trunk and a step round it.
  void look_at_trunk(const Tree& tree) {
    Length radius;
    for (const Stem& stem : tree.stems) radius = std::max(radius, stem.diameter() / 2);
    if (tree.basal_diameter) radius = std::max(radius, tree.basal_diameter->length() / 2);
    const Length reach = radius + Length::metres(best("levels.trunk_clear"));
    const MultiPolygon ring{polygon_of({tree.position->at, reach}, 64)};
    const Earthwork work = earthwork_between(pair_.existing, pair_.proposed, ring);
    if (!(work.area.square_metres() > 0)) {
      ++off_ground_;
      return;
    }
    changes_.trunks.push_back({tree.id, work.highest_fill, work.deepest_cut});
  }

  void look_at_zones(const Tree& tree, const ZoneRule& rule) {
    const auto zones = zones_of(tree, rule, tables_, site_.barriers);
    if (!zones) return;  // the assessment says why
    for (const Zone& zone : *zones) {
      const MultiPolygon outline =
          zone.outline ? *zone.outline : MultiPolygon{polygon_of({zone.centre, zone.radius})};
      if (outline.empty() || !meets_ground(outline)) continue;
      const std::string subject = "tree " + tree.label() + ", " + zone.name;
      auto depths = zone_depths(pair_.existing, pair_.proposed, outline, subject, tables_);
      if (!depths) {
        changes_.notes.push_back(
            {NoteCode::levels_not_covering, tree.id, depths.error().sentence()});
        continue;
      }
      changes_.zones.push_back({tree.id, rule.id, zone.zone, std::move(depths).value()});
    }
  }

  bool meets_ground(const MultiPolygon& outline) const {
    const Box box = box_of(outline);
    const auto meets = [&](const Box& ground) {
      return box.min_x <= ground.max_x && ground.min_x <= box.max_x && box.min_y <= ground.max_y &&
             ground.min_y <= box.max_y;
    };
    return meets(pair_.existing.extent()) && meets(pair_.proposed.extent());
  }

  void say_what_is_left_out() {
    if (off_ground_ > 0) {
      changes_.notes.push_back({NoteCode::levels_not_covering, "",
                                counted(off_ground_, "tree stands", "trees stand") +
                                    " where one of the two surfaces has no levels; nothing is said "
                                    "of fill or lowered ground there."});
    }
    if (without_place_ > 0) {
      changes_.notes.push_back({NoteCode::levels_zone_missing, "",
                                counted(without_place_, "tree has", "trees have") +
                                    " no position and could not be compared with the levels."});
    }
  }

  const Site& site_;
  const Tables& tables_;
  const LevelOptions& options_;
  Pair pair_;
  LevelChanges changes_;
  std::size_t without_place_ = 0, off_ground_ = 0;
};

}  // namespace

Result<LevelChanges> level_changes(const Site& site, const Tables& tables,
                                   const LevelOptions& options) {
  if (!site.existing_levels || !site.proposed_levels) {
    LevelChanges none;
    if (site.existing_levels || site.proposed_levels) {
      none.notes.push_back({NoteCode::levels_one_missing, "",
                            std::string("only the ") +
                                (site.existing_levels ? "existing" : "proposed") +
                                " levels are known: no cut or fill can be worked out from them."});
    }
    return none;
  }
  ROOTSTEAD_TRY(PreparedLevels existing, PreparedLevels::prepare(*site.existing_levels));
  ROOTSTEAD_TRY(PreparedLevels proposed, PreparedLevels::prepare(*site.proposed_levels));
  return Changes(site, tables, options, {std::move(existing), std::move(proposed)}).work_out();
}

Result<std::vector<Work>> level_works(const Site& site, const Tables& tables,
                                      const LevelOptions& options) {
  ROOTSTEAD_TRY(LevelChanges changes, level_changes(site, tables, options));
  return std::move(changes.works);
}

}  // namespace rootstead
