#include "report/protection_drawing.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "report/protection_drawer.hpp"
#include "report/sheet_parts.hpp"

namespace rootstead {

using layout::kGrey;
using layout::kInk;
using layout::LabelWish;
using layout::Pen;
using layout::Place;
using layout::TextStyle;
using layout::Weight;

namespace {

const TextStyle kMark{
    .points = layout::kSmallestType, .weight = Weight::bold, .colour = layout::kAccent};
const TextStyle kWorkName{
    .points = layout::kSmallestType, .weight = Weight::medium, .italic = true, .colour = kGrey};
constexpr double kWorkNameWidth = 39, kWindowEdge = 0.8;

// A tree without a position clashes nowhere that could be drawn.
bool has_place(const Clash& clash, const Site& site) {
  if (clash.kind != ClashKind::tree_unprotected || clash.ids.empty()) return true;
  const Tree* tree = site.tree(clash.ids.front());
  return tree == nullptr || tree->position.has_value();
}

}  // namespace

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

DrawnProtection ProtectionDrawer::draw() {
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

// ---- the legend and the labels ------------------------------------------------------------------

void ProtectionDrawer::use_area(Rank rank, const std::string& key, const std::string& meaning,
                                const AreaLook& look) {
  use(rank, key, meaning, [look, key](Pen& pen, const Rect& box) {
    pen.rect(box, look.stroke, look.fill, "legend:" + key);
  });
}

void ProtectionDrawer::use_line(Rank rank, const std::string& key, const std::string& meaning,
                                const AreaLook& look) {
  use(rank, key, meaning, [look, key](Pen& pen, const Rect& box) {
    const double y = box.centre().y;
    pen.line({box.x, y}, {box.right(), y}, look.stroke, "legend:" + key);
  });
}

void ProtectionDrawer::use_symbol(Rank rank, const Symbol& symbol) {
  use(
      rank, symbol.key, symbol.meaning,
      [symbol](Pen& pen, const Rect& box) { draw_sample(pen, box, symbol); }, symbol.rank);
}

bool ProtectionDrawer::in_frame(Place at) const {
  return view_.frame.shrunk(1).contains({at.x, at.y, 0, 0});
}

void ProtectionDrawer::wish(const std::string& id, const std::string& text, const TextStyle& style,
                            Place at, double clearance, bool may_cover) {
  if (!in_frame(at)) {
    drawn_.off_sheet.push_back(id);
    return;
  }
  wishes_.push_back({text, style, at, clearance, may_cover, "label:" + id});
  ids_.push_back(id);
}

void ProtectionDrawer::keep_free(Place at, double reach) {
  taken_.push_back({at.x - reach, at.y - reach, 2 * reach, 2 * reach});
}

// ---- areas and lines ----------------------------------------------------------------------------

bool ProtectionDrawer::seen(const Box& box) const {
  const Box g = view_.ground();
  return !box.empty() && box.max_x >= g.min_x && box.min_x <= g.max_x && box.max_y >= g.min_y &&
         box.min_y <= g.max_y;
}

bool ProtectionDrawer::draw_area(const MultiPolygon& area, const AreaLook& look,
                                 const std::string& name) {
  if (!seen(box_of(area))) return false;
  for (const Polygon& polygon : area)
    pen_.shape(view_.rings(polygon), look.stroke, look.fill, name);
  return true;
}

// The part of a line between two chainages, on the page.
ProtectionDrawer::Places ProtectionDrawer::part_of(const Line& line, Length from, Length to) const {
  return part_on_page(view_.places(line), view_.millimetres(from), view_.millimetres(to));
}

const Line* ProtectionDrawer::line_of(const std::string& work, std::size_t line) const {
  const Work* found = site_.work(work);
  if (found == nullptr || line >= found->shape.lines.size()) return nullptr;
  return &found->shape.lines[line];
}

Place ProtectionDrawer::middle_of_line(const Places& places) {
  const Places half = part_on_page(places, 0, length_on_page(places) / 2);
  return half.empty() ? places.front() : half.back();
}

// ---- what lies beneath --------------------------------------------------------------------------

void ProtectionDrawer::draw_base() {
  for (const Surface& surface : site_.surfaces) {
    const Symbol symbol = symbol_of(surface);
    if (draw_area(surface.area, {symbol.stroke, symbol.fill}, "symbol:" + symbol.key))
      use_symbol(Rank::base, symbol);
  }
  if (parts_.standing) draw_enclosures();
  for (const Barrier& barrier : site_.barriers) draw_barrier(barrier);
  draw_grid(pen_, view_);
  if (draw_area(site_.boundary, look_of_boundary(), "boundary"))
    use_line(Rank::base, "boundary", "Boundary of the site", look_of_boundary());
  for (const TreeAssessment& assessed : plan_.assessment->trees) draw_crown(assessed);
  for (const ProtectedTree& tree : protection_.trees) {
    if (draw_area(tree.ground, look_of_tree_ground(), "tree-ground:" + tree.tree))
      use_line(Rank::trees, "tree-ground", "Ground of a kept tree: its zone within the site",
               look_of_tree_ground());
  }
  for (const Work& work : site_.works) draw_work(work);
}

void ProtectionDrawer::draw_barrier(const Barrier& barrier) {
  const Symbol symbol = symbol_of(barrier);
  bool drawn = draw_area(barrier.shape.areas, {symbol.stroke, symbol.fill}, "symbol:" + symbol.key);
  layout::Stroke stroke = symbol.stroke;
  if (barrier.width)
    stroke.width = std::max(stroke.width, view_.millimetres(barrier.width->length()));
  for (const Line& line : barrier.shape.lines) {
    if (!seen(box_of(line))) continue;
    pen_.polyline(view_.places(line), stroke, "symbol:" + symbol.key);
    drawn = true;
  }
  if (drawn) use_symbol(Rank::base, symbol);
}

void ProtectionDrawer::draw_crown(const TreeAssessment& assessed) {
  const Tree* tree = tree_of(plan_, assessed);
  if (tree == nullptr || !tree->position || !tree->crown) return;
  const Polygon outline = crown_outline(*tree);
  if (!seen(box_of(outline.outer))) return;
  const Symbol symbol = crown_symbol();
  pen_.shape(view_.rings(outline), symbol.stroke, {}, "crown:" + tree->id);
  use_symbol(Rank::trees, symbol);
}

void ProtectionDrawer::draw_work(const Work& work) {
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
  use_line(Rank::works, existing ? "work-existing" : "work-new",
           existing ? "Outline of earlier works" : "Outline of new works", look);
  if (!existing) wish_work(work, ground);
}

void ProtectionDrawer::wish_work(const Work& work, const MultiPolygon& ground) {
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

// ---- trees, clashes, labels ---------------------------------------------------------------------

const StemGuard* ProtectionDrawer::guard_of(const Tree& tree) const {
  for (const StemGuard& guard : protection_.guards)
    if (guard.tree == tree.id) return &guard;
  return nullptr;
}

void ProtectionDrawer::draw_trees() {
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
Action ProtectionDrawer::what_becomes_of(const Tree& tree, Action verdict) {
  if (tree.intent == Intent::remove) return Action::remove;
  return tree.intent == Intent::move ? Action::transplant : verdict;
}

void ProtectionDrawer::draw_tree(const Tree& tree, Action action) {
  const Place at = view_.place(tree.position->at);
  if (!view_.frame.contains({at.x, at.y, 0, 0})) return;
  const double radius = std::max(kSmallestStemRadius, view_.millimetres(drawn_diameter(tree)) / 2);
  draw_stem(pen_, at, radius, action, "stem:" + tree.id);
  use_symbol(Rank::stems, symbol_of(action));
  double reach = stem_reach(radius, action);
  if (parts_.standing && guard_of(tree) != nullptr) {
    draw_guard(pen_, at, reach, "guard:" + tree.id);
    use(Rank::stems, "guard", "Trunk to be boxed",
        [](Pen& pen, const Rect& box) { draw_guard(pen, box.centre(), 0.7, "legend:guard"); });
    reach += 1.2;
  }
  wish(tree.id, tree.label(), kTag, at, reach);
  wishes_.back().name = "label:tree:" + tree.id;
}

void ProtectionDrawer::draw_clashes() {
  for (std::size_t i = 0; i < protection_.clashes.size(); ++i) {
    if (!has_place(protection_.clashes[i], site_)) continue;
    const Place at = view_.place(protection_.clashes[i].at);
    const std::string number = clash_number(i);
    draw_clash(pen_, at, "clash:" + number);
    use(Rank::clashes, "clash", "Clash, see the list",
        [](Pen& pen, const Rect& box) { draw_clash(pen, box.centre(), "legend:clash"); });
    wish(number, number, kMark, at, kClashReach);
  }
}

// Where a whole label finds no room, its id alone may.
void ProtectionDrawer::draw_labels() {
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
std::vector<std::size_t> ProtectionDrawer::place(const std::vector<LabelWish>& wishes) {
  const auto placed =
      layout::place_labels(wishes, taken_, view_.frame.shrunk(kWindowEdge), pen_.meter());
  std::vector<bool> found(wishes.size(), false);
  for (const auto& label : placed) {
    found[label.wish] = true;
    layout::draw_label(pen_, label, wishes[label.wish], {0.14, kInk}, -0.15);
    taken_.push_back(label.box);
  }
  std::vector<std::size_t> missed;
  for (std::size_t i = 0; i < wishes.size(); ++i)
    if (!found[i]) missed.push_back(i);
  return missed;
}

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

}  // namespace rootstead
