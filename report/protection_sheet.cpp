#include "report/protection_sheet.hpp"

#include <algorithm>
#include <array>
#include <set>

#include "engine/base/text.hpp"
#include "report/protection_drawer.hpp"
#include "report/revision_marks.hpp"
#include "report/sheet_frame.hpp"

namespace rootstead {

using layout::coloured;
using layout::kAccent;
using layout::kInk;
using layout::kSmall;
using layout::Page;
using layout::Pen;
using layout::Rect;
using layout::Role;
using layout::sized;
using layout::TextMeter;
using layout::TextStyle;
using layout::Weight;
using layout::weighted;

namespace {

constexpr double kRoomPerLabel = 650;  // mm2 of drawing; with less a sheet is hard to read
constexpr double kLegendRow = 5, kSampleWidth = 11, kSampleGap = 2.5;
constexpr double kLeastClashes = 11;  // mm kept for the list of clashes
const TextStyle kLegendText{.points = layout::kSmallestType, .colour = kInk};
const TextStyle kClashText{.points = layout::kSmallestType, .colour = kInk};

constexpr const char* kCaution =
    "A plan made by rule from what was surveyed, not an engineering design. Walk it on site before "
    "anything is set out. Have buried services located before any post is driven or ground opened. "
    "Roots are where they are: expose by hand or air before cutting; keep people clear while roots "
    "are cut; stop if the tree or its plate moves. Local law, permits and the qualified arborist "
    "on site prevail. Lengths, quantities and the order of the work are on the pages after this "
    "sheet.";

constexpr std::array kChecked{
    ClashKind::fence_in_work,  ClashKind::outside_boundary,       ClashKind::tree_unprotected,
    ClashKind::access_missing, ClashKind::cover_on_excavation,    ClashKind::fence_near_stem,
    ClashKind::fences_cross,   ClashKind::enclosure_without_gate, ClashKind::fence_in_building,
    ClashKind::fence_gap,      ClashKind::post_near_stem};

std::string few_of(std::vector<std::string> ids) {
  constexpr std::size_t kMost = 24;
  if (ids.size() <= kMost) return runs_of(ids);
  const std::string more = " and " + std::to_string(ids.size() - kMost) + " more";
  ids.resize(kMost);
  return runs_of(ids) + more;
}

// The plan sheet shows trees by their verdicts; where the client decided otherwise it is said.
std::string decided(const Plan& plan) {
  std::vector<std::string> removed, moved;
  for (const TreeAssessment& assessed : plan.assessment->trees) {
    const Tree* tree = tree_of(plan, assessed);
    if (tree == nullptr || !tree->position) continue;
    const Action action = assessed.verdict.action;
    if (tree->intent == Intent::remove && action != Action::remove)
      removed.push_back(tree->label());
    if (tree->intent == Intent::move && action != Action::transplant)
      moved.push_back(tree->label());
  }
  std::string text;
  if (!removed.empty()) text += "removed " + few_of(removed);
  if (!moved.empty()) text += (text.empty() ? "moved " : ", moved ") + few_of(moved);
  return text.empty() ? text : "Drawn as the client decided, not by verdict: " + text + ". ";
}

std::string caution_of(const Plan& plan, const DrawnProtection& drawn) {
  std::string text = decided(plan);
  if (!drawn.without_place.empty())
    text += "Without a position, not drawn: " + few_of(drawn.without_place) + ". ";
  if (!drawn.off_sheet.empty())
    text += "Beyond the edge at this scale: " + few_of(drawn.off_sheet) + ". ";
  if (!drawn.without_label.empty())
    text += "Drawn without a label for want of room: " + few_of(drawn.without_label) +
            "; use a larger sheet. ";
  if (drawn.shortened > 0) text += "Labels without figures: see the tables. ";
  if (drawn.assumed_depth) text += "ᵃ our assumption: no depth was entered. ";
  return text + kCaution;
}

// On a small sheet what lies beneath is told by the legend of the plan sheet alone.
std::vector<LegendRow> fitting_rows(const Pen& pen, double width, double room,
                                    std::vector<LegendRow> rows) {
  double needed = 0;
  for (const LegendRow& row : rows) needed += pen.measure(row.meaning, kLegendText, width).h;
  if (needed <= room) return rows;
  std::erase_if(rows, [](const LegendRow& row) {
    return row.rank == static_cast<int>(Rank::base) && row.key != "boundary";
  });
  const auto nothing = [](Pen&, const Rect&) {};
  rows.push_back({static_cast<int>(Rank::base), "elsewhere",
                  "Buildings, walls and surfaces: as on the plan sheet", nothing});
  return rows;
}

double draw_rows(Pen& pen, const Rect& box, const std::vector<LegendRow>& all) {
  const Rect head = pen.text({box.x, box.y}, "Legend", weighted(kSmall, Weight::bold));
  const double width = box.w - kSampleWidth - kSampleGap;
  const std::vector<LegendRow> rows = fitting_rows(pen, width, box.h - head.h - 2, all);
  const double line = pen.measure("N", kLegendText).h;
  double more = 0;  // what meanings of two lines take beyond a row
  for (const LegendRow& row : rows) more += pen.measure(row.meaning, kLegendText, width).h - line;
  const double room = box.h - head.h - 2 - more;
  const double height =
      std::min(kLegendRow, room / std::max<double>(1, static_cast<double>(rows.size())));
  double y = head.bottom() + 1.2;
  for (const LegendRow& row : rows) {
    row.sample(pen, {box.x, y + height * 0.12, kSampleWidth, height * 0.76});
    const Rect words = pen.block({box.x + kSampleWidth + kSampleGap, y + (height - line) / 2},
                                 width, row.meaning, kLegendText, "legend-text");
    y += height + words.h - line;
  }
  return y - box.y;
}

std::string checked_for() {
  std::vector<std::string> kinds;
  for (const ClashKind kind : kChecked) kinds.emplace_back(to_text(kind));
  return joined(kinds, ", ");
}

// One line each, and how many more there are; or that none was found, and what was looked for.
void draw_clash_box(Pen& pen, const Rect& box, const Site& site,
                    const std::vector<Clash>& clashes) {
  pen.line({box.x, box.y}, {box.right(), box.y}, {0.18, kInk});
  const std::string title =
      clashes.empty() ? "Clashes: none found" : "Clashes: " + std::to_string(clashes.size());
  const TextStyle head = weighted(kSmall, Weight::bold);
  double y = pen.text({box.x, box.y + 1}, title, head, "clashes").bottom() + 0.6;
  if (clashes.empty()) {
    pen.block({box.x, y}, box.w, "Checked: " + checked_for() + ".", kClashText, "clashes");
    return;
  }
  const double line = pen.measure("N", kClashText).h + 0.4;
  const auto fitting = static_cast<std::size_t>(std::max(1.0, (box.bottom() - y) / line));
  const std::size_t shown = clashes.size() <= fitting ? clashes.size() : fitting - 1;
  for (std::size_t i = 0; i < shown; ++i, y += line) {
    const std::string number = clash_number(i);
    pen.text({box.x, y}, number, weighted(coloured(kClashText, kAccent), Weight::bold), "clashes");
    const std::string text =
        std::string(to_text(clashes[i].kind)) + ": " + tags_of(site, clashes[i].ids);
    pen.text({box.x + 7, y}, pen.shortened(text, kClashText, box.w - 7), kClashText, "clashes");
  }
  if (shown < clashes.size())
    pen.text({box.x, y}, std::to_string(clashes.size() - shown) + " more in the table of clashes",
             kClashText, "clashes");
}

double clash_height(const Pen& pen, double width, const std::vector<Clash>& clashes) {
  const double head = pen.measure("N", kSmall).h + 2;
  if (clashes.empty())
    return head + pen.measure("Checked: " + checked_for() + ".", kClashText, width).h;
  return head + static_cast<double>(clashes.size()) * (pen.measure("N", kClashText).h + 0.4);
}

class SheetMaker {
 public:
  SheetMaker(const Plan& plan, const ReportOptions& options, const TextMeter& meter,
             const RevisionHistory* history)
      : plan_(plan),
        meter_(meter),
        history_(history),
        format_(format_of(options.sheet)),
        frames_(frames_of(format_, plan.site->settings.demo)) {
    Box ground = ground_of_protection(plan);
    const UnitSystem units = plan.site->settings.units;
    if (options.scale > 0) {
      // The plan sheet fits at it; where the fences do not, the trees stay in the middle.
      if (!fits(ground, frames_.window, options.scale, 0)) ground = ground_of(plan);
      view_.scale = options.scale;
    } else {
      const auto usual = largest_scale(ground, frames_.window, units);
      overview_ = !usual;
      view_.scale = usual ? *usual : overview_scale(ground, frames_.window, units);
    }
    view_.frame = frames_.window;
    view_.centre = middle_of(ground);
  }

  std::vector<Sheet> sheets() const {
    const DrawnProtection both = tried({true, true});
    if (!too_much(both) || !both_kinds()) return {sheet({true, true}, "Protection plan", "")};
    return {sheet({true, false}, "Protection plan 1: fences and ground", "1"),
            sheet({false, true}, "Protection plan 2: digging", "2")};
  }

 private:
  DrawnProtection tried(const ProtectionParts& parts) const {
    Page page{format_.width, format_.height, {}};
    Pen pen(page, meter_);
    return draw_protection(pen, plan_, view_, parts);
  }

  bool too_much(const DrawnProtection& drawn) const {
    const double room = frames_.window.w * frames_.window.h;
    return !drawn.without_label.empty() || drawn.shortened > 0 ||
           room < kRoomPerLabel * static_cast<double>(drawn.labels);
  }

  bool both_kinds() const {
    const ProtectionPlan& p = *plan_.advice->protection;
    const bool standing = !p.fences.empty() || !p.covers.empty() || !p.guards.empty();
    const bool digging =
        !p.no_dig.empty() || !p.root_cuts.empty() || !p.digs.empty() || !p.bores.empty();
    return standing && digging;
  }

  Sheet sheet(const ProtectionParts& parts, const std::string& title,
              const std::string& number) const {
    Sheet sheet{{format_.width, format_.height, {}}, frames_.window, view_.scale, overview_};
    Pen pen(sheet.page, meter_);
    const std::string target = number == "2" ? "protection-digging-sheet" : "protection";
    pen.target(target, {0, 0});
    pen.bookmark(number == "2" ? 2 : 1, number == "2" ? title : "Protection plan", target);
    pen.tagged(Role::figure, [&] {
      const DrawnProtection drawn = draw_protection(pen, plan_, view_, parts);
      pen.rect(view_.frame, {0.35, kInk}, {}, "frame");
      if (plan_.site->settings.demo) draw_demo_band(pen, frames_.band, frames_.window.w);
      draw_coordinates(pen, view_, plan_.site->system);
      draw_foot(pen, frames_.foot, plan_, view_, overview_);
      draw_column(pen, drawn, title);
    });
    return sheet;
  }

  void draw_column(Pen& pen, const DrawnProtection& drawn, const std::string& title) const {
    const Rect& column = frames_.column;
    const ProjectSettings& s = plan_.site->settings;
    const std::vector<Clash>& clashes = plan_.advice->protection->clashes;
    const double high = title_block_height(pen, column.w, plan_);
    const Rect block{column.x, column.bottom() - high, column.w, high};
    draw_title_block(pen, block, plan_, title, Wording(s.units).scale(view_.scale),
                     std::string(format_.name));
    const double table = revision_height(history_);
    const Rect revision{column.x, block.y - table, column.w, table};
    draw_revisions(pen, revision, s, history_);
    const TextStyle style = sized(layout::kSmallGrey, layout::kSmallestType);
    const std::string caution = caution_of(plan_, drawn);
    const double height = pen.measure(caution, style, column.w).h;
    const double top = revision.y - 2.5 - height;
    pen.block({column.x, top}, column.w, caution, style, "sheet-caution");
    const double asked = clash_height(pen, column.w, clashes);
    const double kept = std::min(asked, clashes.empty() ? asked : kLeastClashes);
    const double legend =
        draw_rows(pen, {column.x, column.y, column.w, top - 6 - kept - column.y}, drawn.legend);
    const double y = column.y + legend + 2.5;
    draw_clash_box(pen, {column.x, y, column.w, std::min(asked, top - 2 - y)}, *plan_.site,
                   clashes);
  }

  const Plan& plan_;
  const TextMeter& meter_;
  const RevisionHistory* history_;
  SheetFormat format_;
  Frames frames_;
  View view_;
  bool overview_ = false;
};

}  // namespace

std::vector<Sheet> make_protection_sheets(const Plan& plan, const ReportOptions& options,
                                          const TextMeter& meter, const RevisionHistory* history) {
  return SheetMaker(plan, options, meter, history).sheets();
}

}  // namespace rootstead
