#include "report/crew_sheet.hpp"

#include <algorithm>

#include "engine/base/text.hpp"
#include "report/crew_behind.hpp"
#include "report/crew_extract.hpp"
#include "report/crew_pictures.hpp"
#include "report/crew_words.hpp"
#include "report/one_page.hpp"
#include "report/paint.hpp"
#include "report/protection_drawing.hpp"
#include "report/sheet_parts.hpp"
#include "report/wording.hpp"

namespace rootstead {

using layout::Align;
using layout::aligned;
using layout::Pen;
using layout::Rect;
using layout::Role;
using layout::sized;
using layout::TextMeter;
using layout::TextStyle;
using layout::Weight;
using layout::weighted;

namespace {

const TextStyle kDetail{.points = 10, .colour = kBlack};
const TextStyle kHead{.points = 12, .weight = Weight::bold, .colour = kBlack};
const TextStyle kRuleText{.points = 20, .weight = Weight::bold, .colour = kBlack, .leading = 0.92};
const TextStyle kNumber{.points = 30, .weight = Weight::bold, .display = true, .colour = kBlack};
constexpr double kPictureWide = 52, kPictureHigh = 31.2, kRowGap = 2.4, kNumberWide = 11;
constexpr double kGap = 3;
constexpr std::size_t kTreesNamed = 4;
constexpr const char* kBehind = "Lengths, trees and plan parts: the pages behind this one.";

class CrewSheet {
 public:
  CrewSheet(const Plan& plan, CrewWords words, SheetSize size, const TextMeter& meter)
      : plan_(plan),
        words_(std::move(words)),
        size_(size),
        made_(one_page(size)),
        pen_(made_.page, meter) {}

  std::vector<layout::Page> draw() {
    pen_.target("crew", {0, 0});
    pen_.bookmark(1, "For the crew", "crew");
    const Rect& body = made_.body;
    const double top = draw_rules(draw_head() + kGap);
    const double foot = body.bottom() - cautions_height();
    draw_cautions(foot);
    const double calls = foot - kGap - calls_height();
    draw_calls(calls);
    draw_site({body.x, top + 0.6, body.w, calls - kGap - top - 0.6});
    std::vector<layout::Page> pages;
    pages.push_back(std::move(made_.page));
    if (more_behind_) {
      for (layout::Page& page : pages_behind(plan_, words_, size_, pen_.meter()))
        pages.push_back(std::move(page));
    }
    return pages;
  }

 private:
  double draw_head() {
    const Rect& body = made_.body;
    double y = body.y;
    pen_.tagged(Role::heading1, [&] {
      y = pen_.text({body.x, y}, "Digging near trees: three rules", sized(kNumber, 24)).bottom();
    });
    pen_.tagged(Role::paragraph, [&] {
      const std::string where = pen_.shortened(whereabouts(plan_), kDetail, body.w);
      y = pen_.text({body.x, y + 0.5}, where, kDetail).bottom();
      if (plan_.site->settings.demo)
        y = pen_.text({body.x, y + 0.5}, kDemoSentence, kBlackBold, "demo").bottom();
    });
    pen_.line({body.x, y + 1}, {body.right(), y + 1}, {0.8, kBlack});
    return y + 1;
  }

  double draw_rules(double y) {
    using Draw = void (*)(Pen&, const Rect&);
    constexpr Draw kPictures[] = {draw_machine_outside, draw_hand_digging, draw_wet_cover_call};
    const std::vector<CrewRule> rules = words_.rules();
    for (std::size_t i = 0; i < rules.size(); ++i) {
      const Rect& body = made_.body;
      pen_.tagged(Role::figure, [&] {
        kPictures[i](pen_, {body.x, y, kPictureWide, kPictureHigh});
      });
      const double x = body.x + kPictureWide + 4;
      pen_.text({x, y - 2}, std::to_string(i + 1), kNumber);
      const double left = x + kNumberWide, width = body.right() - left;
      pen_.tagged(Role::paragraph, [&] {
        const Rect rule = pen_.block({left, y - 0.6}, width, rules[i].rule, kRuleText, "rule");
        const Rect detail =
            pen_.block({left, rule.bottom() + 0.8}, width, rules[i].detail, kDetail, "detail");
        y = std::max(y + kPictureHigh, detail.bottom()) + kRowGap;
      });
    }
    return y;
  }

  // The small plan at the left, the list at the right.
  void draw_site(const Rect& box) {
    const double wide = box.w * 0.53;
    const Rect plan{box.x, box.y, wide, box.h};
    const Rect list{box.x + wide + kGap + 1, box.y, box.w - wide - kGap - 1, box.h};
    const std::vector<CrewStretch> all = words_.stretches();
    const double first = first_row(list);
    CrewExtract what;
    if (first + height_of(all, list.w) > list.bottom() || names_too_many(plan)) {
      what.names = CrewExtract::Names::works;
      more_behind_ = true;
    }
    pen_.tagged(Role::figure, [&] { draw_crew_extract(pen_, plan_, plan, what); });
    pen_.text({list.x, list.y - 0.8}, "On this site", kHead);
    if (all.empty())
      pen_.block({list.x, first}, list.w,
                 "No work of this plan opens ground of trees that stay. Ask before you dig "
                 "anywhere else.",
                 kBlackText);
    else if (more_behind_)
      draw_works({list.x, first, list.w, list.bottom() - first}, all);
    else
      draw_list({list.x, first, list.w, list.bottom() - first}, all);
  }

  double first_row(const Rect& list) const { return list.y - 0.2 + pen_.measure("N", kHead).h; }
  double height_of(const std::vector<CrewStretch>& all, double wide) const {
    double high = 0;
    for (const CrewStretch& one : all) high += laid_out(wide, one).high;
    return high;
  }

  // Tried on a page that is thrown away.
  bool names_too_many(const Rect& frame) const {
    OnePage scratch = one_page(size_);
    Pen pen(scratch.page, pen_.meter());
    return draw_crew_extract(pen, plan_, frame) > 0;
  }

  void draw_list(const Rect& box, const std::vector<CrewStretch>& all) {
    double y = box.y;
    pen_.tagged(Role::list, [&] {
      for (const CrewStretch& one : all) y = draw_stretch(box, y, one);
    });
  }

  // A work and the ids of its stretches; what they are is told behind.
  void draw_works(const Rect& box, const std::vector<CrewStretch>& all) {
    const double last = pen_.measure(kBehind, kBlackBold, box.w).h;
    std::vector<std::string> works;
    for (const CrewStretch& one : all)
      if (std::find(works.begin(), works.end(), one.work) == works.end()) works.push_back(one.work);
    double y = box.y;
    std::size_t told = 0;
    pen_.tagged(Role::list, [&] {
      for (; told < works.size(); ++told) {
        const std::string said = stretches_of(works[told], all);
        const double high =
            pen_.measure("N", kBlackBold).h + pen_.measure(said, kBlackText, box.w).h + 1.2;
        const bool is_last = told + 1 == works.size();
        if (y + high + last * (is_last ? 1 : 1.5) > box.bottom()) break;
        draw_work(box, y, works[told], said);
        y += high;
      }
    });
    const std::size_t left = works.size() - told;
    pen_.block(
        {box.x, y}, box.w,
        (left == 0 ? "" : "And " + std::to_string(left) + " more works. ") + std::string(kBehind),
        kBlackBold, "behind");
  }

  static std::string stretches_of(const std::string& work, const std::vector<CrewStretch>& all) {
    std::vector<std::pair<std::string, std::vector<std::string>>> methods;
    for (const CrewStretch& one : all) {
      if (one.work != work) continue;
      auto at = std::find_if(methods.begin(), methods.end(),
                             [&](const auto& method) { return method.first == one.method; });
      if (at == methods.end()) at = methods.insert(methods.end(), {one.method, {}});
      if (one.id != work) at->second.push_back(one.id);
    }
    std::vector<std::string> said;
    for (const auto& [method, ids] : methods)
      said.push_back(method + (ids.empty() ? "" : ": " + runs_of(ids)));
    return sentence_case(joined(said, "; "));
  }

  void draw_work(const Rect& box, double y, const std::string& work, const std::string& said) {
    pen_.tagged(Role::list_item, [&] {
      const std::string name = pen_.shortened(words_.work(work), kBlackBold, box.w);
      const Rect head = pen_.text({box.x, y}, name, kBlackBold, "work:" + work);
      y = pen_.block({box.x, head.bottom()}, box.w, said, kBlackText, "work-stretches").bottom();
    });
    pen_.line({box.x, y + 0.5}, {box.right(), y + 0.5}, {0.15, kBlack});
  }

  // The trees stand beside the stretch; where they find no room there, in full below it.
  struct Stretch {
    std::string trees;
    bool beside = true;
    double high = 0;
  };
  Stretch laid_out(double wide, const CrewStretch& one) const {
    Stretch laid{trees_named(plan_, one.trees, kTreesNamed)};
    const double line = pen_.measure("N", kBlackText).h;
    const double said = pen_.measure(said_of(one), kBlackBold).w;
    laid.beside = said + 2 + pen_.measure(laid.trees, kBlackText).w <= wide;
    laid.high = 2 * line + 1.2;
    if (!laid.beside) laid.high += pen_.measure(laid.trees, kBlackText, wide).h;
    return laid;
  }
  static std::string said_of(const CrewStretch& one) { return one.id + "  " + one.method; }

  double draw_stretch(const Rect& box, double y, const CrewStretch& one) {
    const Stretch laid = laid_out(box.w, one);
    pen_.tagged(Role::list_item, [&] {
      const Rect said = pen_.text({box.x, y}, pen_.shortened(said_of(one), kBlackBold, box.w),
                                  kBlackBold, "stretch:" + one.id);
      if (laid.beside)
        pen_.text({box.right(), y}, laid.trees, aligned(kBlackText, Align::right), "stretch-trees");
      const Rect where =
          pen_.text({box.x, said.bottom()}, pen_.shortened(words_.where(one), kBlackText, box.w),
                    kBlackText, "measure");
      if (!laid.beside)
        pen_.block({box.x, where.bottom()}, box.w, laid.trees, kBlackText, "stretch-trees");
    });
    y += laid.high;
    pen_.line({box.x, y - 0.7}, {box.right(), y - 0.7}, {0.15, kBlack});
    return y;
  }

  // ---- stop and call
  // ------------------------------------------------------------------------------

  static constexpr double kPad = 2.5, kPlate = 20;
  double stop_width() const { return made_.body.w * 0.6; }
  double signs_width() const { return stop_width() - kPlate - 3 * kPad; }
  double calls_height() const {
    const double signs = height_of_bullets(pen_, signs_width(), words_.stop_signs(),
                                           weighted(kDetail, Weight::bold));
    return std::max(signs + pen_.measure("N", kHead).h + 2 * kPad + 1, 33.0);
  }

  void draw_calls(double y) {
    const Rect& body = made_.body;
    const Rect box{body.x, y, stop_width(), calls_height()};
    pen_.rect(box, {0.9, kBlack}, {}, "stop-box");
    draw_stop_plate(pen_, {box.x + kPad + kPlate / 2, box.centre().y}, kPlate / 2);
    const double x = box.x + kPlate + 2 * kPad;
    const Rect head =
        pen_.text({x, y + kPad - 0.5}, "Stop, keep everybody away and call, if", kHead);
    draw_bullets(pen_, {x, head.bottom() + 1}, signs_width(), words_.stop_signs(),
                 weighted(kDetail, Weight::bold));
    draw_callers({box.right() + kGap, y, body.right() - box.right() - kGap, box.h});
  }

  void draw_callers(const Rect& box) {
    pen_.rect(box, {0.4, kBlack}, {}, "call-box");
    const double x = box.x + kPad, width = box.w - 2 * kPad;
    const ProjectSettings& s = plan_.site->settings;
    double y = pen_.text({x, box.y + kPad - 0.5}, "Call", kHead).bottom() + 0.5;
    const auto say = [&](const std::string& text, const TextStyle& style) {
      if (!text.empty())
        y = pen_.text({x, y}, pen_.shortened(text, style, width), style, "call").bottom() + 0.3;
    };
    say(s.author.empty() ? "Arborist: ____________________" : s.author, sized(kBlackBold, 12));
    say(s.credentials, kBlackText);
    say(telephone_of(plan_), sized(kBlackBold, 10));
    say("Site manager: ___________________", kBlackText);
    say(s.client.empty() ? "" : "For " + s.client, kBlackText);
  }

  std::string cautions() const { return crew_cautions(words_); }
  double cautions_height() const { return pen_.measure(cautions(), kBlackText, made_.body.w).h; }
  void draw_cautions(double y) {
    pen_.tagged(Role::paragraph, [&] {
      pen_.block({made_.body.x, y}, made_.body.w, cautions(), kBlackText, "cautions");
    });
  }

  const Plan& plan_;
  CrewWords words_;
  SheetSize size_;
  bool more_behind_ = false;
  OnePage made_;
  Pen pen_;
};

}  // namespace

Result<layout::Document> make_crew_sheet(const Plan& plan, const CrewSheetOptions& options,
                                         const TextMeter& meter) {
  if (plan.advice == nullptr) return without_advice("the crew's sheet");
  ROOTSTEAD_TRY(CrewWords words, CrewWords::of(plan));
  CrewSheet sheet(plan, std::move(words), options.sheet, meter);
  std::vector<layout::Page> pages = sheet.draw();
  layout::Document document =
      document_of(plan, std::move(pages.front()), "Digging near trees: for the crew");
  document.pages.insert(document.pages.end(), std::make_move_iterator(pages.begin() + 1),
                        std::make_move_iterator(pages.end()));
  return document;
}

Outcome write_crew_sheet(const Plan& plan, const CrewSheetOptions& options,
                         const std::filesystem::path& pdf) {
  const auto meter = layout::pango_meter();
  ROOTSTEAD_TRY(const layout::Document document, make_crew_sheet(plan, options, *meter));
  return layout::write_pdf(document, pdf);
}

}  // namespace rootstead
