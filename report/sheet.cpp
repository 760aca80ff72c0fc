#include "report/sheet.hpp"

#include <algorithm>
#include <cmath>

#include "engine/base/text.hpp"
#include "report/sheet_parts.hpp"

namespace rootstead {

using layout::Align;
using layout::aligned;
using layout::kGrey;
using layout::kInk;
using layout::kSmall;
using layout::Page;
using layout::Pen;
using layout::Place;
using layout::Rect;
using layout::Role;
using layout::sized;
using layout::TextMeter;
using layout::TextStyle;
using layout::Weight;
using layout::weighted;

namespace {

constexpr double kEdge = 9;        // mm from the paper's edge
constexpr double kTickBand = 4.5;  // for coordinates at the left and the top
constexpr double kFootBand = 17;   // bar, arrow and notes under the window
constexpr double kGutter = 6;
constexpr const char* kSheetCaution =
    "A screening aid from published averages, not a tree risk assessment or an engineering design. "
    "Roots are where they are: expose by hand or air before cutting. Locate buried services before "
    "any digging. Zones, losses and their limits are in the report this sheet belongs to.";

struct Frames {
  Rect window, column, foot;
};

Frames frames_of(const SheetFormat& f) {
  const double right = f.width - kEdge - f.column - kGutter;
  const Rect window{kEdge + kTickBand, kEdge + kTickBand, right - kEdge - kTickBand,
                    f.height - 2 * kEdge - kTickBand - kFootBand};
  return {window,
          {right + kGutter, kEdge, f.column, f.height - 2 * kEdge},
          {window.x, window.bottom(), window.w, kFootBand}};
}

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

// Coordinates of the grid along the upper and the left edge, outside the window.
void draw_coordinates(Pen& pen, const View& view, const ReferenceSystem& system) {
  const TextStyle style{.points = 5.6, .tabular = true, .colour = kGrey};
  const double step = grid_step(view);
  const Box g = view.ground();
  // The system's own axes may count in feet; the grid then reads as the survey does.
  const double unit = metres_per(system.file_unit);
  const auto text = [&](double metres) { return with_thousands(metres / unit, 0); };
  for (double x = std::ceil(g.min_x / step) * step; x <= g.max_x; x += step) {
    const Place p = view.place({x, g.max_y});
    pen.line({p.x, view.frame.y - 1}, {p.x, view.frame.y}, {0.12, kInk}, "tick");
    const double half = pen.measure(text(x), style).w / 2;
    if (p.x - half < view.frame.x || p.x + half > view.frame.right()) continue;
    pen.text({p.x, view.frame.y - 3.6}, text(x), aligned(style, Align::centre), "grid-label");
  }
  for (double y = std::ceil(g.min_y / step) * step; y <= g.max_y; y += step) {
    const Place p = view.place({g.min_x, y});
    pen.line({view.frame.x - 1, p.y}, {view.frame.x, p.y}, {0.12, kInk}, "tick");
    const double half = pen.measure(text(y), style).w / 2;
    if (p.y - half < view.frame.y || p.y + half > view.frame.bottom()) continue;
    pen.turned_text({view.frame.x - 3.6, p.y + half}, text(y), style, "grid-label");
  }
}

std::string north_note(const ReferenceSystem& system) {
  std::string note = "Grid north is up.";
  const double turn = system.convergence.degrees();
  if (std::abs(turn) < 0.05) return note;
  // Convergence is grid north minus true north: where positive, true north lies to the west.
  return note + " True north lies " + fixed_number(std::abs(turn), 1) + "° " +
         (turn > 0 ? "west" : "east") + " of it.";
}

void draw_foot(Pen& pen, const Rect& foot, const Plan& plan, const View& view, bool overview) {
  const Wording words(plan.site->settings.units);
  const double top = foot.y + 4;
  draw_north_arrow(pen, {foot.x + 3, foot.y + 15}, 12);
  const Rect bar = draw_scale_bar(pen, {foot.x + 12, top + 1.5}, std::min(60.0, foot.w * 0.35),
                                  view.scale, words.units());
  const double x = bar.right() + 5;
  pen.text({x, top}, "Scale " + words.scale(view.scale), weighted(sized(kSmall, 9.5), Weight::bold),
           "written-scale");
  std::string note =
      "Print at 100 %: the bar must measure " +
      fixed_number(
          bar_length(std::min(60.0, foot.w * 0.35), view.scale, words.units()).millimetres() /
              view.scale / (words.us() ? 25.4 : 1),
          words.us() ? 2 : 1) +
      (words.us() ? " in." : " mm.");
  note += " " + north_note(plan.site->system);
  if (overview) {
    note =
        "Overview only: the site is too large for this sheet at any usual scale; the pages of "
        "the trees carry plans to scale. " +
        note;
  }
  pen.block({x, top + 4.6}, foot.right() - x, note, sized(layout::kSmallGrey, 6.6));
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

void draw_revision(Pen& pen, const Rect& box, const ProjectSettings& s) {
  const TextStyle head = sized(layout::kSmallGrey, 6.2), text = sized(kSmall, 6.8);
  pen.line({box.x, box.y}, {box.right(), box.y}, {0.18, kInk});
  const double mid = box.x + 14, third = box.x + 36;
  pen.text({box.x, box.y + 0.9}, "Rev", head);
  pen.text({mid, box.y + 0.9}, "Date", head);
  pen.text({third, box.y + 0.9}, "Status", head);
  pen.text({box.x, box.y + 4}, s.revision.empty() ? "–" : s.revision, text);
  pen.text({mid, box.y + 4}, pen.shortened(s.date, text, third - mid - 1), text);
  pen.text({third, box.y + 4},
           pen.shortened(s.status.empty() ? "–" : s.status, text, box.right() - third), text);
}

void draw_column(Pen& pen, const Rect& column, const Plan& plan, const DrawnPlan& drawn,
                 const View& view, const SheetFormat& format) {
  const ProjectSettings& s = plan.site->settings;
  const double title = title_block_height(pen, column.w, plan);
  const Rect block{column.x, column.bottom() - title, column.w, title};
  draw_title_block(pen, block, plan, "Trees, zones and works", Wording(s.units).scale(view.scale),
                   std::string(format.name));
  const Rect revision{column.x, block.y - 9.5, column.w, 9.5};
  draw_revision(pen, revision, s);
  const std::string caution = left_out(drawn) + rules_drawn(plan) + kSheetCaution;
  const TextStyle style = sized(layout::kSmallGrey, 6.4);
  const double height = pen.measure(caution, style, column.w).h;
  const Rect words{column.x, revision.y - 2.5 - height, column.w, height};
  pen.block({words.x, words.y}, words.w, caution, style, "sheet-caution");
  draw_legend(pen, {column.x, column.y, column.w, words.y - 3 - column.y}, drawn);
}

Rect window_below_band(Rect window, bool demo) {
  if (demo) window.y += 8, window.h -= 8;
  return window;
}

}  // namespace

Result<Sheet> make_sheet(const Plan& plan, const ReportOptions& options, const TextMeter& meter) {
  const SheetFormat format = format_of(options.sheet);
  const bool demo = plan.site->settings.demo;
  Frames frames = frames_of(format);
  frames.window = window_below_band(frames.window, demo);
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
    pen.rect(view.frame, {0.35, kInk}, {}, "frame");
    if (demo) draw_demo_band(pen, {kEdge + kTickBand, kEdge - 2.5}, frames.window.w);
    draw_coordinates(pen, view, plan.site->system);
    draw_foot(pen, frames.foot, plan, view, sheet.overview);
    draw_column(pen, frames.column, plan, drawn, view, format);
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
