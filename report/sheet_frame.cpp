#include "report/sheet_frame.hpp"

#include <algorithm>
#include <cmath>

#include "engine/base/text.hpp"

namespace rootstead {

using layout::Align;
using layout::aligned;
using layout::kGrey;
using layout::kInk;
using layout::kSmall;
using layout::Pen;
using layout::Place;
using layout::Rect;
using layout::sized;
using layout::TextStyle;
using layout::Weight;
using layout::weighted;

namespace {

constexpr double kEdge = 9;        // mm from the paper's edge
constexpr double kTickBand = 4.5;  // for coordinates at the left and the top
constexpr double kFootBand = 17;   // bar, arrow and notes under the window
constexpr double kGutter = 6;
constexpr double kDemoBand = 8;

std::string north_note(const ReferenceSystem& system) {
  std::string note = "Grid north is up.";
  const double turn = system.convergence.degrees();
  if (std::abs(turn) < 0.05) return note;
  // Convergence is grid north minus true north: where positive, true north lies to the west.
  return note + " True north lies " + fixed_number(std::abs(turn), 1) + "° " +
         (turn > 0 ? "west" : "east") + " of it.";
}

}  // namespace

Frames frames_of(const SheetFormat& f, bool demo) {
  const double right = f.width - kEdge - f.column - kGutter;
  Rect window{kEdge + kTickBand, kEdge + kTickBand, right - kEdge - kTickBand,
              f.height - 2 * kEdge - kTickBand - kFootBand};
  const Rect foot{window.x, window.bottom(), window.w, kFootBand};
  if (demo) window.y += kDemoBand, window.h -= kDemoBand;
  return {window,
          {right + kGutter, kEdge, f.column, f.height - 2 * kEdge},
          foot,
          {kEdge + kTickBand, kEdge - 2.5}};
}

void draw_coordinates(Pen& pen, const View& view, const ReferenceSystem& system) {
  const TextStyle style{.points = layout::kSmallestType, .tabular = true, .colour = kGrey};
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
    pen.text({p.x, view.frame.y - 4.1}, text(x), aligned(style, Align::centre), "grid-label");
  }
  for (double y = std::ceil(g.min_y / step) * step; y <= g.max_y; y += step) {
    const Place p = view.place({g.min_x, y});
    pen.line({view.frame.x - 1, p.y}, {view.frame.x, p.y}, {0.12, kInk}, "tick");
    const double half = pen.measure(text(y), style).w / 2;
    if (p.y - half < view.frame.y || p.y + half > view.frame.bottom()) continue;
    pen.turned_text({view.frame.x - 4.1, p.y + half}, text(y), style, "grid-label");
  }
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
  pen.block({x, top + 4.6}, foot.right() - x, note,
            sized(layout::kSmallGrey, layout::kSmallestType));
}

}  // namespace rootstead
