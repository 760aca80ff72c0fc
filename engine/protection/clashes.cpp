#include "engine/protection/clashes.hpp"

#include <algorithm>
#include <cmath>

#include "engine/base/amount_text.hpp"
#include "engine/base/text.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "engine/protection/access.hpp"
#include "engine/protection/along.hpp"
#include "engine/protection/enclosing.hpp"
#include "engine/protection/plan_ground.hpp"

namespace rootstead {
namespace {

constexpr double kTouching = 0.01;  // m: lines this near an edge run along it
constexpr double kGapSeen = 0.5;    // m: shorter gaps are a hand's breadth of drawing
constexpr Length kFenceAway = Length::millimetres(500);  // an outline so far from a fence is open

std::vector<Interval> longer_than_touch(const Line& line, const MultiPolygon& area) {
  std::vector<Interval> found;
  for (const Interval& on : inside(line, area)) {
    if (on.second - on.first > kTouching) found.push_back(on);
  }
  return found;
}

Point middle_of(const Line& line, const Interval& on) {
  return point_along(line, (on.first + on.second) / 2);
}

double turn(const Point& a, const Point& b, const Point& c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

// Where two runs cross, each going on to the other side by more than a touch.
bool cross_at(const Point& a, const Point& b, const Point& c, const Point& d, Point& at) {
  const double ab = distance(a, b).metres(), cd = distance(c, d).metres();
  if (!(ab > 0) || !(cd > 0)) return false;
  const double c_side = turn(a, b, c) / ab, d_side = turn(a, b, d) / ab;
  const double a_side = turn(c, d, a) / cd, b_side = turn(c, d, b) / cd;
  const auto both_sides = [](double s, double t) {
    return std::min(s, t) < -kTouching && std::max(s, t) > kTouching;
  };
  if (!both_sides(c_side, d_side) || !both_sides(a_side, b_side)) return false;
  const double t = a_side / (a_side - b_side);
  at = {a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)};
  return true;
}

class ClashFinder {
 public:
  ClashFinder(const ProtectionPlan& plan, const Site& site, const Tables& tables,
              const Assessment& assessment, const ProtectionOptions& options)
      : plan_(plan),
        site_(site),
        ground_(plan_ground(site, tables, assessment, options)),
        amount_{options.units},
        areas_(areas_of(plan.enclosures)) {
    for (const CoveredGround& cover : plan.covers)
      covered_.insert(covered_.end(), cover.area.begin(), cover.area.end());
  }

  std::vector<Clash> find() {
    fences_in_works();
    outside_boundary();
    unprotected_trees();
    missing_access();
    covers_on_excavations();
    near_stems();
    crossing_fences();
    enclosures_without_gate();
    fences_in_buildings();
    open_outlines();
    return std::move(clashes_);
  }

 private:
  void add(ClashKind kind, std::vector<std::string> ids, const Point& at, std::string text,
           std::string remedy) {
    clashes_.push_back({kind, std::move(ids), at, std::move(text), std::move(remedy)});
  }

  std::string work_name(const Work& work) const {
    return std::string(to_text(work.kind)) + " " + (work.name.empty() ? work.id : work.name);
  }
  const std::string& tree_name(const std::string& id) const {
    const Tree* tree = site_.tree(id);
    return tree == nullptr ? id : tree->label();
  }

  void fences_in_works() {
    for (const Fence& fence : plan_.fences) {
      for (const std::size_t i : ground_.works_meeting(box_of(fence.line))) {
        const CountedWork& work = ground_.works[i];
        if (done_inside(*work.work)) continue;
        for (const Interval& on :
             longer_than_touch(fence.line, grown(work.with_room, Length::metres(-kTouching), 8)))
          add(ClashKind::fence_in_work, {fence.id, work.work->id}, middle_of(fence.line, on),
              "Fence " + fence.id + " stands for " +
                  amount_.length(Length::metres(on.second - on.first)) +
                  " in the ground and working room of " + work_name(*work.work) + ".",
              "Draw the fence back to the edge of the working room, or move the work.");
      }
    }
  }

  void outside_boundary() {
    if (ground_.boundary.empty()) return;
    const MultiPolygon wide = grown(ground_.boundary, Length::metres(kTouching), 8);
    for (const Fence& fence : plan_.fences) {
      const double length = length_of(fence.line).metres();
      const double out = length - length_of(inside(fence.line, wide));
      if (out <= kTouching) continue;
      add(ClashKind::outside_boundary, {fence.id}, first_outside(fence.line, wide),
          "Fence " + fence.id + " stands for " + amount_.length(Length::metres(out)) +
              " outside the boundary.",
          "Draw it back to the boundary, or get the consent of the owner of that ground.");
    }
    for (const Enclosure& enclosure : plan_.enclosures) {
      const MultiPolygon out = difference_of({enclosure.area}, wide);
      if (area_of(out) <= kTouch) continue;
      add(ClashKind::outside_boundary, {enclosure.id}, centroid_of(out.front()),
          "Enclosure " + enclosure.id + " takes in " + amount_.area(area_of(out)) +
              " outside the boundary.",
          "Draw it back to the boundary, or get the consent of the owner of that ground.");
    }
  }

  static Point first_outside(const Line& line, const MultiPolygon& area) {
    double done = 0;
    for (const Interval& on : inside(line, area)) {
      if (on.first - done > kTouching) break;
      done = on.second;
    }
    return point_along(line, done + kTouching);
  }

  // ---- trees ----

  // Words for what takes the ground: "trench W1, pit W2".
  std::string works_in(const MultiPolygon& area, std::vector<std::string>& ids) const {
    std::vector<std::string> found;
    for (const std::size_t i : ground_.works_meeting(box_of(area))) {
      const CountedWork& work = ground_.works[i];
      if (area_of(intersection_of(work.with_room, area)) <= kTouch) continue;
      found.push_back(work_name(*work.work));
      ids.push_back(work.work->id);
    }
    return joined(found, ", ");
  }

  void unprotected(const KeptTree& kept, std::vector<std::string> ids, const std::string& reason,
                   std::string remedy) {
    ids.insert(ids.begin(), kept.tree->id);
    const Point at = kept.tree->position ? kept.tree->position->at : Point{};
    add(ClashKind::tree_unprotected, std::move(ids), at,
        "Tree " + kept.tree->label() + " is left unprotected: " + reason + ".", std::move(remedy));
  }

  void unprotected_trees() {
    for (const KeptTree& kept : ground_.kept) {
      if (!kept.reason.empty()) {
        unprotected(kept, {}, kept.reason,
                    "Measure what is missing or choose a rule that speaks of this tree; until "
                    "then keep works and wheels away from it.");
        continue;
      }
      const Box box = kept.box;
      const MultiPolygon clear = near_box(ground_.kept_clear, box);
      const MultiPolygon unfenced = difference_of(kept.ground, near_box(areas_, box));
      const Area fenced = area_of(kept.ground) - area_of(unfenced);
      const Area free = area_of(difference_of(kept.ground, clear));
      const Area bare =
          area_of(difference_of(difference_of(unfenced, near_box(covered_, box)), clear));
      std::vector<std::string> ids;
      if (free < ground_.figures.least_area && fenced <= kTouch) {
        const std::string works = works_in(kept.ground, ids);
        unprotected(kept, ids, "its ground is taken by " + works,
                    "Move the works, or decide that the tree goes; box the trunk meanwhile.");
      } else if (free - bare < free * ground_.figures.least_protected) {
        unprotected(kept, ids,
                    "of " + amount_.area(free) + " of its ground that no work takes, " +
                        amount_.area(bare) + " are neither fenced nor covered",
                    "Enclose its ground, or cover what must be walked or driven on.");
      }
    }
  }

  static MultiPolygon near_box(const MultiPolygon& area, const Box& box) {
    MultiPolygon found;
    for (const Polygon& polygon : area) {
      const Box other = box_of(polygon.outer);
      if (other.min_x <= box.max_x && box.min_x <= other.max_x && other.min_y <= box.max_y &&
          box.min_y <= other.max_y)
        found.push_back(polygon);
    }
    return found;
  }

  // ---- ways in ----

  void missing_access() {
    const Access access = access_of(site_, ground_, areas_, plan_.gates);
    for (const ShutIn& shut : access.shut_in) {
      if (!shut.gate.empty()) {
        add(ClashKind::access_missing, {shut.gate}, shut.at,
            "Gate " + shut.gate + " is shut in by fenced ground: machines cannot pass it.",
            "Leave a covered way between fences, or set a gate and cover the ground behind it.");
        continue;
      }
      const Work* work = site_.work(shut.work);
      add(ClashKind::access_missing, {shut.work}, shut.at,
          "Machines cannot reach " + (work ? work_name(*work) : shut.work) +
              " once the fences stand.",
          "Leave a covered way between fences, or set gates for machines with covered ground "
          "between them.");
    }
  }

  void covers_on_excavations() {
    for (const CoveredGround& cover : plan_.covers) {
      for (const std::size_t i : ground_.works_meeting(box_of(cover.area))) {
        const CountedWork& work = ground_.works[i];
        if (!work.work->digs()) continue;
        const MultiPolygon shared = intersection_of(cover.area, work.footprint);
        if (area_of(shared) <= kTouch) continue;
        add(ClashKind::cover_on_excavation, {cover.id, work.work->id}, centroid_of(shared.front()),
            "Ground protection " + cover.id + " lies for " + amount_.area(area_of(shared)) +
                " where " + work_name(*work.work) + " is dug.",
            "End the ground protection at the edge of the excavation.");
      }
    }
  }

  // ---- fences ----

  void near_stems() {
    for (const KeptTree& kept : ground_.kept) {
      if (!kept.tree->position) continue;
      const Point& stem = kept.tree->position->at;
      const Length clear = ground_.figures.clear_of_stem;
      for (const Fence& fence : plan_.fences) {
        if (distance(stem, box_of(fence.line)) > kept.trunk + clear) continue;
        const Length away = distance_between(stem, fence.line) - kept.trunk;
        if (away < clear - Length::metres(kTouching))
          add(ClashKind::fence_near_stem, {fence.id, kept.tree->id}, stem,
              "Fence " + fence.id + " stands " + amount_.length(std::max(away, Length())) +
                  " from the bark of tree " + kept.tree->label() + ", less than " +
                  amount_.length(clear) + ".",
              "Move the work away from the trunk; else box the trunk and end the fence beside "
              "it.");
        for (const FencePost& post : fence.posts) near_post(fence, post, kept, stem);
      }
    }
  }

  void near_post(const Fence& fence, const FencePost& post, const KeptTree& kept,
                 const Point& stem) {
    const Length away = distance(post.at, stem);
    const bool at_trunk =
        away < kept.trunk + ground_.figures.clear_of_stem - Length::metres(kTouching);
    const bool driven =
        post.footing == Footing::driven && away < kept.plate - Length::metres(kTouching);
    if (!at_trunk && !driven) return;
    add(ClashKind::post_near_stem, {fence.id, kept.tree->id}, post.at,
        at_trunk ? "A post of fence " + fence.id + " stands against the trunk of tree " +
                       kept.tree->label() + "."
                 : "A post of fence " + fence.id + " is driven into the root plate of tree " +
                       kept.tree->label() + ", " + amount_.length(away) + " from its centre.",
        at_trunk ? "Move the post along the fence."
                 : "Stand it on ballasted feet, or move the fence out to " +
                       amount_.length(kept.plate) + " from the stem.");
  }

  void crossing_fences() {
    std::vector<Box> boxes;
    for (const Fence& fence : plan_.fences) boxes.push_back(box_of(fence.line));
    const BoxIndex places(boxes);
    for (std::size_t i = 0; i < plan_.fences.size(); ++i) {
      if (boxes[i].empty()) continue;
      for (const std::size_t k : places.meeting(boxes[i])) {
        if (k <= i) continue;
        Point at;
        if (!lines_cross(plan_.fences[i].line, plan_.fences[k].line, at)) continue;
        add(ClashKind::fences_cross, {plan_.fences[i].id, plan_.fences[k].id}, at,
            "Fences " + plan_.fences[i].id + " and " + plan_.fences[k].id + " cross.",
            "Make one enclosure of the two, or move one fence.");
      }
    }
  }

  static bool lines_cross(const Line& a, const Line& b, Point& at) {
    for (std::size_t i = 1; i < a.size(); ++i) {
      for (std::size_t k = 1; k < b.size(); ++k) {
        if (cross_at(a[i - 1], a[i], b[k - 1], b[k], at)) return true;
      }
    }
    return false;
  }

  void enclosures_without_gate() {
    for (const Enclosure& enclosure : plan_.enclosures) {
      std::vector<std::string> fences;
      for (const Fence& fence : plan_.fences) {
        if (fence.enclosure == enclosure.id) fences.push_back(fence.id);
      }
      const bool gate =
          std::any_of(plan_.gates.begin(), plan_.gates.end(), [&](const FenceGate& g) {
            return std::find(fences.begin(), fences.end(), g.fence) != fences.end();
          });
      if (gate || fences.empty()) continue;
      add(ClashKind::enclosure_without_gate, {enclosure.id}, centroid_of(enclosure.area),
          "Enclosure " + enclosure.id +
              " has no gate: those who water, prune and inspect its "
              "trees cannot get in.",
          "Set a gate for people in one of its fences.");
    }
  }

  void fences_in_buildings() {
    const MultiPolygon built = grown(ground_.built, Length::metres(-kTouching), 8);
    for (const Fence& fence : plan_.fences) {
      for (const Interval& on : longer_than_touch(fence.line, near_box(built, box_of(fence.line))))
        add(ClashKind::fence_in_building, {fence.id}, middle_of(fence.line, on),
            "Fence " + fence.id + " is drawn for " +
                amount_.length(Length::metres(on.second - on.first)) +
                " through a building, rock or water.",
            "End the fence at the face of what stands there.");
    }
  }

  // Is the outline of every enclosure a fence, a gate, or a wall that closes it?
  void open_outlines() {
    for (const Enclosure& enclosure : plan_.enclosures) {
      std::vector<const Fence*> fences;
      for (const Fence& fence : plan_.fences) {
        if (fence.enclosure == enclosure.id && fence.line.size() > 1) fences.push_back(&fence);
      }
      open_outline(enclosure, enclosure.area.outer, fences);
      for (const Ring& hole : enclosure.area.holes) open_outline(enclosure, hole, fences);
    }
  }

  bool is_closed_at(const Point& at, const std::vector<const Fence*>& fences) const {
    for (const Fence* fence : fences) {
      if (distance(at, box_of(fence->line)) <= kFenceAway &&
          distance_between(at, fence->line) <= kFenceAway)
        return true;
    }
    return !ground_.closing.empty() && distance_between(at, ground_.closing) <= kFenceAway;
  }

  void open_outline(const Enclosure& enclosure, const Ring& ring,
                    const std::vector<const Fence*>& fences) {
    Line line = ring;
    line.push_back(ring.front());
    const double end = length_of(line).metres();
    const int places = std::max(1, static_cast<int>(std::ceil(end / kGapSeen)));
    int open = 0;
    Point at;
    for (int k = 0; k < places; ++k) {
      const Point p = point_along(line, end * k / places);
      if (is_closed_at(p, fences)) continue;
      if (open++ == 0) at = p;
    }
    if (open < 2) return;
    add(ClashKind::fence_gap, {enclosure.id}, at,
        "The outline of enclosure " + enclosure.id + " is open for about " +
            amount_.length(Length::metres(end * open / places)) + ".",
        "Close it with a fence, or draw the enclosure where the fence stands.");
  }

  const ProtectionPlan& plan_;
  const Site& site_;
  PlanGround ground_;
  AmountText amount_;
  MultiPolygon areas_, covered_;
  std::vector<Clash> clashes_;
};

}  // namespace

std::vector<Clash> find_clashes(const ProtectionPlan& plan, const Site& site, const Tables& tables,
                                const Assessment& assessment, const ProtectionOptions& options) {
  return ClashFinder(plan, site, tables, assessment, options).find();
}

}  // namespace rootstead
