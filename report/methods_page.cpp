#include "report/methods_page.hpp"

#include <algorithm>
#include <cmath>

#include "engine/base/text.hpp"
#include "engine/geom/measure.hpp"
#include "engine/geom/overlay.hpp"
#include "report/one_page.hpp"
#include "report/paint.hpp"
#include "report/plan_drawing.hpp"
#include "report/sheet_parts.hpp"
#include "report/symbols.hpp"
#include "report/wording.hpp"

namespace rootstead {

using layout::coloured;
using layout::kGrey;
using layout::kInk;
using layout::kQuiet;
using layout::Pen;
using layout::Place;
using layout::Rect;
using layout::Role;
using layout::Stroke;
using layout::TextMeter;
using layout::TextStyle;
using layout::Weight;
using layout::weighted;

namespace {

const TextStyle kPlain{.points = kLeastPoints, .tabular = true, .colour = kInk};
const TextStyle kBold = weighted(kPlain, Weight::bold);
const TextStyle kHead{.points = 11, .weight = Weight::bold, .colour = kInk};
const Stroke kCrownEdge{.width = 0.2, .colour = kQuiet, .dash = {1.2, 0.8}};
const Stroke kOtherEdge{.width = 0.15, .colour = kQuiet};
constexpr double kPictureShare = 0.52, kGap = 3, kMarginOfWork = 5;  // mm; m
constexpr std::size_t kMostTrees = 3;

double sum_of(const Appraisal& appraisal, double TreeToll::*what) {
  double sum = 0;
  for (const TreeToll& toll : appraisal.trees) sum += toll.*what;
  return sum;
}

class MethodsPage {
 public:
  MethodsPage(const Plan& plan, const Work& work, const MethodsAnswer& answer, SheetSize size,
              const TextMeter& meter)
      : plan_(plan),
        work_(work),
        answer_(answer),
        made_(one_page(size)),
        pen_(made_.page, meter),
        words_(plan.site->settings.units) {}

  layout::Page draw() {
    pen_.target("methods", {0, 0});
    pen_.bookmark(1, "Methods side by side", "methods");
    const Rect& body = made_.body;
    const double top = draw_head() + kGap;
    const double cautions = pen_.measure(kShortCautions, kPlain, body.w).h;
    const double weights = pen_.measure(weights_text(), kPlain, body.w).h;
    const double foot = body.bottom() - cautions - weights - 2;
    const double row =
        (foot - kGap - top) / static_cast<double>(std::max<std::size_t>(1, answer_.methods.size()));
    const double picture = body.w * kPictureShare;
    view_.frame = {0, 0, picture, row - kGap};
    choose_scale();
    double y = top;
    for (const MethodOutcome& one : answer_.methods) {
      draw_method(one, {body.x, y, body.w, row - kGap});
      y += row;
    }
    pen_.tagged(Role::paragraph, [&] {
      pen_.block({body.x, foot}, body.w, weights_text(), kPlain, "weights");
      pen_.block({body.x, foot + weights + 1}, body.w, kShortCautions, coloured(kPlain, kGrey),
                 "cautions");
    });
    return std::move(made_.page);
  }

 private:
  std::string weights_text() const {
    const RoutePrices& p = answer_.prices;
    return "Money and weights " +
           std::string(p.own.empty() ? "are our assumption ᵃ: put your own. "
                                     : "marked yours: " + joined(p.own, ", ") + "; others ᵃ. ") +
           "All fine roots of one tree weigh " + with_thousands(p.roots) + ", all its anchorage " +
           with_thousands(p.hold) +
           "; both are sums over all trees, in shares of one tree's. Health and stability are two "
           "answers; the weights only put methods in order. "
           "Hand or air digging is credited with " +
           share(p.hand_fine_kept) + " of the fine and " + share(p.hand_thick_kept) +
           " of the thick roots it meets ᵃ.";
  }

  double draw_head() {
    const Rect& body = made_.body;
    double y = body.y;
    pen_.tagged(Role::heading1, [&] {
      const TextStyle style = layout::sized(layout::kTitle, 18);
      y = pen_.text({body.x, y},
                    pen_.shortened("Methods side by side: " + work_named(plan_, work_.id), style,
                                   body.w),
                    style)
              .bottom();
    });
    pen_.tagged(Role::paragraph, [&] {
      y = pen_.text({body.x, y + 0.4}, pen_.shortened(whereabouts(plan_), kPlain, body.w), kPlain)
              .bottom();
      if (plan_.site->settings.demo)
        y = pen_.text({body.x, y + 0.4}, kDemoSentence, coloured(kBold, layout::kAccent), "demo")
                .bottom();
    });
    pen_.line({body.x, y + 1}, {body.right(), y + 1}, {0.5, kInk});
    return y + 1;
  }

  // One scale for all pictures: the largest usual one at which the work fits, by any method.
  void choose_scale() {
    Box box = box_of(footprint(work_, true));
    for (const MethodOutcome& one : answer_.methods)
      for (const Work& work : one.made.design.works) {
        const Box other = box_of(footprint(work, true));
        if (!other.empty()) box = box.empty() ? other : joined(box, other);
      }
    for (const Line& line : work_.shape.lines)
      box = box.empty() ? box_of(line) : joined(box, box_of(line));
    box = {box.min_x - kMarginOfWork, box.min_y - kMarginOfWork, box.max_x + kMarginOfWork,
           box.max_y + kMarginOfWork};
    const UnitSystem units = plan_.site->settings.units;
    view_.centre = box.centre();
    view_.scale =
        largest_scale(box, view_.frame, units, 1).value_or(overview_scale(box, view_.frame, units));
  }

  void draw_method(const MethodOutcome& one, const Rect& box) {
    view_.frame = {box.x, box.y, box.w * kPictureShare, box.h};
    pen_.tagged(Role::figure, [&] { draw_picture(one); });
    draw_words(
        one, {view_.frame.right() + kGap, box.y, box.right() - view_.frame.right() - kGap, box.h});
  }

  void draw_picture(const MethodOutcome& one) {
    const Rect frame = view_.frame;
    pen_.clipped(frame, [&] {
      for (const Barrier& barrier : plan_.site->barriers) {
        for (const Polygon& polygon : barrier.shape.areas)
          pen_.shape(view_.rings(polygon), {0.3, kInk}, layout::kWhiteFill, "barrier");
        for (const Line& line : barrier.shape.lines)
          pen_.polyline(view_.places(line), {0.5, kInk}, "barrier");
      }
      for (const Work& other : plan_.site->works)
        if (other.id != work_.id)
          for (const Polygon& polygon : footprint(other))
            pen_.shape(view_.rings(polygon), kOtherEdge, {}, "other-work");
      for (const Work& work : one.made.design.works) draw_work(work);
      for (const Tree& tree : plan_.site->trees) draw_tree(tree, one);
    });
    pen_.rect(frame, {0.3, kInk}, {}, "picture-frame");
    if (!one.made.applies) {
      pen_.line({frame.x, frame.y}, {frame.right(), frame.bottom()}, {0.2, kQuiet});
      return;
    }
    draw_bar({frame.x + 1.5, frame.bottom() - 6.5});
  }

  void draw_bar(Place at) {
    const UnitSystem units = plan_.site->settings.units;
    const double longest = view_.frame.w * 0.22;
    const double bar = view_.millimetres(bar_length(longest, view_.scale, units));
    pen_.rect({at.x - 1, at.y - 1, bar + 24, 7}, {}, layout::kWhiteFill, "patch");
    draw_scale_bar(pen_, at, longest, view_.scale, units);
  }

  void draw_work(const Work& work) {
    const Symbol symbol = symbol_of(work);
    const MultiPolygon ground = footprint(work);
    for (const Polygon& polygon : ground)
      pen_.shape(view_.rings(polygon), {0.35, kInk}, symbol.fill, "work:" + work.id);
    for (const Line& line : work.shape.lines)
      pen_.polyline(
          view_.places(line),
          {0.4, kInk,
           ground.empty() || work.kind == WorkKind::bore || work.kind == WorkKind::fence_posts
               ? std::vector<double>{1.6, 1.0}
               : std::vector<double>{}},
          "work-line:" + work.id);
  }

  void draw_tree(const Tree& tree, const MethodOutcome& one) {
    if (!tree.position) return;
    const Place at = view_.place(tree.position->at);
    if (!view_.frame.shrunk(-4).contains({at.x, at.y, 0, 0})) return;
    if (tree.crown)
      pen_.shape(view_.rings(crown_outline(tree)), kCrownEdge, {}, "crown:" + tree.id);
    const double radius = std::max(0.7, view_.millimetres(drawn_diameter(tree)) / 2);
    Action action = Action::keep;
    bool pays = false;
    for (const TreeAssessment& assessed : plan_.assessment->trees)
      if (assessed.tree == tree.id) action = assessed.verdict.action;
    for (const TreeToll& toll : one.appraisal.trees)
      if (toll.tree == tree.id) action = toll.action, pays = true;
    draw_stem(pen_, at, radius, action, "stem:" + tree.id);
    if (pays && view_.frame.shrunk(3).contains({at.x, at.y, 0, 0}))
      pen_.text({at.x + stem_reach(radius, action) + 0.4, at.y - 1.6}, tree.label(),
                layout::sized(kBold, 7.5), "label:" + tree.id);
  }

  void draw_words(const MethodOutcome& one, const Rect& box) {
    double y = box.y;
    const MethodDesign& made = one.made;
    pen_.tagged(Role::heading2, [&] {
      y = pen_.text({box.x, y}, sentence_case(made.name) + (made.as_drawn ? " (as drawn)" : ""),
                    kHead)
              .bottom();
    });
    const auto say = [&](const std::string& text, const TextStyle& style, const char* name) {
      pen_.tagged(Role::paragraph, [&] {
        y = pen_.block({box.x, y + 0.3}, box.w, text, style, name).bottom();
      });
    };
    if (!made.applies) return say("Does not apply: " + made.why_not + ".", kPlain, "why-not");
    say(sentence_case(made.what) + ".", kPlain, "what");
    const Appraisal& a = one.appraisal;
    say((a.length > 0 ? words_.length(Length::metres(a.length)) + "; " : std::string()) +
            "building " + with_thousands(a.building) + "; in sum " + with_thousands(a.total()) +
            ".",
        kPlain, "money");
    say("Health: fine roots lost " + fixed_number(100 * a.roots_lost, 1) + " %, weighs " +
            with_thousands(sum_of(a, &TreeToll::roots_cost)) + ".",
        kBold, "health");
    say("Stability: anchorage lost " + fixed_number(100 * a.hold_lost, 1) + " %, weighs " +
            with_thousands(sum_of(a, &TreeToll::hold_cost)) + ".",
        kBold, "stability");
    draw_trees(a, box, y);
  }

  void draw_trees(const Appraisal& a, const Rect& box, double y) {
    const double line = pen_.measure("N", kPlain).h + 0.2;
    std::size_t told = 0;
    for (const TreeToll& toll : a.trees) {
      const bool last_line = y + 2 * line > box.bottom();
      if (told == kMostTrees || (last_line && a.trees.size() > told + 1)) break;
      if (y + line > box.bottom()) break;
      const Tree* tree = plan_.site->tree(toll.tree);
      const std::string text = (tree == nullptr ? toll.tree : tree->label()) + ": lost " +
                               share_of(toll.loss) + "; kept " +
                               (toll.kept ? share_of(*toll.kept) : "unknown") + "; " +
                               std::string(to_text(toll.action));
      pen_.text({box.x, y + 0.3}, pen_.shortened(text, kPlain, box.w), kPlain, "toll");
      y += line;
      ++told;
    }
    if (told < a.trees.size() && y + line <= box.bottom() + 0.5)
      pen_.text({box.x, y + 0.3}, "and " + std::to_string(a.trees.size() - told) + " more trees",
                kPlain, "more");
    if (a.trees.empty()) pen_.text({box.x, y + 0.3}, "No tree loses anything by it.", kPlain);
  }

  const Plan& plan_;
  const Work& work_;
  const MethodsAnswer& answer_;
  OnePage made_;
  Pen pen_;
  Wording words_;
  View view_;
};

}  // namespace

Result<layout::Document> make_methods_page(const Plan& plan, const MethodsAnswer& answer,
                                           SheetSize size, const TextMeter& meter) {
  const Work* work = plan.site->work(answer.work);
  if (work == nullptr)
    return Error{Code::unknown_name, "work " + answer.work, "there is no such work",
                 "choose one of the plan"};
  MethodsPage page(plan, *work, answer, size, meter);
  return document_of(plan, page.draw(), "Methods side by side");
}

Outcome write_methods_page(const Plan& plan, const MethodsAnswer& answer, SheetSize size,
                           const std::filesystem::path& pdf) {
  const auto meter = layout::pango_meter();
  ROOTSTEAD_TRY(const layout::Document document, make_methods_page(plan, answer, size, *meter));
  return layout::write_pdf(document, pdf);
}

}  // namespace rootstead
