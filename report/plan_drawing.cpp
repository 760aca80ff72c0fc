#include "report/plan_drawing.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "engine/base/text.hpp"
#include "engine/geom/measure.hpp"
#include "report/labels.hpp"

namespace rootstead {

using layout::kInk;
using layout::kQuiet;
using layout::LabelWish;
using layout::Pen;
using layout::Place;
using layout::Stroke;
using layout::TextStyle;
using layout::Weight;

namespace {

const TextStyle kTreeLabel{.points = layout::kSmallestType, .weight = Weight::bold, .colour = kInk};
const TextStyle kWorkLabel{.points = layout::kSmallestType,
                           .weight = Weight::medium,
                           .italic = true,
                           .colour = layout::kGrey};
constexpr double kWorkLabelWidth = 37;  // mm
constexpr double kTick = 1.2;           // mm, half a grid cross
constexpr double kWindowEdge = 0.8;     // mm kept free of labels

class PlanDrawer {
 public:
  PlanDrawer(Pen& pen, const Plan& plan, const View& view, const PlanParts& parts)
      : pen_(pen), plan_(plan), view_(view), parts_(parts) {}

  DrawnPlan draw() {
    pen_.clipped(view_.frame, [&] {
      for (const Surface& surface : plan_.site->surfaces) draw_surface(surface);
      for (const Work& work : plan_.site->works) draw_work(work);
      for (const Barrier& barrier : plan_.site->barriers) draw_barrier(barrier);
      if (parts_.grid) draw_grid(pen_, view_);
      for (const auto& tree : plan_.assessment->trees) draw_crown(tree);
      for (const auto& tree : plan_.assessment->trees) draw_zones(tree);
      for (const auto& tree : plan_.assessment->trees) draw_tree(tree);
      if (parts_.labels) draw_labels();
    });
    for (auto& [order, symbol] : used_) drawn_.symbols.push_back(symbol);
    return std::move(drawn_);
  }

 private:
  void use(const Symbol& symbol) {
    const auto [at, is_new] = used_.try_emplace({symbol.rank, symbol.key}, symbol);
    // Zones of one purpose share a line; every name they go by is told.
    std::string& told = at->second.meaning;
    if (!is_new && told.find(symbol.meaning) == std::string::npos) told += "; " + symbol.meaning;
  }

  bool seen(const Box& box) const {
    const Box g = view_.ground();
    return !box.empty() && box.max_x >= g.min_x && box.min_x <= g.max_x && box.max_y >= g.min_y &&
           box.min_y <= g.max_y;
  }

  void draw_area(const MultiPolygon& area, const Symbol& symbol) {
    if (!seen(box_of(area))) return;
    for (const Polygon& polygon : area)
      pen_.shape(view_.rings(polygon), symbol.stroke, symbol.fill, "symbol:" + symbol.key);
    use(symbol);
  }

  void draw_surface(const Surface& surface) { draw_area(surface.area, symbol_of(surface)); }

  void draw_work(const Work& work) {
    if (work.shape.empty()) return;
    const MultiPolygon ground = footprint(work);
    const Symbol symbol = symbol_of(work);
    draw_area(ground, symbol);
    if (work.kind == WorkKind::bore) draw_lines(work.shape.lines, symbol.stroke, symbol);
    if (parts_.labels) wish_work_label(work, ground);
  }

  void draw_barrier(const Barrier& barrier) {
    const Symbol symbol = symbol_of(barrier);
    draw_area(barrier.shape.areas, symbol);
    Stroke stroke = symbol.stroke;
    if (barrier.width)
      stroke.width = std::max(stroke.width, view_.millimetres(barrier.width->length()));
    draw_lines(barrier.shape.lines, stroke, symbol);
  }

  void draw_lines(const std::vector<Line>& lines, const Stroke& stroke, const Symbol& symbol) {
    for (const Line& line : lines) {
      if (!seen(box_of(line))) continue;
      pen_.polyline(view_.places(line), stroke, "symbol:" + symbol.key);
      use(symbol);
    }
  }

  void draw_crown(const TreeAssessment& assessed) {
    const Tree* tree = tree_of(plan_, assessed);
    if (tree == nullptr || !tree->position || !tree->crown) return;
    const Polygon outline = crown_outline(*tree);
    if (!seen(box_of(outline.outer))) return;
    const Symbol symbol = crown_symbol();
    pen_.shape(view_.rings(outline), symbol.stroke, {}, "crown:" + tree->id);
    use(symbol);
  }

  void draw_zones(const TreeAssessment& assessed) {
    const Tree* tree = tree_of(plan_, assessed);
    if (tree == nullptr || !tree->position) return;
    if (!parts_.only_zones_of.empty() && parts_.only_zones_of != tree->id) return;
    for (const Zone* zone : main_zones(assessed)) {
      const Symbol symbol = zone_symbol(*zone);
      const std::string name = "zone:" + tree->id + ":" + zone->zone;
      if (zone->outline) {
        for (const Polygon& polygon : *zone->outline)
          pen_.shape(view_.rings(polygon), symbol.stroke, {}, name);
      } else {
        pen_.disc(view_.place(zone->centre), view_.millimetres(zone->radius), symbol.stroke, {},
                  name);
      }
      use(symbol);
    }
  }

  Symbol zone_symbol(const Zone& zone) const {
    Symbol symbol = symbol_of(zone.purpose);
    if (!zone.name.empty()) symbol.meaning = zone.name;
    return symbol;
  }

  void draw_tree(const TreeAssessment& assessed) {
    const Tree* tree = tree_of(plan_, assessed);
    if (tree == nullptr) return;
    if (!tree->position) {
      drawn_.without_place.push_back(tree->label());
      return;
    }
    const Place at = view_.place(tree->position->at);
    if (!view_.frame.contains({at.x, at.y, 0, 0})) return;
    const double radius =
        std::max(kSmallestStemRadius, view_.millimetres(drawn_diameter(*tree)) / 2);
    const Action action = assessed.verdict.action;
    draw_stem(pen_, at, radius, action, "stem:" + tree->id);
    use(symbol_of(action));
    wishes_.push_back(
        {tree->label(), kTreeLabel, at, stem_reach(radius, action), false, "label:" + tree->id});
  }

  void wish_work_label(const Work& work, const MultiPolygon& ground) {
    const std::string text = work.name.empty()      ? work.id
                             : is_shared(work.name) ? work.id + " " + work.name
                                                    : work.name;
    const Point at = label_point(work, ground);
    const Place place = view_.place(at);
    if (!view_.frame.shrunk(2).contains({place.x, place.y, 0, 0})) return;
    wishes_.push_back({pen_.shortened(text, kWorkLabel, kWorkLabelWidth), kWorkLabel, place, 0.4,
                       true, "work-label:" + work.id});
  }

  // Two works of one name are told apart by their ids.
  bool is_shared(const std::string& name) const {
    return std::count_if(plan_.site->works.begin(), plan_.site->works.end(),
                         [&](const Work& work) { return work.name == name; }) > 1;
  }

  static Point label_point(const Work& work, const MultiPolygon& ground) {
    if (!work.shape.lines.empty() && work.shape.lines[0].size() >= 2) {
      const Line& line = work.shape.lines[0];
      const std::size_t i = (line.size() - 1) / 2;
      return {(line[i].x + line[i + 1].x) / 2, (line[i].y + line[i + 1].y) / 2};
    }
    return ground.empty() ? Point{} : centroid_of(ground.front());
  }

  void draw_labels() {
    const auto placed = layout::place_labels(wishes_, parts_.kept_free,
                                             view_.frame.shrunk(kWindowEdge), pen_.meter());
    std::vector<bool> found(wishes_.size(), false);
    for (const auto& label : placed) {
      found[label.wish] = true;
      layout::draw_label(pen_, label, wishes_[label.wish], {0.14, kInk}, -0.15);
    }
    for (std::size_t i = 0; i < wishes_.size(); ++i) {
      if (!found[i] && !wishes_[i].may_cover) drawn_.without_label.push_back(wishes_[i].text);
    }
  }

  Pen& pen_;
  const Plan& plan_;
  const View& view_;
  const PlanParts& parts_;
  DrawnPlan drawn_;
  std::map<std::pair<int, std::string>, Symbol> used_;
  std::vector<LabelWish> wishes_;
};

}  // namespace

double grid_step(const View& view) {
  constexpr double kWished = 55;  // mm between crosses
  const double wished = kWished * view.scale / 1000;
  double step = std::pow(10, std::floor(std::log10(wished)));
  if (step * 5 <= wished) return step * 5;
  return step * 2 <= wished ? step * 2 : step;
}

void draw_grid(Pen& pen, const View& view) {
  const double step = grid_step(view);
  const Box g = view.ground();
  for (double x = std::ceil(g.min_x / step) * step; x <= g.max_x; x += step) {
    for (double y = std::ceil(g.min_y / step) * step; y <= g.max_y; y += step) {
      const Place p = view.place({x, y});
      pen.line({p.x - kTick, p.y}, {p.x + kTick, p.y}, {0.12, kQuiet, {}}, "grid");
      pen.line({p.x, p.y - kTick}, {p.x, p.y + kTick}, {0.12, kQuiet, {}}, "grid");
    }
  }
}

DrawnPlan draw_plan(Pen& pen, const Plan& plan, const View& view, const PlanParts& parts) {
  return PlanDrawer(pen, plan, view, parts).draw();
}

Box ground_of(const Plan& plan) {
  Box box;
  const auto widen_by = [&](const Box& other) {
    if (other.empty()) return;
    widen(box, {other.min_x, other.min_y});
    widen(box, {other.max_x, other.max_y});
  };
  for (const TreeAssessment& assessed : plan.assessment->trees) {
    const Tree* tree = tree_of(plan, assessed);
    if (tree == nullptr || !tree->position) continue;
    widen(box, tree->position->at, 1);
    for (const Zone* zone : main_zones(assessed)) widen(box, zone->centre, zone->radius.metres());
    if (tree->crown) widen(box, tree->position->at, tree->crown->largest_radius().metres());
  }
  for (const Work& work : plan.site->works) {
    if (!work.shape.empty()) widen_by(box_of(footprint(work)));
  }
  if (box.empty()) box = {0, 0, 1, 1};
  return box;
}

std::vector<const Zone*> main_zones(const TreeAssessment& tree) {
  std::vector<const Zone*> zones;
  bool stability = false;
  for (const ZoneAssessment& z : tree.zones) {
    if (z.zone.rule != tree.zones.front().zone.rule) continue;
    zones.push_back(&z.zone);
    stability |= z.zone.purpose == ZonePurpose::stability;
  }
  for (const ZoneAssessment& z : tree.zones) {
    if (stability || z.zone.purpose != ZonePurpose::stability) continue;
    zones.push_back(&z.zone);
    stability = true;
  }
  return zones;
}

Length drawn_diameter(const Tree& tree) {
  double sum = 0;
  for (const Stem& stem : tree.stems) sum += std::pow(stem.diameter().metres(), 2);
  return Length::metres(std::sqrt(sum));
}

const Tree* tree_of(const Plan& plan, const TreeAssessment& assessment) {
  return plan.site->tree(assessment.tree);
}

}  // namespace rootstead
