#include "report/owner_sheet.hpp"

#include <algorithm>
#include <array>

#include "engine/geom/measure.hpp"
#include "report/labels.hpp"
#include "report/one_page.hpp"
#include "report/owner_words.hpp"
#include "report/paint.hpp"
#include "report/plan_drawing.hpp"
#include "report/sheet_parts.hpp"

namespace rootstead {

using layout::coloured;
using layout::Fill;
using layout::Hatch;
using layout::kAccent;
using layout::kGrey;
using layout::kInk;
using layout::kQuiet;
using layout::LabelWish;
using layout::Pen;
using layout::Place;
using layout::Rect;
using layout::Role;
using layout::sized;
using layout::Stroke;
using layout::TextMeter;
using layout::TextStyle;
using layout::Weight;
using layout::weighted;

namespace {

const TextStyle kPlain{.points = kLeastPoints, .colour = kInk};
const TextStyle kBold = weighted(kPlain, Weight::bold);
const TextStyle kSmallHead{.points = 11, .weight = Weight::bold, .colour = kInk};
const Fill kRootFill{.hatch = Hatch::dots, .colour = kQuiet, .spacing = 1.4, .width = 0.3};
const Stroke kRootEdge{.width = 0.35, .colour = kAccent, .dash = {2.2, 1.0}};
const Stroke kCrownEdge{.width = 0.25, .colour = kGrey};
const Fill kTouching{.hatch = Hatch::rising, .colour = kInk, .spacing = 1.1, .width = 0.22};
const Stroke kTouchingEdge{.width = 0.5, .colour = kInk};
const Stroke kOtherEdge{.width = 0.2, .colour = kQuiet};
const Fill kStemFill{.hatch = Hatch::solid, .colour = kInk};
constexpr double kGap = 4, kPictureShare = 0.58, kLine = 5, kLeastStem = 0.9;

// How far the roots are taken to reach; nothing where neither model nor rule says.
std::optional<Length> reach_of(const TreeAssessment& tree) {
  if (tree.estimate) return Length::metres(tree.estimate->extent_m.best);
  for (const Zone* zone : main_zones(tree))
    if (zone->purpose == ZonePurpose::vitality) return zone->radius;
  return std::nullopt;
}

// The picture: where roots reach, and what touches them.
class RootPicture {
 public:
  RootPicture(Pen& pen, const Plan& plan, const Rect& frame)
      : pen_(pen), plan_(plan), view_(fitted_view(ground(plan), frame, 3)) {
    for (const TreeAssessment& tree : plan.assessment->trees) {
      for (const std::string& id : new_works_in_zones(tree)) touching_.push_back(id);
      if (!tree.roots) continue;
      for (const auto& by : tree.roots->by_work)
        if (by.alone.high > 0) touching_.push_back(by.work);
    }
  }

  void draw() {
    const Rect& frame = view_.frame;
    pen_.clipped(frame, [&] {
      for (const TreeAssessment& tree : plan_.assessment->trees) draw_reach(tree);
      for (const Barrier& barrier : plan_.site->barriers) draw_barrier(barrier);
      for (const Work& work : plan_.site->works) draw_work(work);
      for (const Tree& tree : plan_.site->trees) draw_tree(tree);
    });
    draw_labels();
    pen_.rect(frame, {0.35, kInk}, {}, "picture-frame");
  }
  const View& view() const { return view_; }
  std::size_t unplaced() const { return unplaced_; }

 private:
  static Box ground(const Plan& plan) {
    Box box;
    for (const TreeAssessment& tree : plan.assessment->trees) {
      const Tree* record = tree_of(plan, tree);
      if (record == nullptr || !record->position) continue;
      const auto reach = reach_of(tree);
      widen(box, record->position->at, reach ? reach->metres() : 1.0);
    }
    return box.empty() ? ground_of(plan) : box;
  }

  void draw_reach(const TreeAssessment& tree) {
    const Tree* record = tree_of(plan_, tree);
    const auto reach = reach_of(tree);
    if (record == nullptr || !record->position || !reach || record->intent == Intent::remove)
      return;
    pen_.disc(view_.place(record->position->at), view_.millimetres(*reach), kRootEdge, kRootFill,
              "reach:" + record->id);
  }

  void draw_barrier(const Barrier& barrier) {
    for (const Polygon& polygon : barrier.shape.areas)
      pen_.shape(view_.rings(polygon), {0.4, kInk}, layout::kWhiteFill, "barrier");
    for (const Line& line : barrier.shape.lines)
      pen_.polyline(view_.places(line), {0.6, kInk}, "barrier");
  }

  void draw_work(const Work& work) {
    if (work.state == WorkState::existing || work.shape.empty()) return;
    const bool touches = std::find(touching_.begin(), touching_.end(), work.id) != touching_.end();
    const Stroke& edge = touches ? kTouchingEdge : kOtherEdge;
    const MultiPolygon area = footprint(work);
    for (const Polygon& polygon : area)
      pen_.shape(view_.rings(polygon), edge, touches ? kTouching : Fill{}, "work:" + work.id);
    for (const Line& line : work.shape.lines)
      if (area.empty()) pen_.polyline(view_.places(line), edge, "work:" + work.id);
    if (!touches) return;
    const Place at = view_.place(middle_of_work(work, area));
    if (view_.frame.shrunk(3).contains({at.x, at.y, 0, 0}))
      works_.push_back({pen_.shortened(work_named(plan_, work.id), kPlain, 36),
                        layout::TextStyle{.points = kLeastPoints, .italic = true, .colour = kInk},
                        at, 0.5, true, "work-label:" + work.id});
  }

  static Point middle_of_work(const Work& work, const MultiPolygon& area) {
    if (!work.shape.lines.empty() && work.shape.lines[0].size() >= 2) {
      const Line& line = work.shape.lines[0];
      const std::size_t i = (line.size() - 1) / 2;
      return {(line[i].x + line[i + 1].x) / 2, (line[i].y + line[i + 1].y) / 2};
    }
    return area.empty() ? Point{} : centroid_of(area.front());
  }

  void draw_tree(const Tree& tree) {
    if (!tree.position) return;
    if (tree.crown)
      pen_.shape(view_.rings(crown_outline(tree)), kCrownEdge, {}, "crown:" + tree.id);
    const Place at = view_.place(tree.position->at);
    const double radius = std::max(kLeastStem, view_.millimetres(drawn_diameter(tree)) / 2);
    pen_.disc(at, radius, {0.2, kInk}, kStemFill, "stem:" + tree.id);
    trees_.push_back({tree.label(), kBold, at, radius + 0.4, false, "label:" + tree.id});
    stems_.push_back({at.x - radius, at.y - radius, 2 * radius, 2 * radius});
  }

  void draw_labels() {
    std::vector<Rect> taken = stems_;
    for (const auto* wishes : {&trees_, &works_}) {
      const auto placed = layout::place_labels(*wishes, taken, view_.frame.shrunk(1), pen_.meter());
      if (wishes == &trees_) unplaced_ = wishes->size() - placed.size();
      for (const auto& label : placed) {
        layout::draw_label(pen_, label, (*wishes)[label.wish], {0.2, kInk}, -0.3);
        taken.push_back(label.box.shrunk(-0.4));
      }
    }
  }

  Pen& pen_;
  const Plan& plan_;
  View view_;
  std::vector<std::string> touching_;
  std::vector<LabelWish> trees_, works_;
  std::vector<Rect> stems_;
  std::size_t unplaced_ = 0;
};

class OwnerSheet {
 public:
  OwnerSheet(const Plan& plan, SheetSize size, const TextMeter& meter)
      : plan_(plan), made_(one_page(size)), pen_(made_.page, meter) {}

  layout::Page draw() {
    pen_.target("owner", {0, 0});
    pen_.bookmark(1, "For the owner", "owner");
    const Rect& body = made_.body;
    const double top = draw_head() + kGap;
    double foot = body.bottom() - cautions_height();
    draw_cautions(foot);
    foot -= kGap + signs_height();
    draw_signs(foot);
    foot -= kGap + steps_height();
    draw_steps(foot);
    const double duties = duties_height();
    const double table = table_height(foot - kGap - top - duties - kGap);
    const double picture = foot - 2 * kGap - table - top;
    draw_picture({body.x, top, body.w * kPictureShare, picture});
    draw_duties(
        {body.x + body.w * kPictureShare + 5, top, body.w * (1 - kPictureShare) - 5, picture});
    draw_table({body.x, top + picture + kGap, body.w, table});
    return std::move(made_.page);
  }

 private:
  double side_width() const { return made_.body.w * (1 - kPictureShare) - 5; }
  double head_height() const { return pen_.measure("N", kSmallHead).h + 0.8; }

  double draw_head() {
    const Rect& body = made_.body;
    double y = body.y;
    pen_.tagged(Role::heading1, [&] {
      y = pen_.text({body.x, y}, "Your trees and the works", sized(layout::kTitle, 22)).bottom();
    });
    pen_.tagged(Role::paragraph, [&] {
      y = pen_.text({body.x, y + 0.4}, pen_.shortened(whereabouts(plan_), kPlain, body.w), kPlain)
              .bottom();
      if (plan_.site->settings.demo)
        y = pen_.text({body.x, y + 0.4}, kDemoSentence, coloured(kBold, kAccent), "demo").bottom();
    });
    pen_.line({body.x, y + 1}, {body.right(), y + 1}, {0.5, kInk});
    return y + 1;
  }

  double head(Place at, const std::string& text) {
    double y = 0;
    pen_.tagged(Role::heading2, [&] { y = pen_.text(at, text, kSmallHead).bottom() + 0.8; });
    return y;
  }

  // ---- the picture and what the owner does
  // --------------------------------------------------------

  void draw_picture(const Rect& box) {
    const double row = pen_.measure("N", kPlain).h + 0.6;
    const Rect frame{box.x, box.y, box.w, box.h - 3 * row - 1};
    pen_.tagged(Role::figure, [&] {
      RootPicture picture(pen_, plan_, frame);
      picture.draw();
      double y = frame.bottom() + 1;
      draw_key({box.x, y}, box.w / 2);
      const Rect bar = draw_bar_and_north(pen_, {box.x, y + 2 * row}, box.w * 0.3, picture.view(),
                                          plan_.site->settings.units, {kInk});
      if (picture.unplaced() > 0)
        pen_.text({bar.right() + 5, y + 2 * row},
                  std::to_string(picture.unplaced()) + " more trees have no room for a name.",
                  kPlain);
    });
  }

  void draw_key(Place at, double half) {
    const double row = pen_.measure("N", kPlain).h + 0.6, wide = 7;
    const auto sample = [&](int i) {
      const int column = i % 2, line = i / 2;
      return Rect{at.x + column * half, at.y + line * row + 0.6, wide, 2.8};
    };
    const auto say = [&](int i, const char* text) {
      const Rect box = sample(i);
      pen_.text({box.right() + 1.5, box.y - 0.6}, text, kPlain);
    };
    pen_.rect(sample(0), kRootEdge, kRootFill, "key");
    say(0, "roots likely reach here");
    pen_.rect(sample(1), kTouchingEdge, kTouching, "key");
    say(1, "work that touches roots");
    const Rect crown = sample(2);
    pen_.line({crown.x, crown.centre().y}, {crown.right(), crown.centre().y}, kCrownEdge, "key");
    say(2, "edge of the crown");
    pen_.disc(sample(3).centre(), kLeastStem, {}, kStemFill, "key");
    say(3, "trunk");
  }

  std::vector<std::string> duties() const { return owner_duties(plan_, kMostWaterings); }
  double duties_height() const {
    return head_height() + height_of_bullets(pen_, side_width(), duties(), kPlain, 1.2);
  }
  void draw_duties(const Rect& box) {
    const double y = head({box.x, box.y}, "What you do");
    draw_bullets(pen_, {box.x, y}, box.w, duties(), kPlain, 1.2);
  }

  // ---- the trees
  // ----------------------------------------------------------------------------------

  // As many lines as there are trees and room for; at least one, the picture gives way.
  double table_height(double room) const {
    const double lines = double(plan_.assessment->trees.size());
    const double wished = head_height() + kLine * (lines + 1);
    return std::clamp(wished, head_height() + 3 * kLine, std::max(head_height() + 3 * kLine, room));
  }

  void draw_table(const Rect& box) {
    double y = head({box.x, box.y}, "Your trees: each has two answers, its health and its hold");
    const std::vector<OwnerLine> lines = owner_lines(plan_);
    std::size_t fit = std::size_t(std::max(1.0, (box.bottom() - y + 0.01) / kLine - 1));
    if (fit < lines.size()) fit = std::max<std::size_t>(1, fit - 1);
    fit = std::min(fit, lines.size());
    pen_.tagged(Role::table, [&] {
      draw_row(box, y,
               {"Tree", "What becomes of it", "Health: leaves and growth", "Hold in the ground"},
               Role::header_cell);
      for (std::size_t i = 0; i < fit; ++i) {
        y += kLine;
        const OwnerLine& line = lines[i];
        draw_row(box, y, {line.named, line.outcome, line.health, line.hold}, Role::cell);
      }
    });
    if (fit < lines.size())
      pen_.text({box.x, y + kLine},
                "and " + std::to_string(lines.size() - fit) + " more in the report", kBold, "more");
  }

  void draw_row(const Rect& box, double y, const std::array<std::string, 4>& cells, Role role) {
    constexpr std::array kShares = {0.28, 0.24, 0.25, 0.23};
    const bool header = role == Role::header_cell;
    double x = box.x;
    pen_.tagged(Role::row, [&] {
      for (std::size_t i = 0; i < cells.size(); ++i) {
        const TextStyle& style = header || i == 1 ? kBold : kPlain;
        const double width = box.w * kShares[i];
        pen_.tagged(role, [&] {
          pen_.text({x, y + 0.4}, pen_.shortened(cells[i], style, width - 2), style,
                    header ? "" : "tree-line");
        });
        x += width;
      }
    });
    pen_.line({box.x, y + kLine}, {box.right(), y + kLine}, {header ? 0.35 : 0.12, kInk});
  }

  // ---- when
  // ---------------------------------------------------------------------------------------

  double third() const { return (made_.body.w - 2 * kGap) / 3; }
  double steps_height() const {
    const OwnerSteps steps = owner_steps(plan_);
    double most = 0;
    for (const auto* list : {&steps.before, &steps.during, &steps.after})
      most = std::max(most, height_of_bullets(pen_, third(), *list, kPlain));
    return head_height() + most;
  }
  void draw_steps(double y) {
    const OwnerSteps steps = owner_steps(plan_);
    const std::array<std::pair<const char*, const std::vector<std::string>*>, 3> columns = {
        {{"Before the works", &steps.before},
         {"During the works", &steps.during},
         {"After the works", &steps.after}}};
    double x = made_.body.x;
    for (const auto& [title, list] : columns) {
      draw_bullets(pen_, {x, head({x, y}, title)}, third(), *list, kPlain);
      x += third() + kGap;
    }
  }

  // ---- signs and calls
  // ----------------------------------------------------------------------------

  double signs_width() const { return made_.body.w * 0.6; }
  double signs_height() const {
    return std::max(
        26.0, head_height() + 2 * kPad +
                  height_of_bullets(pen_, signs_width() - 2 * kPad, warning_signs(plan_), kPlain));
  }
  void draw_signs(double y) {
    const Rect& body = made_.body;
    const Rect box{body.x, y, signs_width(), signs_height()};
    pen_.rect(box, {0.6, kAccent}, {}, "signs-box");
    const double top = head({box.x + kPad, y + kPad - 0.6}, "Something is wrong, call if you see");
    draw_bullets(pen_, {box.x + kPad, top}, box.w - 2 * kPad, warning_signs(plan_), kPlain);
    const Rect calls{box.right() + kGap, y, body.right() - box.right() - kGap, box.h};
    pen_.rect(calls, {0.35, kInk}, {}, "call-box");
    draw_callers(calls.shrunk(kPad));
  }
  void draw_callers(const Rect& box) {
    const ProjectSettings& s = plan_.site->settings;
    double y = head({box.x, box.y - 0.6}, "Whom to call");
    const auto say = [&](const std::string& text, const TextStyle& style) {
      if (!text.empty())
        y = pen_.text({box.x, y}, pen_.shortened(text, style, box.w), style, "call").bottom() + 0.2;
    };
    say(s.author.empty() ? "Arborist: ____________________" : s.author, sized(kBold, 11));
    say(s.credentials, kPlain);
    say(telephone_of(plan_), kBold);
  }

  double cautions_height() const { return pen_.measure(kShortCautions, kPlain, made_.body.w).h; }
  void draw_cautions(double y) {
    pen_.tagged(Role::paragraph, [&] {
      pen_.block({made_.body.x, y}, made_.body.w, kShortCautions, coloured(kPlain, kGrey),
                 "cautions");
    });
  }

  static constexpr double kPad = 2.5;
  static constexpr std::size_t kMostWaterings = 3;
  const Plan& plan_;
  OnePage made_;
  Pen pen_;
};

}  // namespace

Result<layout::Document> make_owner_sheet(const Plan& plan, const OwnerSheetOptions& options,
                                          const TextMeter& meter) {
  if (plan.advice == nullptr) return without_advice("the owner's sheet");
  OwnerSheet sheet(plan, options.sheet, meter);
  return document_of(plan, sheet.draw(), "Your trees and the works: for the owner");
}

Outcome write_owner_sheet(const Plan& plan, const OwnerSheetOptions& options,
                          const std::filesystem::path& pdf) {
  const auto meter = layout::pango_meter();
  ROOTSTEAD_TRY(const layout::Document document, make_owner_sheet(plan, options, *meter));
  return layout::write_pdf(document, pdf);
}

}  // namespace rootstead
