#include "report/protection_drawing.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include "engine/base/text.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "report/labels.hpp"
#include "report/sheet_parts.hpp"

namespace rootstead {

using layout::kGrey;
using layout::kInk;
using layout::LabelWish;
using layout::Pen;
using layout::Place;
using layout::Rect;
using layout::TextStyle;
using layout::Weight;

namespace {

const TextStyle kTag{.points = 6.6, .weight = Weight::bold, .colour = kInk};
const TextStyle kPart{.points = 6.2, .tabular = true, .colour = kInk};
const TextStyle kMark{.points = 6.6, .weight = Weight::bold, .colour = layout::kAccent};
const TextStyle kWorkName{.points = 6.2, .weight = Weight::medium, .italic = true, .colour = kGrey};
constexpr double kWorkNameWidth = 34, kWindowEdge = 0.8;

// Rows of the legend, in the order of reading.
enum Rank { kStems, kFences, kGates, kGround, kDigging, kClashes, kTrees, kWorks, kBase };

// A point well inside: the middle of the widest of some lines drawn across.
Point inner_point(const Polygon& polygon) {
  constexpr int kLines = 9;
  const Box box = box_of(polygon.outer);
  Point best = box.centre();
  double widest = 0;
  for (int i = 1; i <= kLines; ++i) {
    const double y = box.min_y + (box.max_y - box.min_y) * i / (kLines + 1);
    std::vector<double> crossings;
    const auto cross = [&](const Ring& ring) {
      for (std::size_t k = 0; k < ring.size(); ++k) {
        const Point a = ring[k], b = ring[(k + 1) % ring.size()];
        if ((a.y > y) != (b.y > y))
          crossings.push_back(a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x));
      }
    };
    cross(polygon.outer);
    for (const Ring& hole : polygon.holes) cross(hole);
    std::sort(crossings.begin(), crossings.end());
    for (std::size_t k = 0; k + 1 < crossings.size(); k += 2) {
      const double width = crossings[k + 1] - crossings[k];
      if (width > widest) widest = width, best = {(crossings[k] + crossings[k + 1]) / 2, y};
    }
  }
  return best;
}

const Polygon* largest_of(const MultiPolygon& area) {
  const auto at = std::max_element(area.begin(), area.end(), [](const auto& a, const auto& b) {
    return area_of(a) < area_of(b);
  });
  return at == area.end() ? nullptr : &*at;
}

std::string meaning_of(LoadClass load) {
  switch (load) {
    case LoadClass::foot:
      return "Ground protection, people on foot";
    case LoadClass::light_plant:
      return "Ground protection, light plant";
    case LoadClass::heavy:
      return "Ground protection, heavy plant, to a design";
  }
  return {};
}

// A tree without a position clashes nowhere that could be drawn.
bool has_place(const Clash& clash, const Site& site) {
  if (clash.kind != ClashKind::tree_unprotected || clash.ids.empty()) return true;
  const Tree* tree = site.tree(clash.ids.front());
  return tree == nullptr || tree->position.has_value();
}

struct Numbered {
  std::string head;
  int number = -1;
};

Numbered numbered(const std::string& id) {
  std::size_t at = id.size();
  while (at > 0 && id[at - 1] >= '0' && id[at - 1] <= '9') --at;
  const std::string digits = id.substr(at);
  if (digits.empty() || digits.size() > 6 || digits[0] == '0') return {id, -1};
  return {id.substr(0, at), std::stoi(digits)};
}

class ProtectionDrawer {
 public:
  ProtectionDrawer(Pen& pen, const Plan& plan, const View& view, const ProtectionParts& parts)
      : pen_(pen),
        site_(*plan.site),
        plan_(plan),
        protection_(*plan.advice->protection),
        view_(view),
        parts_(parts),
        words_(site_.settings.units) {}

  DrawnProtection draw() {
    pen_.clipped(view_.frame, [&] {
      draw_base();
      if (parts_.standing) draw_ground();
      if (parts_.digging) draw_digging();
      draw_fences();
      draw_trees();
      draw_clashes();
      draw_labels();
    });
    for (auto& [key, row] : rows_) drawn_.legend.push_back(std::move(row));
    std::stable_sort(drawn_.legend.begin(), drawn_.legend.end(),
                     [](const LegendRow& a, const LegendRow& b) { return a.rank < b.rank; });
    return std::move(drawn_);
  }

 private:
  using Places = std::vector<Place>;

  // ---- the legend and the labels ----------------------------------------------------------------

  template <class Sample>
  void use(int rank, const std::string& key, const std::string& meaning, Sample sample) {
    rows_.try_emplace(key, LegendRow{rank, key, meaning, sample});
  }
  void use_area(int rank, const std::string& key, const std::string& meaning,
                const AreaLook& look) {
    use(rank, key, meaning, [look, key](Pen& pen, const Rect& box) {
      pen.rect(box, look.stroke, look.fill, "legend:" + key);
    });
  }
  void use_line(int rank, const std::string& key, const std::string& meaning,
                const AreaLook& look) {
    use(rank, key, meaning, [look, key](Pen& pen, const Rect& box) {
      const double y = box.centre().y;
      pen.line({box.x, y}, {box.right(), y}, look.stroke, "legend:" + key);
    });
  }
  void use_symbol(int rank, const Symbol& symbol) {
    use(rank, symbol.key, symbol.meaning,
        [symbol](Pen& pen, const Rect& box) { draw_sample(pen, box, symbol); });
  }

  bool in_frame(Place at) const { return view_.frame.shrunk(1).contains({at.x, at.y, 0, 0}); }

  void wish(const std::string& id, const std::string& text, const TextStyle& style, Place at,
            double clearance, bool may_cover = false) {
    if (!in_frame(at)) {
      drawn_.off_sheet.push_back(id);
      return;
    }
    wishes_.push_back({text, style, at, clearance, may_cover, "label:" + id});
    ids_.push_back(id);
  }

  void keep_free(Place at, double reach) {
    taken_.push_back({at.x - reach, at.y - reach, 2 * reach, 2 * reach});
  }

  // ---- areas and lines --------------------------------------------------------------------------

  bool seen(const Box& box) const {
    const Box g = view_.ground();
    return !box.empty() && box.max_x >= g.min_x && box.min_x <= g.max_x && box.max_y >= g.min_y &&
           box.min_y <= g.max_y;
  }

  bool draw_area(const MultiPolygon& area, const AreaLook& look, const std::string& name) {
    if (!seen(box_of(area))) return false;
    for (const Polygon& polygon : area)
      pen_.shape(view_.rings(polygon), look.stroke, look.fill, name);
    return true;
  }

  // The part of a line between two chainages, on the page.
  Places part_of(const Line& line, Length from, Length to) const {
    return part_on_page(view_.places(line), view_.millimetres(from), view_.millimetres(to));
  }

  const Line* line_of(const std::string& work, std::size_t line) const {
    const Work* found = site_.work(work);
    if (found == nullptr || line >= found->shape.lines.size()) return nullptr;
    return &found->shape.lines[line];
  }

  static Place middle_of_line(const Places& places) {
    const Places half = part_on_page(places, 0, length_on_page(places) / 2);
    return half.empty() ? places.front() : half.back();
  }

  // ---- what lies beneath ------------------------------------------------------------------------

  void draw_base() {
    for (const Surface& surface : site_.surfaces) {
      const Symbol symbol = symbol_of(surface);
      if (draw_area(surface.area, {symbol.stroke, symbol.fill}, "symbol:" + symbol.key))
        use_symbol(kBase, symbol);
    }
    if (parts_.standing) draw_enclosures();
    for (const Barrier& barrier : site_.barriers) draw_barrier(barrier);
    draw_grid(pen_, view_);
    if (draw_area(site_.boundary, look_of_boundary(), "boundary"))
      use_line(kBase, "boundary", "Boundary of the site", look_of_boundary());
    for (const TreeAssessment& assessed : plan_.assessment->trees) draw_crown(assessed);
    for (const ProtectedTree& tree : protection_.trees) {
      if (draw_area(tree.ground, look_of_tree_ground(), "tree-ground:" + tree.tree))
        use_line(kTrees, "tree-ground", "Ground of a kept tree: its zone within the site",
                 look_of_tree_ground());
    }
    for (const Work& work : site_.works) draw_work(work);
  }

  void draw_barrier(const Barrier& barrier) {
    const Symbol symbol = symbol_of(barrier);
    bool drawn =
        draw_area(barrier.shape.areas, {symbol.stroke, symbol.fill}, "symbol:" + symbol.key);
    layout::Stroke stroke = symbol.stroke;
    if (barrier.width)
      stroke.width = std::max(stroke.width, view_.millimetres(barrier.width->length()));
    for (const Line& line : barrier.shape.lines) {
      if (!seen(box_of(line))) continue;
      pen_.polyline(view_.places(line), stroke, "symbol:" + symbol.key);
      drawn = true;
    }
    if (drawn) use_symbol(kBase, symbol);
  }

  void draw_crown(const TreeAssessment& assessed) {
    const Tree* tree = tree_of(plan_, assessed);
    if (tree == nullptr || !tree->position || !tree->crown) return;
    const Polygon outline = crown_outline(*tree);
    if (!seen(box_of(outline.outer))) return;
    const Symbol symbol = crown_symbol();
    pen_.shape(view_.rings(outline), symbol.stroke, {}, "crown:" + tree->id);
    use_symbol(kTrees, symbol);
  }

  void draw_work(const Work& work) {
    if (work.shape.empty()) return;
    const bool existing = work.state == WorkState::existing;
    const AreaLook look = look_of_work(work.state);
    const MultiPolygon ground = footprint(work);
    bool drawn = draw_area(ground, look, "work:" + work.id);
    if (ground.empty()) {
      for (const Line& line : work.shape.lines) {
        if (!seen(box_of(line))) continue;
        pen_.polyline(view_.places(line), look.stroke, "work:" + work.id);
        drawn = true;
      }
    }
    if (!drawn) return;
    use_line(kWorks, existing ? "work-existing" : "work-new",
             existing ? "Outline of earlier works" : "Outline of new works", look);
    if (!existing) wish_work(work, ground);
  }

  void wish_work(const Work& work, const MultiPolygon& ground) {
    std::optional<Point> at;
    if (!work.shape.lines.empty() && work.shape.lines[0].size() >= 2) {
      const Line& line = work.shape.lines[0];
      const std::size_t i = (line.size() - 1) / 2;
      at = Point{(line[i].x + line[i + 1].x) / 2, (line[i].y + line[i + 1].y) / 2};
    } else if (const Polygon* polygon = largest_of(ground)) {
      at = inner_point(*polygon);
    }
    if (!at || !in_frame(view_.place(*at))) return;
    const std::string text =
        work.name.empty() || work.name == work.id ? work.id : work.id + " " + work.name;
    wishes_.push_back({pen_.shortened(text, kWorkName, kWorkNameWidth), kWorkName, view_.place(*at),
                       0.4, true, "work-label:" + work.id});
    ids_.emplace_back();  // not missed where there is no room
  }

  // ---- ground -----------------------------------------------------------------------------------

  void draw_enclosures() {
    for (const Enclosure& enclosure : protection_.enclosures) {
      if (!draw_area({enclosure.area}, look_of_enclosure(), "enclosure:" + enclosure.id)) continue;
      use_area(kFences, "enclosure", "Enclosed ground: no machines, no storage",
               look_of_enclosure());
      wish(enclosure.id, enclosure.id, kTag, view_.place(inner_point(enclosure.area)), 0.4, true);
    }
  }

  void draw_ground() {
    for (const CoveredGround& cover : protection_.covers) {
      const AreaLook look = look_of_cover(cover.load);
      if (!draw_area(cover.area, look, "cover:" + cover.id)) continue;
      use_area(kGround, "cover:" + std::string(to_text(cover.load)), meaning_of(cover.load), look);
      if (const Polygon* polygon = largest_of(cover.area))
        wish(cover.id, cover.id, kPart, view_.place(inner_point(*polygon)), 0.4, true);
    }
    for (const Way& way : protection_.ways) draw_way(way);
  }

  void draw_way(const Way& way) {
    if (way.line.size() < 2) return;
    draw_area(corridor(way.line, way.width / 2), look_of_way(), "way:" + way.id);
    const Places places = view_.places(way.line);
    draw_way_arrow(pen_, places, "way:" + way.id);
    use(kGround, "way", "Way left open for machines", [](Pen& pen, const Rect& box) {
      pen.rect(box, look_of_way().stroke, {}, "legend:way");
      draw_way_arrow(pen, {{box.x, box.centre().y}, {box.right(), box.centre().y}}, "legend:way");
    });
    wish(way.id, way.id + " " + words_.length(way.width), kPart, middle_of_line(places), 1.4);
  }

  // ---- digging ----------------------------------------------------------------------------------

  void draw_digging() {
    for (const NoDigArea& area : protection_.no_dig) {
      if (!draw_area(area.area, look_of_no_dig(), "no-dig:" + area.work)) continue;
      use_area(kDigging, "no-dig", "No digging: built on the ground as it lies", look_of_no_dig());
      if (const Polygon* polygon = largest_of(area.area))
        wish(area.work, area.work + " no dig", kPart, view_.place(inner_point(*polygon)), 0.4,
             true);
    }
    draw_bores();
    for (const DigStretch& dig : protection_.digs) draw_stretch(dig);
    for (const RootCutLine& cut : protection_.root_cuts) draw_cut(cut);
  }

  void draw_bores() {
    for (const BorePassage& bore : protection_.bores) {
      const Line* line = line_of(bore.work, bore.line);
      if (line == nullptr) continue;
      const Places places = part_of(*line, bore.from, bore.to);
      if (places.size() < 2) continue;
      draw_bore(pen_, places, "bore:" + bore.work);
      use(kDigging, "bore", "Bore beneath the ground of kept trees", [](Pen& pen, const Rect& box) {
        draw_bore(pen, {{box.x, box.centre().y}, {box.right(), box.centre().y}}, "legend:bore");
      });
      wish(bore.work,
           bore.work + " bore " + chainages(words_, bore.from, bore.to) + ", " +
               depth(bore.crown_depth, bore.work) + " deep",
           kPart, middle_of_line(places), 0.8);
      draw_pits(bore.work);
    }
  }

  void draw_pits(const std::string& id) {
    const Work* work = site_.work(id);
    if (work == nullptr || work->bore_pits.empty()) return;
    if (draw_area(work->bore_pits, look_of_pit(), "bore-pit:" + id))
      use_area(kDigging, "bore-pit", "Pit of a bore", look_of_pit());
  }

  void draw_stretch(const DigStretch& dig) {
    const Line* line = line_of(dig.work, dig.line);
    if (line == nullptr) return;
    const Places places = part_of(*line, dig.from, dig.to);
    if (places.size() < 2) return;
    const DigMethod method = dig.method == DigMethod::air ? DigMethod::air : DigMethod::hand;
    draw_dig(pen_, places, method, "dig:" + dig.id);
    const bool air = method == DigMethod::air;
    use(kDigging, air ? "dig-air" : "dig-hand",
        air ? "Dig with air only, from tick to tick" : "Dig by hand only, from tick to tick",
        [method](Pen& pen, const Rect& box) {
          const double y = box.centre().y;
          draw_dig(pen, {{box.x, y}, {box.right(), y}}, method, "legend:dig");
        });
    wish(dig.id,
         dig.id + " " + chainages(words_, dig.from, dig.to) + ", " + std::string(to_text(method)),
         kPart, middle_of_line(places), 1);
  }

  void draw_cut(const RootCutLine& cut) {
    const Places places = view_.places(cut.line);
    if (places.size() < 2 || !seen(box_of(cut.line))) return;
    draw_root_cut(pen_, places, "root-cut:" + cut.id);
    use(kDigging, "root-cut", "Root-cut line: open by hand or air, cut cleanly",
        [](Pen& pen, const Rect& box) {
          const double y = box.centre().y;
          draw_root_cut(pen, {{box.x, y}, {box.right(), y}}, "legend:root-cut");
        });
    wish(cut.id, cut.id + " " + depth(cut.depth, cut.work) + " deep", kPart, middle_of_line(places),
         1);
  }

  std::string depth(Length depth, const std::string& work) {
    const Work* found = site_.work(work);
    drawn_.assumed_depth |= found != nullptr && !found->depth;
    return depth_text(words_, depth, found);
  }

  // ---- fences -----------------------------------------------------------------------------------

  void draw_fences() {
    for (const Fence& fence : protection_.fences) {
      if (fence.line.size() < 2 || !seen(box_of(fence.line))) continue;
      const Places places = view_.places(fence.line);
      for (const FenceStretch& stretch : fence.stretches) draw_stretch(fence, stretch);
      if (!parts_.standing) continue;
      for (const FencePost& post : fence.posts) {
        const Place at = view_.place(post.at);
        draw_post(pen_, at, heading_at(places, at), post.footing, "post:" + fence.id);
      }
      wish(fence.id, fence.id + " " + words_.length(length_of(fence)), kPart,
           middle_of_line(places), 0.9);
    }
    if (!parts_.standing) return;
    for (const FenceGate& gate : protection_.gates) draw_fence_gate(gate);
    for (const Sign& sign : protection_.signs) draw_fence_sign(sign);
  }

  void draw_stretch(const Fence& fence, const FenceStretch& stretch) {
    const Places places = part_of(fence.line, stretch.from, stretch.to);
    if (places.size() < 2) return;
    if (!parts_.standing) {  // where it stands is told, how it stands is on the other sheet
      pen_.polyline(places, {0.35, kGrey, {}}, "fence:" + fence.id);
      use(kFences, "fence", "Fence, see the sheet of fences", [](Pen& pen, const Rect& box) {
        const double y = box.centre().y;
        pen.line({box.x, y}, {box.right(), y}, {0.35, kGrey, {}}, "legend:fence");
      });
      return;
    }
    const Footing footing = stretch.footing;
    draw_fence_line(pen_, places, footing, "fence:" + fence.id);
    const bool driven = footing == Footing::driven;
    use(kFences, driven ? "fence-driven" : "fence-ballasted",
        driven ? "Fence on driven posts" : "Fence on ballasted feet: nothing driven",
        [footing](Pen& pen, const Rect& box) {
          const double y = box.centre().y;
          draw_fence_line(pen, {{box.x, y}, {box.right(), y}}, footing, "legend:fence");
          for (const double at : {2.0, box.w / 2, box.w - 2})
            draw_post(pen, {box.x + at, y}, {}, footing, "legend:fence");
        });
  }

  void draw_fence_gate(const FenceGate& gate) {
    const Place at = view_.place(gate.at);
    Heading along;
    for (const Fence& fence : protection_.fences) {
      if (fence.id == gate.fence) along = heading_at(view_.places(fence.line), at);
    }
    const GateUse of = gate.use;
    draw_gate(pen_, at, along, view_.millimetres(gate.width), of, "gate:" + gate.id);
    const bool people = of == GateUse::people;
    use(kGates, people ? "gate-people" : "gate-machines",
        people ? "Gate for people" : "Gate for machines", [of](Pen& pen, const Rect& box) {
          const Place middle{box.centre().x, box.y + 0.8};
          draw_fence_line(pen, {{box.x, middle.y}, {box.right(), middle.y}}, Footing::driven,
                          "legend:gate");
          draw_gate(pen, middle, {}, of == GateUse::people ? 2.6 : 5, of, "legend:gate");
        });
    keep_free(at, kGateReach);
    wish(gate.id, gate.id + " " + words_.length(gate.width), kPart, at, kGateReach);
  }

  void draw_fence_sign(const Sign& sign) {
    const Place at = view_.place(sign.at);
    draw_sign(pen_, at, "sign:" + sign.fence);
    keep_free(at, kSignReach);
    use(kGates, "sign", "Sign on the fence",
        [](Pen& pen, const Rect& box) { draw_sign(pen, box.centre(), "legend:sign"); });
  }

  // ---- trees, clashes, labels -------------------------------------------------------------------

  const StemGuard* guard_of(const Tree& tree) const {
    for (const StemGuard& guard : protection_.guards)
      if (guard.tree == tree.id) return &guard;
    return nullptr;
  }

  void draw_trees() {
    for (const TreeAssessment& assessed : plan_.assessment->trees) {
      const Tree* tree = tree_of(plan_, assessed);
      if (tree == nullptr) continue;
      if (!tree->position) {
        drawn_.without_place.push_back(tree->label());
        continue;
      }
      draw_tree(*tree, what_becomes_of(*tree, assessed.verdict.action));
    }
  }

  // A fence is set for what was decided; the verdict speaks where nobody decided.
  static Action what_becomes_of(const Tree& tree, Action verdict) {
    if (tree.intent == Intent::remove) return Action::remove;
    return tree.intent == Intent::move ? Action::transplant : verdict;
  }

  void draw_tree(const Tree& tree, Action action) {
    const Place at = view_.place(tree.position->at);
    if (!view_.frame.contains({at.x, at.y, 0, 0})) return;
    const double radius =
        std::max(kSmallestStemRadius, view_.millimetres(drawn_diameter(tree)) / 2);
    draw_stem(pen_, at, radius, action, "stem:" + tree.id);
    use_symbol(kStems, symbol_of(action));
    double reach = stem_reach(radius, action);
    if (parts_.standing && guard_of(tree) != nullptr) {
      draw_guard(pen_, at, reach, "guard:" + tree.id);
      use(kStems, "guard", "Trunk to be boxed",
          [](Pen& pen, const Rect& box) { draw_guard(pen, box.centre(), 0.7, "legend:guard"); });
      reach += 1.2;
    }
    wish(tree.id, tree.label(), kTag, at, reach);
    wishes_.back().name = "label:tree:" + tree.id;
  }

  void draw_clashes() {
    for (std::size_t i = 0; i < protection_.clashes.size(); ++i) {
      if (!has_place(protection_.clashes[i], site_)) continue;
      const Place at = view_.place(protection_.clashes[i].at);
      const std::string number = clash_number(i);
      draw_clash(pen_, at, "clash:" + number);
      use(kClashes, "clash", "Clash, see the list",
          [](Pen& pen, const Rect& box) { draw_clash(pen, box.centre(), "legend:clash"); });
      wish(number, number, kMark, at, kClashReach);
    }
  }

  // Where a whole label finds no room, its id alone may.
  void draw_labels() {
    const std::vector<std::size_t> missed = place(wishes_);
    for (const LabelWish& wish : wishes_)
      if (!wish.may_cover) keep_free(wish.anchor, wish.clearance);
    std::vector<LabelWish> shorter;
    std::vector<std::string> ids;
    for (const std::size_t i : missed) {
      if (ids_[i].empty()) continue;
      LabelWish wish = wishes_[i];
      if (!wish.name.starts_with("label:tree:")) wish.text = ids_[i];
      shorter.push_back(std::move(wish));
      ids.push_back(ids_[i]);
    }
    for (const std::size_t i : place(shorter)) drawn_.without_label.push_back(ids[i]);
    drawn_.shortened += shorter.size() - drawn_.without_label.size();
    for (const std::string& id : ids_) drawn_.labels += !id.empty();
  }

  // Returns the wishes that found no room.
  std::vector<std::size_t> place(const std::vector<LabelWish>& wishes) {
    const auto placed =
        layout::place_labels(wishes, taken_, view_.frame.shrunk(kWindowEdge), pen_.meter());
    std::vector<bool> found(wishes.size(), false);
    for (const auto& label : placed) {
      const LabelWish& wish = wishes[label.wish];
      found[label.wish] = true;
      if (label.leader)
        pen_.line(label.leader->first, label.leader->second, {0.14, kInk, {}}, "leader");
      pen_.rect(label.box.shrunk(-0.15), {}, layout::kWhiteFill, "patch");
      pen_.text({label.box.x, label.box.y}, wish.text, wish.style, wish.name);
      taken_.push_back(label.box);
    }
    std::vector<std::size_t> missed;
    for (std::size_t i = 0; i < wishes.size(); ++i)
      if (!found[i]) missed.push_back(i);
    return missed;
  }

  Pen& pen_;
  const Site& site_;
  const Plan& plan_;
  const ProtectionPlan& protection_;
  const View& view_;
  const ProtectionParts& parts_;
  Wording words_;
  DrawnProtection drawn_;
  std::map<std::string, LegendRow> rows_;
  std::vector<LabelWish> wishes_;
  std::vector<std::string> ids_;  // of the wishes; empty: not missed
  std::vector<Rect> taken_;
};

}  // namespace

DrawnProtection draw_protection(Pen& pen, const Plan& plan, const View& view,
                                const ProtectionParts& parts) {
  return ProtectionDrawer(pen, plan, view, parts).draw();
}

Box ground_of_protection(const Plan& plan) {
  const ProtectionPlan& protection = *plan.advice->protection;
  Box box = ground_of(plan);
  const auto widen_by = [&](const Box& other) {
    if (!other.empty()) box = joined(box, other);
  };
  for (const Fence& fence : protection.fences) widen_by(box_of(fence.line));
  for (const Way& way : protection.ways) widen_by(box_of(way.line));
  for (const CoveredGround& cover : protection.covers) widen_by(box_of(cover.area));
  for (const FenceGate& gate : protection.gates) widen(box, gate.at);
  for (const Clash& clash : protection.clashes)
    if (has_place(clash, *plan.site)) widen(box, clash.at);
  return box;
}

std::string chainages(const Wording& words, Length from, Length to) {
  const std::string start = words.length(from);
  return start.substr(0, start.find("\u00A0")) + "–" + words.length(to);
}

std::string depth_text(const Wording& words, Length depth) {
  return words.length(depth, words.us() ? 1 : 2);
}

std::string depth_text(const Wording& words, Length depth, const Work* work) {
  const bool assumed = work != nullptr && !work->depth;
  return depth_text(words, depth) + (assumed ? mark(Status::assumption) : "");
}

std::string tags_of(const Site& site, const std::vector<std::string>& trees) {
  std::vector<std::string> tags;
  for (const std::string& id : trees) {
    const Tree* tree = site.tree(id);
    tags.push_back(tree == nullptr ? id : tree->label());
  }
  return joined(tags, ", ");
}

std::string runs_of(const std::vector<std::string>& ids) {
  std::vector<std::string> parts;
  for (std::size_t i = 0; i < ids.size();) {
    const Numbered first = numbered(ids[i]);
    std::size_t end = i + 1;
    while (end < ids.size() && first.number >= 0) {
      const Numbered next = numbered(ids[end]);
      if (next.head != first.head || next.number != first.number + static_cast<int>(end - i)) break;
      ++end;
    }
    if (end - i > 2) {
      parts.push_back(ids[i] + " to " + ids[end - 1]);
    } else {
      for (std::size_t k = i; k < end; ++k) parts.push_back(ids[k]);
    }
    i = end;
  }
  return joined(parts, ", ");
}

std::string clash_number(std::size_t index) {
  return "C" + std::to_string(index + 1);
}

}  // namespace rootstead
