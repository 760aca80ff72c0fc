#include "report/crew_extract.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "engine/geom/measure.hpp"
#include "report/crew_pictures.hpp"
#include "report/labels.hpp"
#include "report/one_page.hpp"
#include "report/plan_drawing.hpp"

namespace rootstead {

using layout::Fill;
using layout::Hatch;
using layout::LabelWish;
using layout::Pen;
using layout::Place;
using layout::Rect;
using layout::Stroke;
using layout::TextStyle;
using layout::Weight;

namespace {

const TextStyle kTag{.points = kLeastPoints, .weight = Weight::bold, .colour = kBlack};
const TextStyle kId{.points = 10, .weight = Weight::bold, .italic = true, .colour = kBlack};
const TextStyle kWorkName{.points = kLeastPoints, .italic = true, .colour = kBlack};
const TextStyle kKey{.points = kLeastPoints, .colour = kBlack};
const Fill kLaid{.hatch = Hatch::bricks, .colour = kBlack, .spacing = 1.7, .width = 0.13};
const Fill kDug{.hatch = Hatch::rising, .colour = kBlack, .spacing = 1.2, .width = 0.13};
const Stroke kWorkEdge{.width = 0.2, .colour = kBlack};
const Stroke kCrownEdge{.width = 0.2, .colour = kBlack, .dash = {0.4, 1.0}};
const Stroke kFenceLine{.width = 0.7, .colour = kBlack};
const Stroke kCutLine{.width = 1.0, .colour = kBlack, .dash = {1.6, 0.9}};
constexpr double kBand = 1.8, kFenceTick = 1.0, kFenceStep = 3.2, kStem = 0.9, kFarStem = 0.5;
constexpr double kKeyRow = 4.6, kWorkNameWide = 30;
constexpr double kPartScale = 420;  // letters of this size fit between stretches at that scale
constexpr int kMostParts = 6;

Line part_of(const Line& line, Length from, Length to) {
  Line part;
  double gone = 0;
  const double a = from.metres(), b = to.metres();
  for (std::size_t i = 0; i + 1 < line.size(); ++i) {
    const double length = distance(line[i], line[i + 1]).metres();
    const auto on = [&](double at) {
      const double t = length > 0 ? std::clamp((at - gone) / length, 0.0, 1.0) : 0;
      return Point{line[i].x + t * (line[i + 1].x - line[i].x),
                   line[i].y + t * (line[i + 1].y - line[i].y)};
    };
    if (gone + length >= a && gone <= b) {
      if (part.empty()) part.push_back(on(a));
      part.push_back(on(b));
    }
    gone += length;
  }
  return part;
}

Place middle(const std::vector<Place>& line) {
  double whole = 0;
  for (std::size_t i = 0; i + 1 < line.size(); ++i)
    whole += std::hypot(line[i + 1].x - line[i].x, line[i + 1].y - line[i].y);
  double left = whole / 2;
  for (std::size_t i = 0; i + 1 < line.size(); ++i) {
    const double dx = line[i + 1].x - line[i].x, dy = line[i + 1].y - line[i].y;
    const double length = std::hypot(dx, dy);
    if (left <= length && length > 0)
      return {line[i].x + dx * left / length, line[i].y + dy * left / length};
    left -= length;
  }
  return line.empty() ? Place{} : line.back();
}

// What the crew has to find; where nothing is prescribed, the whole site.
Box ground_to_find(const Plan& plan) {
  Box box;
  const auto take = [&](const Line& line) {
    for (const Point& at : line) widen(box, at, 1);
  };
  if (const auto& protection = plan.advice->protection) {
    for (const Fence& fence : protection->fences) take(fence.line);
    for (const DigStretch& dig : protection->digs) take({dig.start, dig.end});
    for (const RootCutLine& cut : protection->root_cuts) take(cut.line);
  }
  for (const TreeAssessment& tree : plan.assessment->trees) {
    const Tree* record = tree_of(plan, tree);
    if (record != nullptr && record->position && tree.affected())
      widen(box, record->position->at, 1.5);
  }
  return box.empty() ? ground_of(plan) : box;
}

class Extract {
 public:
  Extract(Pen& pen, const Plan& plan, const Rect& frame, const CrewExtract& what)
      : pen_(pen),
        plan_(plan),
        protection_(plan.advice->protection),
        what_(what),
        frame_(frame),
        window_(frame) {
    window_.h -= key_height() + 1;
    view_ = fitted_view(what.part ? *what.part : ground_to_find(plan), window_, 5);
    find_near();
  }

  std::size_t draw() {
    pen_.clipped(window_, [&] {
      for (const Work& work : plan_.site->works)
        if (work.state != WorkState::existing) draw_area(footprint(work), kDug, "work:" + work.id);
      for (const Barrier& barrier : plan_.site->barriers) draw_barrier(barrier);
      if (protection_) draw_protection();
      for (const Tree& tree : plan_.site->trees) draw_tree(tree);
    });
    if (overview()) wish_works();
    place_all();
    pen_.rect(window_, {0.5, kBlack}, {}, "extract-frame");
    draw_key();
    return unplaced_;
  }

 private:
  bool overview() const { return what_.names == CrewExtract::Names::works; }

  // Works with stretches, and the trees whose ground these lie in.
  void find_near() {
    if (!protection_) return;
    const auto take = [&](const auto& parts) {
      for (const auto& part : parts) {
        near_works_.insert(part.work);
        near_trees_.insert(part.trees.begin(), part.trees.end());
      }
    };
    take(protection_->digs);
    take(protection_->root_cuts);
    take(protection_->no_dig);
    take(protection_->bores);
  }

  void wish_works() {
    for (const Work& work : plan_.site->works) {
      if (!near_works_.contains(work.id)) continue;
      std::optional<Point> at;
      if (!work.shape.lines.empty() && work.shape.lines[0].size() >= 2) {
        const Line& line = work.shape.lines[0];
        const std::size_t i = (line.size() - 1) / 2;
        at = Point{(line[i].x + line[i + 1].x) / 2, (line[i].y + line[i + 1].y) / 2};
      } else if (const MultiPolygon area = footprint(work); !area.empty()) {
        at = centroid_of(area.front());
      }
      if (at)
        wish(pen_.shortened(work_named(plan_, work.id), kWorkName, kWorkNameWide), kWorkName,
             view_.place(*at), 0.5, true);
    }
  }

  void draw_area(const MultiPolygon& area, const Fill& fill, const std::string& name) {
    for (const Polygon& polygon : area) pen_.shape(view_.rings(polygon), kWorkEdge, fill, name);
  }

  void draw_barrier(const Barrier& barrier) {
    draw_area(barrier.shape.areas, {}, "barrier:" + barrier.id);
    for (const Line& line : barrier.shape.lines)
      pen_.polyline(view_.places(line), {0.5, kBlack}, "barrier:" + barrier.id);
  }

  void draw_protection() {
    for (const CoveredGround& cover : protection_->covers) {
      draw_area(cover.area, kLaid, "cover:" + cover.id);
      if (!cover.area.empty())
        wish_part(cover.id, kId, view_.place(centroid_of(cover.area.front())), 0.3, true);
    }
    std::set<std::pair<std::string, std::size_t>> started;
    for (const DigStretch& dig : protection_->digs) {
      draw_dig(dig);
      started.insert({dig.work, dig.line});
    }
    for (const auto& [id, line] : started) draw_beginning(id, line);
    for (const RootCutLine& cut : protection_->root_cuts) {
      const auto places = view_.places(cut.line);
      pen_.polyline(places, kCutLine, "cut:" + cut.id);
      wish_part(cut.id, kId, middle(places), 1, false);
    }
    for (const Fence& fence : protection_->fences) draw_fence(fence);
  }

  // Distances of the list run from here.
  void draw_beginning(const std::string& id, std::size_t line) {
    const Work* work = plan_.site->work(id);
    if (work == nullptr || line >= work->shape.lines.size() || work->shape.lines[line].empty())
      return;
    draw_mark_of_beginning(view_.place(work->shape.lines[line].front()), "beginning");
  }
  // Square: no hollow trunk.
  void draw_mark_of_beginning(Place at, const std::string& name) {
    pen_.rect({at.x - 1.2, at.y - 1.2, 2.4, 2.4}, {0.5, kBlack}, kBlank, name);
  }

  void draw_dig(const DigStretch& dig) {
    const Work* work = plan_.site->work(dig.work);
    Line line{dig.start, dig.end};
    if (work != nullptr && dig.line < work->shape.lines.size())
      line = part_of(work->shape.lines[dig.line], dig.from, dig.to);
    const auto places = view_.places(line);
    band(places, dig.method == DigMethod::air, "dig:" + dig.id);
    wish_part(dig.id, kId, middle(places), kBand / 2 + 0.4, false);
  }

  // By hand: a solid band; by air: a hollow one.
  void band(const std::vector<Place>& places, bool hollow, const std::string& name) {
    pen_.polyline(places, {kBand, kBlack}, name);
    if (hollow) pen_.polyline(places, {kBand - 0.9, kPaper}, name);
  }

  void draw_fence(const Fence& fence) {
    const auto places = view_.places(fence.line);
    fence_line(places, "fence:" + fence.id);
    wish_part(fence.id, kTag, middle(places), kFenceTick + 0.3, false);
  }

  void fence_line(const std::vector<Place>& places, const std::string& name) {
    pen_.polyline(places, kFenceLine, name);
    double next = kFenceStep / 2;
    for (std::size_t i = 0; i + 1 < places.size(); ++i) {
      const double dx = places[i + 1].x - places[i].x, dy = places[i + 1].y - places[i].y;
      const double length = std::hypot(dx, dy);
      for (; next < length; next += kFenceStep) {
        const Place at{places[i].x + dx * next / length, places[i].y + dy * next / length};
        cross(at, name);
      }
      next -= length;
    }
  }

  void cross(Place at, const std::string& name) {
    const double c = kFenceTick * 0.75;
    pen_.line({at.x - c, at.y - c}, {at.x + c, at.y + c}, {0.35, kBlack}, name);
    pen_.line({at.x - c, at.y + c}, {at.x + c, at.y - c}, {0.35, kBlack}, name);
  }

  void draw_tree(const Tree& tree) {
    if (!tree.position) return;
    const Place at = view_.place(tree.position->at);
    if (!window_.shrunk(1).contains({at.x, at.y, 0, 0})) return;
    const bool near = near_trees_.contains(tree.id);
    if (tree.crown && !overview())
      pen_.shape(view_.rings(crown_outline(tree)), kCrownEdge, {}, "crown:" + tree.id);
    const double least = overview() && !near ? kFarStem : kStem;
    const double radius = std::max(least, view_.millimetres(drawn_diameter(tree)) / 2);
    pen_.disc(at, radius, {0.4, kBlack}, goes(tree) ? kBlank : kSolid, "stem:" + tree.id);
    if (!overview() || near)
      trees_.push_back({tree.label(), kTag, at, radius + 0.4, false, "label:" + tree.id});
    stems_.push_back({at.x - radius, at.y - radius, 2 * radius, 2 * radius});
  }

  static bool goes(const Tree& tree) {
    return tree.intent == Intent::remove || tree.intent == Intent::move;
  }

  void wish_part(const std::string& id, const TextStyle& style, Place at, double clear,
                 bool cover) {
    if (!overview()) wish(id, style, at, clear, cover);
  }
  void wish(const std::string& id, const TextStyle& style, Place at, double clear, bool cover) {
    if (window_.shrunk(2).contains({at.x, at.y, 0, 0}))
      parts_.push_back({id, style, at, clear, cover, "part:" + id});
  }

  // Stretches and fences first, trees round them.
  void place_all() {
    std::vector<Rect> taken = stems_;
    for (const auto* wishes : {&parts_, &trees_}) {
      const auto placed = layout::place_labels(*wishes, taken, window_.shrunk(1), pen_.meter());
      unplaced_ += wishes->size() - placed.size();
      for (const auto& label : placed) {
        layout::draw_label(pen_, label, (*wishes)[label.wish], {0.25, kBlack}, -0.3);
        taken.push_back(label.box.shrunk(-0.4));
      }
    }
  }

  enum class Key { fence, hand, air, cut, laid, tree, going, beginning };
  struct KeyEntry {
    Key key;
    const char* text;
  };

  std::vector<KeyEntry> keys() const {
    std::vector<KeyEntry> all;
    if (protection_) {
      const auto dug = [&](DigMethod how) {
        return std::any_of(protection_->digs.begin(), protection_->digs.end(),
                           [&](const DigStretch& dig) { return dig.method == how; });
      };
      if (!protection_->fences.empty()) all.push_back({Key::fence, "fence"});
      if (dug(DigMethod::hand) || dug(DigMethod::machine)) all.push_back({Key::hand, "by hand"});
      if (dug(DigMethod::air)) all.push_back({Key::air, "with air"});
      if (!protection_->root_cuts.empty()) all.push_back({Key::cut, "cut line"});
      if (!protection_->covers.empty()) all.push_back({Key::laid, "laid ground"});
      if (!protection_->digs.empty()) all.push_back({Key::beginning, "distances from here"});
    }
    all.push_back({Key::tree, "tree"});
    if (std::any_of(plan_.site->trees.begin(), plan_.site->trees.end(), goes))
      all.push_back({Key::going, "moved or removed"});
    return all;
  }

  static constexpr double kSample = 8, kSampleGap = 1.5, kEntryGap = 4;
  double width_of(const KeyEntry& entry) const {
    const bool point = entry.key >= Key::tree;
    return (point ? 3 : kSample) + kSampleGap + pen_.measure(entry.text, kKey).w + kEntryGap;
  }
  // Entries in rows as wide as the frame; the last row is that of bar and arrow.
  std::vector<std::vector<KeyEntry>> key_rows() const {
    std::vector<std::vector<KeyEntry>> rows(1);
    double x = 0;
    for (const KeyEntry& entry : keys()) {
      const double w = width_of(entry);
      if (x + w - kEntryGap > frame_.w) rows.emplace_back(), x = 0;
      rows.back().push_back(entry);
      x += w;
    }
    return rows;
  }
  double key_height() const { return kKeyRow * double(key_rows().size() + 1); }

  void draw_key() {
    double y = window_.bottom() + 1.5;
    for (const auto& row : key_rows()) {
      double x = frame_.x;
      for (const KeyEntry& entry : row) {
        draw_entry(entry, {x, y});
        x += width_of(entry);
      }
      y += kKeyRow;
    }
    const Rect bar = draw_bar_and_north(pen_, {frame_.x, y}, frame_.w * 0.28, view_,
                                        plan_.site->settings.units, {kBlack});
    pen_.text({bar.right() + 4, y}, "Not for setting out.", kKey);
  }

  void draw_entry(const KeyEntry& entry, Place at) {
    const double mid = at.y + 2;
    const std::vector<Place> across{{at.x, mid}, {at.x + kSample, mid}};
    double width = kSample;
    switch (entry.key) {
      case Key::fence:
        fence_line(across, "key");
        break;
      case Key::hand:
        band(across, false, "key");
        break;
      case Key::air:
        band(across, true, "key");
        break;
      case Key::cut:
        pen_.polyline(across, kCutLine, "key");
        break;
      case Key::laid:
        pen_.rect({at.x, mid - 1.4, kSample, 2.8}, kWorkEdge, kLaid, "key");
        break;
      case Key::tree:
        pen_.disc({at.x + 1.5, mid}, kStem, {}, kSolid, "key"), width = 3;
        break;
      case Key::beginning:
        draw_mark_of_beginning({at.x + 1.5, mid}, "key"), width = 3;
        break;
      case Key::going:
        pen_.disc({at.x + 1.5, mid}, kStem, {0.4, kBlack}, kBlank, "key"), width = 3;
        break;
    }
    pen_.text({at.x + width + kSampleGap, at.y}, entry.text, kKey);
  }

  Pen& pen_;
  const Plan& plan_;
  const std::optional<ProtectionPlan>& protection_;
  const CrewExtract& what_;
  Rect frame_, window_;
  View view_;
  std::set<std::string> near_works_, near_trees_;  // ids
  std::vector<LabelWish> parts_, trees_;
  std::vector<Rect> stems_;
  std::size_t unplaced_ = 0;
};

// Boxes of what is found by its label: without these a part is left out.
std::vector<Box> boxes_to_find(const Plan& plan) {
  std::vector<Box> boxes;
  const auto& protection = plan.advice->protection;
  if (protection) {
    for (const Fence& fence : protection->fences) boxes.push_back(box_of(fence.line));
    for (const RootCutLine& cut : protection->root_cuts) boxes.push_back(box_of(cut.line));
    for (const DigStretch& dig : protection->digs)
      boxes.push_back(box_of(Line{dig.start, dig.end}));
  }
  return boxes;
}

bool meet(const Box& a, const Box& b) {
  return a.min_x <= b.max_x && b.min_x <= a.max_x && a.min_y <= b.max_y && b.min_y <= a.max_y;
}

}  // namespace

std::size_t draw_crew_extract(Pen& pen, const Plan& plan, const Rect& frame,
                              const CrewExtract& what) {
  return Extract(pen, plan, frame, what).draw();
}

std::vector<Box> crew_parts(const Plan& plan, const Rect& frame) {
  const Box all = ground_to_find(plan);
  const double wide = all.max_x - all.min_x, high = all.max_y - all.min_y;
  int across = 1, down = 1;
  double scale = kPartScale;
  do {
    across = std::max(1, int(std::ceil(wide * 1000 / (frame.w * scale))));
    down = std::max(1, int(std::ceil(high * 1000 / (frame.h * scale))));
    scale *= 1.1;
  } while (across * down > kMostParts);
  std::vector<Box> parts;
  const std::vector<Box> finds = boxes_to_find(plan);
  for (int row = down - 1; row >= 0; --row) {
    for (int column = 0; column < across; ++column) {
      const Box part{all.min_x + wide * column / across, all.min_y + high * row / down,
                     all.min_x + wide * (column + 1) / across, all.min_y + high * (row + 1) / down};
      if (std::any_of(finds.begin(), finds.end(), [&](const Box& box) { return meet(box, part); }))
        parts.push_back(part);
    }
  }
  return parts;
}

}  // namespace rootstead
