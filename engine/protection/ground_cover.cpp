#include "engine/protection/ground_cover.hpp"

#include <algorithm>

#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"

namespace rootstead {
namespace {

constexpr Length kSliver = Length::millimetres(300);  // leftovers narrower than this are none

// What of `a` lies near `box`: overlays cost by the corners of both sides.
MultiPolygon near(const MultiPolygon& area, const Box& box) {
  MultiPolygon found;
  for (const Polygon& polygon : area) {
    const Box other = box_of(polygon.outer);
    if (other.min_x <= box.max_x && box.min_x <= other.max_x && other.min_y <= box.max_y &&
        box.min_y <= other.max_y)
      found.push_back(polygon);
  }
  return found;
}

class CoverLayer {
 public:
  explicit CoverLayer(const PlanGround& ground) : ground_(ground) {}

  // Of the ground asked for, what is the trees', not dug away, not surfaced and not covered yet.
  void add(CoveredGround cover, const MultiPolygon& asked) {
    const Box box = box_of(asked);
    if (box.empty()) return;
    MultiPolygon area = intersection_of(asked, near(ground_.rooted, box));
    for (const MultiPolygon* other : std::initializer_list<const MultiPolygon*>{
             &ground_.excavated, &ground_.surfaced, &ground_.standing, &done_})
      area = difference_of(area, near(*other, box));
    for (Polygon& part : area) {
      if (area_of(part) > kTouch) cover.area.push_back(std::move(part));
    }
    if (cover.area.empty()) return;
    cover.id = "P" + std::to_string(covers_.size() + 1);
    cover.trees = ground_.trees_in(cover.area);
    done_.insert(done_.end(), cover.area.begin(), cover.area.end());
    covers_.push_back(std::move(cover));
  }

  const MultiPolygon& done() const { return done_; }
  std::vector<CoveredGround> take() && { return std::move(covers_); }

 private:
  const PlanGround& ground_;
  std::vector<CoveredGround> covers_;
  MultiPolygon done_;
};

// What people and machines need beside the work, or under them where the work is traffic.
MultiPolygon trodden_by(const CountedWork& work) {
  if (work.work->kind == WorkKind::traffic) return work.kept_clear;
  const MultiPolygon& all = work.kept_clear.empty() ? work.with_room : work.kept_clear;
  return difference_of(all, work.footprint);
}

bool needs_room(const Work& work) {
  const bool room = work.working_room && work.working_room->length() > Length();
  return room || work.kind == WorkKind::traffic;
}

void cover_ways(const Enclosing& enclosing, const PlanGround& ground, CoverLayer& layer) {
  for (const Way& way : enclosing.ways) {
    CoveredGround cover;
    cover.way = way.id;
    cover.work = way.work;
    cover.load_assumed = true;
    for (const CountedWork& work : ground.works) {
      if (work.work->id != way.work || work.load == LoadClass::foot) continue;
      cover.load = work.load;
      cover.load_assumed = work.load_assumed;
    }
    layer.add(std::move(cover), ground_of(way));
  }
}

void cover_works(const PlanGround& ground, CoverLayer& layer) {
  for (const LoadClass load : {LoadClass::heavy, LoadClass::light_plant, LoadClass::foot}) {
    for (const CountedWork& work : ground.works) {
      if (work.load != load || !needs_room(*work.work)) continue;
      if (ground.trees_meeting(grown_box(work.box, Length::metres(1))).empty()) continue;
      CoveredGround cover;
      cover.work = work.work->id;
      cover.load = load;
      cover.load_assumed = work.load_assumed;
      layer.add(std::move(cover), trodden_by(work));
    }
  }
}

void cover_leftovers(const Enclosing& enclosing, const PlanGround& ground, CoverLayer& layer) {
  const MultiPolygon fenced = areas_of(enclosing.enclosures);
  MultiPolygon rest = difference_of(ground.rooted, fenced);
  rest = difference_of(rest, ground.kept_clear);
  rest = difference_of(rest, layer.done());
  MultiPolygon wide;
  for (const Polygon& part : rest) {
    if (area_of(part) > Area::square_metres(0.5) && !grown({part}, kSliver / -2).empty())
      wide.push_back(part);
  }
  for (const Polygon& part : wide) {
    CoveredGround cover;
    cover.load = LoadClass::foot;
    layer.add(std::move(cover), {part});
  }
}

}  // namespace

std::vector<CoveredGround> covers_of(const Enclosing& enclosing, const PlanGround& ground) {
  CoverLayer layer(ground);
  cover_ways(enclosing, ground, layer);
  cover_works(ground, layer);
  cover_leftovers(enclosing, ground, layer);
  return std::move(layer).take();
}

std::vector<NoDigArea> no_dig_areas(const PlanGround& ground) {
  std::vector<NoDigArea> areas;
  for (const CountedWork& work : ground.works) {
    if (work.work->kind != WorkKind::paving) continue;
    NoDigArea area;
    area.work = work.work->id;
    area.area = intersection_of(work.footprint, near(ground.rooted, work.box));
    area.trees = ground.trees_in(work.footprint);
    if (!area.trees.empty()) areas.push_back(std::move(area));
  }
  return areas;
}

MultiPolygon mulch_of(const std::vector<Enclosure>& enclosures, const PlanGround& ground) {
  MultiPolygon area = intersection_of(areas_of(enclosures), ground.rooted);
  area = difference_of(area, ground.surfaced);
  std::vector<MultiPolygon> stems;
  for (const KeptTree& kept : ground.kept) {
    if (!kept.tree->position) continue;
    stems.push_back(
        {polygon_of({kept.tree->position->at, kept.trunk + ground.figures.mulch_clear}, 64)});
  }
  return difference_of(area, union_of(stems));
}

std::vector<ProtectedTree> protected_trees(const std::vector<Enclosure>& enclosures,
                                           const std::vector<CoveredGround>& covers,
                                           const PlanGround& ground) {
  MultiPolygon fenced = areas_of(enclosures), covered;
  for (const CoveredGround& cover : covers)
    covered.insert(covered.end(), cover.area.begin(), cover.area.end());
  std::vector<ProtectedTree> trees;
  for (const KeptTree& kept : ground.kept) {
    if (!kept.reason.empty()) continue;
    ProtectedTree tree{kept.tree->id, kept.zone->rule, kept.zone->zone, kept.ground, {}, 0, 0,
                       kept.plate};
    const double all = area_of(kept.ground).square_metres();
    const MultiPolygon unfenced = difference_of(kept.ground, near(fenced, kept.box));
    const MultiPolygon bare = difference_of(unfenced, near(covered, kept.box));
    const double without_fence = area_of(unfenced).square_metres();
    tree.fenced = std::clamp(1 - without_fence / all, 0.0, 1.0);
    tree.covered = std::clamp((without_fence - area_of(bare).square_metres()) / all, 0.0, 1.0);
    tree.open = difference_of(bare, near(ground.kept_clear, kept.box));
    trees.push_back(std::move(tree));
  }
  return trees;
}

std::vector<StemGuard> guards_of(const std::vector<Enclosure>& enclosures,
                                 const PlanGround& ground) {
  std::vector<StemGuard> guards;
  const MultiPolygon fenced = areas_of(enclosures);
  for (const KeptTree& kept : ground.kept) {
    if (!kept.reason.empty()) continue;
    const Point& stem = kept.tree->position->at;
    if (!ground.boundary.empty() && !contains(ground.boundary, stem)) continue;
    if (contains(near(fenced, {stem.x, stem.y, stem.x, stem.y}), stem)) continue;
    guards.push_back({kept.tree->id, "its trunk stands outside every fence"});
  }
  return guards;
}

}  // namespace rootstead
