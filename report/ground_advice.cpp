// What happens to the ground itself: levels, the state of the soil, wheels, fill.
#include <algorithm>
#include <cmath>
#include <map>

#include "engine/base/text.hpp"
#include "report/advice_pages.hpp"

namespace rootstead {

using layout::Align;
using layout::aligned;
using layout::Flow;
using layout::Hatch;
using layout::kInk;
using layout::Pen;
using layout::Rect;
using layout::Role;
using layout::Row;

namespace {

const layout::TextStyle kNote = layout::kSmallGrey;

// ---- levels -------------------------------------------------------------------------------------

std::string depth_and_share(const AmountText& amounts, Length depth, double of_zone,
                            double cubic_metres) {
  if (of_zone <= 0) return "–";
  return amounts.length(depth) + " over " + share(of_zone) + ", " + amounts.volume(cubic_metres);
}

bool changed(const ZoneLevels& zone) {
  return zone.depths.share_cut > 0 || zone.depths.share_filled > 0;
}

Row zone_row(const AdvicePages& pages, const ZoneLevels& zone) {
  const ZoneDepths& d = zone.depths;
  const AmountText amounts = pages.amounts();
  return {{{pages.label(zone.tree), layout::kTableBold},
           {zone_name(pages.book, zone.rule, zone.zone)},
           {depth_and_share(amounts, d.cut_depth, d.share_cut, d.all.cut)},
           {depth_and_share(amounts, d.fill_height, d.share_filled, d.all.fill)},
           {amounts.length(d.all.deepest_cut) + " / " + amounts.length(d.all.highest_fill)}}};
}

void add_trunks(const AdvicePages& pages, Flow& flow, const LevelChanges& levels) {
  const AmountText amounts = pages.amounts();
  std::vector<std::string> said;
  for (const TrunkFill& trunk : levels.trunks) {
    if (trunk.height > Length())
      said.push_back(pages.label(trunk.tree) + " raised by up to " + amounts.length(trunk.height));
    if (trunk.lowered > Length())
      said.push_back(pages.label(trunk.tree) + " lowered by up to " +
                     amounts.length(trunk.lowered));
  }
  if (!said.empty()) flow.paragraph("Ground at the trunk: " + joined(said, "; ") + ".");
}

void add_levels(const AdvicePages& pages, Flow& flow) {
  const Advice& advice = pages.advice();
  if (advice.no_levels) {
    flow.heading(2, "Levels");
    flow.paragraph("Not compared. " + advice.no_levels->sentence());
  }
  if (!advice.levels) return;
  const LevelChanges& levels = *advice.levels;
  flow.heading(2, "Levels");
  if (levels.offset && levels.offset->uniform) {
    flow.paragraph("▲ The two surfaces differ by " + pages.amounts().length(levels.offset->median) +
                       " as a whole, as surveys on different datums do. That is not counted as "
                       "cut or fill. Have the surveyor confirm both datums before a level is set "
                       "out.",
                   weighted(layout::kBody, layout::Weight::medium));
  }
  std::vector<Row> rows;
  for (const ZoneLevels& zone : levels.zones)
    if (changed(zone)) rows.push_back(zone_row(pages, zone));
  if (rows.empty())
    flow.paragraph("No zone of a tree is raised or lowered enough to notice.");
  else
    table(flow,
          {{"Tree", 1},
           {"Zone", 4.2},
           {"Lowered: by, over, earth", 3},
           {"Raised: by, over, earth", 3},
           {"Deepest / highest", 2.2}},
          rows);
  add_trunks(pages, flow, levels);
  if (!levels.notes.empty()) flow.paragraph(note_texts(levels.notes), kNote);
}

// ---- the state of the soil ----------------------------------------------------------------------

std::string texture_of(const LayerState& layer) {
  if (!layer.texture) return "texture not known";
  return std::string(to_text(*layer.texture)) +
         (layer.texture_assumed ? mark(Status::assumption) : "");
}

std::string grams(const std::optional<double>& density) {
  return density ? fixed_number(*density, 2) : "–";
}

Row reading_row(const DensityReading& reading) {
  return {{{""},
           {reading.row.table},
           {reading.row.texture},
           {grams(reading.row.ideal)},
           {grams(reading.row.affects)},
           {grams(reading.row.restricts)},
           {sentence_case(std::string(to_text(reading.verdict)))},
           {cited(reading.row.from)}}};
}

// A layer's own line, then every table's.
void add_layer(const AdvicePages& pages, const LayerState& layer, std::vector<Row>& rows) {
  Row head;
  head.opens_group = true;
  head.keeps_with_next = !layer.readings.empty();
  head.cells = {{pages.amounts().length(layer.top) + " to " + pages.amounts().length(layer.bottom) +
                     ": " + texture_of(layer) +
                     ". By all tables: " + std::string(to_text(layer.density)) + ".",
                 layout::kTableBold,
                 {},
                 8}};
  rows.push_back(std::move(head));
  for (const DensityReading& reading : layer.readings) rows.push_back(reading_row(reading));
}

void add_soil(const AdvicePages& pages, Flow& flow) {
  const SoilState& soil = pages.advice().soil;
  if (soil.layers.empty()) return;
  flow.heading(2, "State of the soil");
  flow.paragraph(
      "Dry density in g/cm³. Every published table stands by itself; where they disagree the "
      "strictest is not the truth but the one to act on.",
      kNote);
  std::vector<Row> rows;
  for (const LayerState& layer : soil.layers) add_layer(pages, layer, rows);
  table(flow,
        {{"", 0.5},
         {"Table", 1.6},
         {"Its texture", 2},
         {"Free below", 1.2},
         {"Hindered from", 1.3},
         {"Stopped from", 1.3},
         {"Reads", 1.4},
         {"Source; status", 3.6}},
        rows);
  if (!soil.notes.empty()) flow.paragraph(note_texts(soil.notes), kNote);
}

// ---- traffic ------------------------------------------------------------------------------------

constexpr double kBarPitch = 4.6, kBarThick = 2.6, kNamesWide = 31, kValuesWide = 40;

struct PressBar {
  std::string name;
  Range kilopascals;
  layout::Fill fill;
};

// Pressures of one state of the ground on one scale: low to high pale, best as a black mark. What
// presses is hatched, the strength that bears it is dotted.
std::vector<PressBar> press_bars(const TrafficCase& c, bool covered) {
  const layout::Fill rising{Hatch::rising, kInk, 0.8, 0.11};
  std::vector<PressBar> bars{{"bare ground", c.bare, rising}};
  if (covered) bars.push_back({"as covered", c.covered, {Hatch::level, kInk, 0.7, 0.11}});
  bars.push_back({"strength", c.strength, {Hatch::dots, kInk, 0.9, 0.3}});
  return bars;
}

double axis_end(const TrafficAdvice& traffic) {
  double most = 0;
  for (const TrafficCase& c : traffic.cases)
    most = std::max({most, c.bare.high, traffic.covered ? c.covered.high : 0, c.strength.high});
  return most;
}

void draw_press_bar(const AdvicePages& pages, Pen& pen, const Rect& box, const PressBar& bar,
                    double most) {
  const AmountText amounts = pages.amounts();
  const auto x = [&](double kpa) { return box.x + kpa / most * box.w; };
  const auto words = [&](double kpa) { return amounts.pressure(Pressure::kilopascals(kpa)); };
  const double top = box.y + (box.h - kBarThick) / 2;
  pen.text({box.x - 2, box.y + 0.4}, bar.name, aligned(layout::kTableText, Align::right));
  const Rect body{x(bar.kilopascals.low), top,
                  std::max(x(bar.kilopascals.high) - x(bar.kilopascals.low), 0.3), kBarThick};
  pen.rect(body, {0.16, kInk}, bar.fill, "press-bar");
  pen.rect({x(bar.kilopascals.best) - 0.35, top - 0.3, 0.7, kBarThick + 0.6}, layout::kNoStroke,
           layout::kInkFill, "press-best");
  pen.text({box.right() + 2, box.y + 0.4},
           words(bar.kilopascals.best) + " (" + words(bar.kilopascals.low) + " to " +
               words(bar.kilopascals.high) + ")",
           layout::kTableText);
}

void add_press_picture(const AdvicePages& pages, Flow& flow, const TrafficAdvice& traffic) {
  const double most = axis_end(traffic);
  if (!(most > 0)) return;
  for (std::size_t i = 0; i < traffic.cases.size(); ++i) {
    const TrafficCase& c = traffic.cases[i];
    const std::vector<PressBar> bars = press_bars(c, traffic.covered);
    const Rect box = flow.take(4.4 + kBarPitch * static_cast<double>(bars.size()));
    Pen pen = flow.pen();
    pen.tagged(Role::figure, [&] {
      pen.text({box.x, box.y},
               sentence_case(std::string(to_text(c.moisture))) + " ground" +
                   (i == traffic.planned ? ", as planned" : "") + ": " +
                   std::string(to_text(c.risk)),
               layout::kTableBold, "press-state");
      for (std::size_t b = 0; b < bars.size(); ++b)
        draw_press_bar(pages, pen,
                       {box.x + kNamesWide, box.y + 4.2 + kBarPitch * static_cast<double>(b),
                        box.w - kNamesWide - kValuesWide, kBarPitch},
                       bars[b], most);
    });
  }
}

std::string least_cover(const TrafficAdvice& traffic, const AmountText& amounts) {
  if (traffic.bare_is_enough) return "So light that bare ground bears it.";
  if (traffic.cover_is_enough) return "What is planned beneath it is enough.";
  if (traffic.least == nullptr)
    return "No cover of the table is enough for it: keep it off the roots, or use a lighter one.";
  return "Least cover that is enough: " + protection_words(*traffic.least, amounts) + " (" +
         cited(traffic.least->from) + ").";
}

void add_traffic(const AdvicePages& pages, Flow& flow, const TrafficAdvice& traffic) {
  const Work* work = pages.book.site().work(traffic.work);
  flow.heading(2, "Traffic on " + work_name(pages.book, traffic.work));
  std::string text;
  if (work != nullptr && work->vehicle && !work->vehicle->name.empty())
    text = sentence_case(work->vehicle->name) + ", " + with_thousands(traffic.passes) + " passes. ";
  if (!traffic.contact) {
    flow.paragraph(text + "What drives there is not known: nothing can be said of its pressure.");
    if (!traffic.notes.empty()) flow.paragraph(note_texts(traffic.notes), kNote);
    return;
  }
  flow.paragraph(text + least_cover(traffic, pages.amounts()) + " Stress " +
                 pages.amounts().small_length(Length::millimetres(150)) +
                 " below the surface against the strength of the soil there, low to high, the "
                 "best estimate as a black mark:");
  add_press_picture(pages, flow, traffic);
  flow.space(1);
  if (!traffic.notes.empty()) flow.paragraph(note_texts(traffic.notes), kNote);
}

// ---- fill ---------------------------------------------------------------------------------------

void add_fill(const AdvicePages& pages, Flow& flow, const FillAdvice& fill) {
  flow.heading(2, "Fill of " + work_name(pages.book, fill.work));
  flow.paragraph("Thickness " + pages.amounts().length(fill.thickness) + " of " +
                 (fill.texture == SoilTexture::unknown ? std::string("unknown texture")
                                                       : std::string(to_text(fill.texture))) +
                 ". Oxygen left at the old surface: " + number_span(fill.oxygen, 1) +
                 " %; thickness that leaves what roots want: " + pages.lengths(fill.tolerated) +
                 ". Together: " + std::string(to_text(fill.verdict)) + ".");
  std::vector<Row> rows;
  for (const bool harmless : {false, true}) {
    for (const FillRuleReading& reading : fill.rules) {
      if (reading.rule.harmless != harmless) continue;
      const std::string reads = harmless ? (reading.passed_over ? "beyond it" : "within it")
                                         : (reading.passed_over ? "▲ passed over" : "kept to");
      rows.push_back({{{harmless ? "found harmless" : "said to harm", layout::kTableBold},
                       {pages.amounts().length(Length::metres(reading.rule.thickness))},
                       {reads},
                       {reading.rule.text},
                       {cited(reading.rule.from)}},
                      rows.empty() || (harmless && rows.back().cells[0].text == "said to harm")});
    }
  }
  if (!rows.empty())
    table(flow,
          {{"What was", 1.5},
           {"From / up to", 1.2},
           {"This fill", 1.3},
           {"It says", 6},
           {"Source; status", 3}},
          rows);
  if (!fill.notes.empty()) flow.paragraph(note_texts(fill.notes), kNote);
}

}  // namespace

void add_ground_advice(AdvicePages& pages) {
  const Advice& advice = pages.advice();
  if (!advice.levels && !advice.no_levels && advice.soil.layers.empty() && advice.traffic.empty() &&
      advice.fills.empty())
    return;
  Flow& flow = pages.open("The ground", "ground");
  add_levels(pages, flow);
  add_soil(pages, flow);
  for (const TrafficAdvice& traffic : advice.traffic) add_traffic(pages, flow, traffic);
  for (const FillAdvice& fill : advice.fills) add_fill(pages, flow, fill);
}

}  // namespace rootstead
