#include "report/sheet.hpp"

#include <algorithm>
#include <cmath>

#include "engine/base/text.hpp"
#include "report/revision_marks.hpp"
#include "report/sheet_frame.hpp"
#include "report/sheet_parts.hpp"

namespace rootstead {

using layout::kInk;
using layout::Page;
using layout::Pen;
using layout::Rect;
using layout::Role;
using layout::sized;
using layout::TextMeter;
using layout::TextStyle;

namespace {

constexpr const char* kSheetCaution =
    "A screening aid from published averages, not a tree risk assessment or an engineering design. "
    "Roots are where they are: expose by hand or air before cutting. Locate buried services before "
    "any digging. Zones, losses and their limits are in the report this sheet belongs to.";

Error does_not_fit(const Plan& plan, const ReportOptions& options, const Rect& window) {
  const UnitSystem units = plan.site->settings.units;
  const Wording words(units);
  const Box ground = ground_of(plan);
  std::string fitting;
  for (const int scale : usual_scales(units)) {
    if (fits(ground, window, scale)) fitting += (fitting.empty() ? "" : ", ") + words.scale(scale);
  }
  const std::string sheet(format_of(options.sheet).name);
  Error error{Code::wrong_use, "the plan sheet",
              "the site does not fit on " + sheet + " at " + words.scale(options.scale), ""};
  error.remedy = fitting.empty() ? "choose a larger sheet, or no scale for an overview"
                                 : "use one of " + fitting + ", or a larger sheet";
  return error;
}

std::string left_out(const DrawnPlan& drawn) {
  std::string text;
  if (!drawn.without_place.empty())
    text += "Without a position, not drawn: " + joined(drawn.without_place, ", ") + ". ";
  if (!drawn.without_label.empty()) {
    text += std::to_string(drawn.without_label.size()) +
            " trees are drawn without a label for want of room; use a larger sheet. ";
  }
  return text;
}

std::string rules_drawn(const Plan& plan) {
  std::vector<std::string> rules;
  for (const TreeAssessment& tree : plan.assessment->trees) {
    for (const Zone* zone : main_zones(tree)) {
      if (std::find(rules.begin(), rules.end(), zone->rule) == rules.end())
        rules.push_back(zone->rule);
    }
  }
  return rules.empty() ? "" : "Zones drawn: " + joined(rules, ", ") + ". ";
}

void draw_column(Pen& pen, const Rect& column, const Plan& plan, const DrawnPlan& drawn,
                 const View& view, const SheetFormat& format, const RevisionHistory* history) {
  const ProjectSettings& s = plan.site->settings;
  const double title = title_block_height(pen, column.w, plan);
  const Rect block{column.x, column.bottom() - title, column.w, title};
  draw_title_block(pen, block, plan, "Trees, zones and works", Wording(s.units).scale(view.scale),
                   std::string(format.name));
  const double table = revision_height(history);
  const Rect revision{column.x, block.y - table, column.w, table};
  draw_revisions(pen, revision, s, history);
  const std::string caution = left_out(drawn) + rules_drawn(plan) + kSheetCaution;
  const TextStyle style = sized(layout::kSmallGrey, layout::kSmallestType);
  const double height = pen.measure(caution, style, column.w).h;
  const Rect words{column.x, revision.y - 2.5 - height, column.w, height};
  pen.block({words.x, words.y}, words.w, caution, style, "sheet-caution");
  draw_legend(pen, {column.x, column.y, column.w, words.y - 3 - column.y}, drawn);
}

}  // namespace

Result<Sheet> make_sheet(const Plan& plan, const ReportOptions& options, const TextMeter& meter,
                         const RevisionHistory* history) {
  const SheetFormat format = format_of(options.sheet);
  const bool demo = plan.site->settings.demo;
  const Frames frames = frames_of(format, demo);
  const Box ground = ground_of(plan);
  const UnitSystem units = plan.site->settings.units;
  Sheet sheet{{format.width, format.height, {}}, frames.window, options.scale, false};
  if (options.scale < 0 || (options.scale > 0 && !fits(ground, frames.window, options.scale, 0)))
    return does_not_fit(plan, options, frames.window);
  if (options.scale == 0) {
    const auto usual = largest_scale(ground, frames.window, units);
    sheet.overview = !usual;
    sheet.scale = usual ? *usual : overview_scale(ground, frames.window, units);
  }
  const View view{frames.window, middle_of(ground), sheet.scale};
  Pen pen(sheet.page, meter);
  pen.target("plan", {0, 0});
  pen.bookmark(1, "Plan at " + Wording(units).scale(sheet.scale), "plan");
  pen.tagged(Role::figure, [&] {
    const DrawnPlan drawn = draw_plan(pen, plan, view, {});
    if (history != nullptr) draw_clouds(pen, view, *history);
    pen.rect(view.frame, {0.35, kInk}, {}, "frame");
    if (demo) draw_demo_band(pen, frames.band, frames.window.w);
    draw_coordinates(pen, view, plan.site->system);
    draw_foot(pen, frames.foot, plan, view, sheet.overview);
    draw_column(pen, frames.column, plan, drawn, view, format, history);
  });
  return sheet;
}

Page make_picture(const Plan& plan, double width, const TextMeter& meter) {
  constexpr double kMargin = 3, kLegend = 56, kGap = 5, kBelow = 18, kLeastHeight = 90;
  const bool demo = plan.site->settings.demo;
  const double top = demo ? 12 : kMargin;
  const Box ground = ground_of(plan);
  const double wide = ground.max_x - ground.min_x, high = ground.max_y - ground.min_y;
  Rect window{kMargin, top, width - kLegend - 2 * kMargin - kGap, 0};
  const double inner = window.w - 2 * kGap;
  window.h = std::clamp(inner * high / std::max(wide, 0.1) + 2 * kGap, kLeastHeight, width);
  const double fit = std::max(wide / inner, high / (window.h - 2 * kGap));
  Page page{width, top + window.h + kBelow, {}};
  Pen pen(page, meter);
  const View view{window, middle_of(ground), std::max(1, int(std::ceil(fit * 1000)))};
  const DrawnPlan drawn = draw_plan(pen, plan, view, {});
  pen.rect(window, {0.35, kInk}, {}, "frame");
  if (demo) draw_demo_band(pen, {kMargin, kMargin}, window.w);
  draw_north_arrow(pen, {6, page.height - kMargin}, 12);
  draw_scale_bar(pen, {15, page.height - 12.5}, 60, view.scale, plan.site->settings.units);
  draw_legend(pen, {window.right() + kGap, top, kLegend, window.h}, drawn);
  return page;
}

}  // namespace rootstead
