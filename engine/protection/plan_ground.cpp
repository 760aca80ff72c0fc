#include "engine/protection/plan_ground.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/losses/losses.hpp"
#include "engine/rules/redraw.hpp"
#include "engine/site/diameter.hpp"

namespace rootstead {
namespace {

constexpr int kZoneCorners = 256;  // low by 0.01 % of the area

// The direction in which the site lies as seen from its first tree.
SiteFrame frame_of(const Site& site) {
  SiteFrame frame;
  bool placed = false;
  const auto turn_to = [&](const Point& p) {
    if (!placed) {
      frame.origin = p;
      placed = true;
      return false;
    }
    if (distance(frame.origin, p) < Length::metres(0.5)) return false;
    frame.angle = std::atan2(p.y - frame.origin.y, p.x - frame.origin.x);
    return true;
  };
  for (const Tree& tree : site.trees)
    if (tree.position && turn_to(tree.position->at)) return frame;
  for (const Work& work : site.works) {
    for (const Line& line : work.shape.lines)
      for (const Point& p : line)
        if (turn_to(p)) return frame;
    for (const Polygon& polygon : work.shape.areas)
      for (const Point& p : polygon.outer)
        if (turn_to(p)) return frame;
  }
  for (const Polygon& polygon : site.boundary)
    for (const Point& p : polygon.outer)
      if (turn_to(p)) return frame;
  return frame;
}

// A regular polygon turned with the frame: corners at `radius`, or with `outside` its sides there.
MultiPolygon round_polygon(const Circle& circle, int corners, bool outside, const SiteFrame& f) {
  const double r = circle.radius.metres() / (outside ? std::cos(std::numbers::pi / corners) : 1);
  Polygon polygon;
  for (int i = 0; i < corners; ++i) {
    const double a = f.angle + 2 * std::numbers::pi * i / corners;
    polygon.outer.push_back({circle.centre.x + r * std::cos(a), circle.centre.y + r * std::sin(a)});
  }
  return {polygon};
}

// The fewest sides whose corners lie at most `out` outside the circle.
int straight_sides(Length radius, Length out) {
  const double sides = std::numbers::pi / std::acos(radius / (radius + out));
  return std::max(6, static_cast<int>(std::ceil(sides)));
}

// ---- what stands there --------------------------------------------------------------------------

MultiPolygon ground_of(const Barrier& barrier) {
  std::vector<MultiPolygon> parts{barrier.shape.areas};
  const Length width =
      barrier.width ? barrier.width->length() : Length::metres(0.2);  // as drawn, a line
  for (const Line& line : barrier.shape.lines) parts.push_back(corridor(line, width / 2));
  return union_of(parts);
}

void add_standing(const Site& site, PlanGround& ground) {
  std::vector<MultiPolygon> built, standing, closing, surfaced;
  for (const Barrier& barrier : site.barriers) {
    const MultiPolygon area = ground_of(barrier);
    const BarrierKind kind = barrier.kind;
    const bool house = kind == BarrierKind::building;
    if (house || kind == BarrierKind::rock || kind == BarrierKind::water) built.push_back(area);
    if (stops_roots(barrier)) standing.push_back(area);
    if (house || kind == BarrierKind::wall) closing.push_back(area);
  }
  for (const Work& work : site.works) {
    if (is_new(work) || work.shape.empty()) continue;
    if (work.kind == WorkKind::building) {
      built.push_back(footprint(work));
      closing.push_back(footprint(work));
    }
    if (work.kind == WorkKind::paving) surfaced.push_back(footprint(work));
  }
  for (const Surface& surface : site.surfaces) surfaced.push_back(surface.area);
  ground.built = union_of(built);
  ground.standing = union_of({ground.built, union_of(standing)});
  ground.closing = union_of(closing);
  ground.surfaced = union_of(surfaced);
  ground.boundary = union_of({site.boundary});
}

// ---- works --------------------------------------------------------------------------------------

void set_load(CountedWork& counted, const PlanFigures& figures) {
  const Work& work = *counted.work;
  const bool driven = work.method == DigMethod::machine || work.kind == WorkKind::traffic;
  if (work.vehicle && work.vehicle->gross_mass) {
    const bool light = Mass::kilograms(*work.vehicle->gross_mass) <= figures.light_plant;
    counted.load = light ? LoadClass::light_plant : LoadClass::heavy;
  } else if (driven || work.vehicle) {
    counted.load_assumed = true;
  } else {
    counted.load = LoadClass::foot;
  }
}

void add_works(const Site& site, const ProtectionOptions& options, PlanGround& ground) {
  std::vector<MultiPolygon> clear, dug;
  std::vector<Box> boxes;
  for (const Work& work : site.works) {
    if (!is_new(work)) continue;
    if (work.state == WorkState::proposed && !options.proposed_works) continue;
    if (work.shape.empty() && work.bore_pits.empty()) continue;
    CountedWork counted;
    counted.work = &work;
    counted.footprint = footprint(work);
    counted.with_room = footprint(work, true);
    counted.box = box_of(counted.with_room);
    const Length room = work.working_room ? work.working_room->length() : Length();
    if (!done_inside(work) && !counted.footprint.empty())
      counted.kept_clear = grown_straight(counted.footprint,
                                          std::max(room, Length()) + ground.figures.clear_of_room);
    set_load(counted, ground.figures);
    clear.push_back(counted.kept_clear);
    if (work.digs()) dug.push_back(counted.footprint);
    boxes.push_back(box_of(counted.kept_clear.empty() ? counted.with_room : counted.kept_clear));
    ground.works.push_back(std::move(counted));
  }
  ground.kept_clear = union_of(clear);
  ground.excavated = union_of(dug);
  ground.work_places = BoxIndex(boxes);
}

// ---- trees --------------------------------------------------------------------------------------

std::string why_not_kept(const Tree& tree, const Verdict& verdict) {
  if (tree.intent == Intent::remove) return "it is to be removed";
  if (tree.intent == Intent::move) return "it is to be moved";
  if (tree.intent == Intent::keep) return {};
  if (verdict.action == Action::remove) return "the works as drawn leave no way to keep it";
  if (verdict.action == Action::transplant)
    return "the works as drawn leave no way to keep it where it stands";
  return {};
}

int rank(ZonePurpose purpose) {
  switch (purpose) {
    case ZonePurpose::vitality:
      return 0;
    case ZonePurpose::precaution:
      return 1;
    case ZonePurpose::crown:
      return 2;
    case ZonePurpose::stability:
      return 3;
  }
  return 3;
}

// The zone that speaks of the roots' health, the largest of them: of the first rule that gave one,
// or of all rules.
const Zone* zone_to_fence(const TreeAssessment& tree, ProtectionOptions::Zones zones) {
  const Zone* chosen = nullptr;
  for (const ZoneAssessment& one : tree.zones) {
    const bool other_rule = one.zone.rule != tree.zones.front().zone.rule;
    if (zones == ProtectionOptions::Zones::main_rule && other_rule) continue;
    const auto better = [&](const Zone& than) {
      if (rank(one.zone.purpose) != rank(than.purpose))
        return rank(one.zone.purpose) < rank(than.purpose);
      return one.zone.area > than.area;
    };
    if (chosen == nullptr || better(*chosen)) chosen = &one.zone;
  }
  return chosen;
}

// No driven post within the rule's zone of stability, nor on the root plate.
Length plate_of(const Tree& tree, const TreeAssessment& assessed, const PlanGround& ground) {
  Length plate;
  for (const ZoneAssessment& one : assessed.zones) {
    if (one.zone.purpose == ZonePurpose::stability &&
        one.zone.rule == assessed.zones.front().zone.rule)
      plate = std::max(plate, one.zone.radius);
  }
  const auto diameter = combined_diameter(tree, {});
  if (!diameter.ok()) return std::max(plate, ground.figures.palm_plate);
  if (tree.is_monocot()) return std::max(plate, *diameter / 2 + ground.figures.palm_plate);
  return std::max(plate, *diameter * ground.figures.plate_per_diameter);
}

// What of `area` is on the tree's side of what stands there.
MultiPolygon in_front(const MultiPolygon& area, const Point& stem, const MultiPolygon& standing) {
  MultiPolygon parts = difference_of(area, standing);
  if (parts.size() < 2) return parts;
  const auto nearest =
      std::min_element(parts.begin(), parts.end(), [&](const Polygon& a, const Polygon& b) {
        return distance_between(stem, MultiPolygon{a}) < distance_between(stem, MultiPolygon{b});
      });
  return {*nearest};
}

void draw_ground(KeptTree& kept, const PlanGround& ground) {
  const Zone& zone = *kept.zone;
  const Point& stem = kept.tree->position->at;
  const Length out = ground.figures.straightening;
  const Circle circle{zone.centre, zone.radius};
  if (zone.outline) {
    kept.ground = *zone.outline;
    kept.wanted = grown(*zone.outline, out);
  } else {
    kept.ground = round_polygon(circle, kZoneCorners, false, ground.frame);
    kept.wanted = round_polygon(circle, straight_sides(zone.radius, out), true, ground.frame);
  }
  MultiPolygon standing;
  const Box box = box_of(kept.wanted);
  for (const Polygon& polygon : ground.standing) {
    const Box other = box_of(polygon.outer);
    if (other.min_x <= box.max_x && other.max_x >= box.min_x && other.min_y <= box.max_y &&
        other.max_y >= box.min_y)
      standing.push_back(polygon);
  }
  if (!standing.empty()) {
    kept.ground = in_front(kept.ground, stem, standing);
    kept.wanted = in_front(kept.wanted, stem, standing);
  }
  if (!ground.boundary.empty()) {
    kept.ground = intersection_of(kept.ground, ground.boundary);
    kept.wanted = intersection_of(kept.wanted, ground.boundary);
  }
  kept.box = box_of(kept.wanted);
  if (area_of(kept.ground) <= kTouch) kept.reason = "none of its zone lies inside the boundary";
}

KeptTree kept_tree(const Tree& tree, const TreeAssessment& assessed,
                   const ProtectionOptions& options, const PlanGround& ground) {
  KeptTree kept;
  kept.tree = &tree;
  const auto diameter = combined_diameter(tree, {});
  kept.trunk = diameter.ok() ? *diameter / 2 : Length();
  kept.plate = plate_of(tree, assessed, ground);
  if (!tree.position) {
    kept.reason = "its position is not known";
    return kept;
  }
  kept.zone = zone_to_fence(assessed, options.zones);
  if (kept.zone == nullptr) {
    kept.reason = "no rule of the project gives it a zone";
    if (!assessed.rules_not_applied.empty())
      kept.reason += " (" + assessed.rules_not_applied.front().message + ")";
    return kept;
  }
  draw_ground(kept, ground);
  return kept;
}

void add_trees(const Site& site, const Assessment& assessment, const ProtectionOptions& options,
               PlanGround& ground) {
  std::vector<MultiPolygon> rooted;
  std::vector<Box> boxes;
  for (std::size_t i = 0; i < site.trees.size(); ++i) {
    const Tree& tree = site.trees[i];
    const TreeAssessment& assessed = assessment.trees[i];
    if (std::string reason = why_not_kept(tree, assessed.verdict); !reason.empty()) {
      ground.not_kept.push_back({tree.id, std::move(reason)});
      continue;
    }
    ground.kept.push_back(kept_tree(tree, assessed, options, ground));
    const KeptTree& kept = ground.kept.back();
    rooted.push_back(kept.ground);
    boxes.push_back(kept.box);
    if (kept.zone && !site.settings.rules.empty() &&
        kept.zone->rule != site.settings.rules.front() &&
        options.zones == ProtectionOptions::Zones::main_rule)
      ground.notes.push_back(
          {NoteCode::main_rule_not_applied, tree.id,
           "The main rule gives this tree no zone; the fence follows " + kept.zone->rule + "."});
  }
  ground.rooted = union_of(rooted);
  ground.tree_places = BoxIndex(boxes);
}

}  // namespace

PlanFigures plan_figures(const Tables& tables) {
  const auto best = [&](const char* name) {
    return tables.parameter(std::string("protection.") + name).best;
  };
  const auto metres = [&](const char* name) { return Length::metres(best(name)); };
  PlanFigures f;
  f.post_spacing = metres("post_spacing");
  f.sign_spacing = metres("sign_spacing");
  f.fence_height = metres("fence_height");
  f.people_gate = metres("people_gate_width");
  f.way_width = metres("way_width");
  f.gate_reach = metres("gate_reach");
  f.least_width = metres("least_width");
  f.least_area = Area::square_metres(best("least_area"));
  f.straightening = metres("straightening");
  f.clear_of_room = metres("clear_of_room");
  f.clear_of_stem = metres("clear_of_stem");
  f.palm_plate = metres("palm_plate");
  f.mulch_clear = metres("mulch_clear_of_stem");
  f.light_plant = Mass::kilograms(best("light_plant_mass"));
  f.least_protected = best("least_protected");
  f.plate_per_diameter = tables.parameter("anchorage.plate_radius_per_diameter").best;
  return f;
}

Point SiteFrame::of(const Point& p) const {
  const double x = p.x - origin.x, y = p.y - origin.y;
  return {x * std::cos(angle) + y * std::sin(angle), y * std::cos(angle) - x * std::sin(angle)};
}

bool done_inside(const Work& work) {
  const bool by_hand = work.kind == WorkKind::fence_posts || work.kind == WorkKind::root_cut;
  return by_hand && !(work.working_room && work.working_room->length() > Length());
}

Box grown_box(const Box& box, Length by) {
  const double d = by.metres();
  return {box.min_x - d, box.min_y - d, box.max_x + d, box.max_y + d};
}

MultiPolygon parts_meeting(const MultiPolygon& parts, const MultiPolygon& area) {
  MultiPolygon kept;
  for (const Polygon& part : parts) {
    if (area_of(intersection_of({part}, area)) > kTouch) kept.push_back(part);
  }
  return kept;
}

std::vector<std::size_t> PlanGround::works_meeting(const Box& box) const {
  return box.empty() ? std::vector<std::size_t>{} : work_places.meeting(box);
}

std::vector<std::size_t> PlanGround::trees_meeting(const Box& box) const {
  return box.empty() ? std::vector<std::size_t>{} : tree_places.meeting(box);
}

std::vector<std::string> PlanGround::trees_in(const MultiPolygon& area) const {
  std::vector<std::string> ids;
  for (const std::size_t i : trees_meeting(box_of(area))) {
    if (area_of(intersection_of(kept[i].ground, area)) > kTouch) ids.push_back(kept[i].tree->id);
  }
  return ids;
}

PlanGround plan_ground(const Site& site, const Tables& tables, const Assessment& assessment,
                       const ProtectionOptions& options) {
  assert(assessment.trees.size() == site.trees.size());
  PlanGround ground;
  ground.figures = plan_figures(tables);
  ground.frame = frame_of(site);
  add_standing(site, ground);
  add_works(site, options, ground);
  add_trees(site, assessment, options, ground);
  return ground;
}

}  // namespace rootstead
