#include "report/sheet_parts.hpp"

#include <algorithm>
#include <cmath>

#include "engine/base/text.hpp"

namespace rootstead {

using layout::Align;
using layout::aligned;
using layout::coloured;
using layout::Hatch;
using layout::kAccent;
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

const TextStyle kBarText{.points = layout::kSmallestType, .tabular = true, .colour = kInk};
const TextStyle kLegendText{.points = layout::kSmallestType, .colour = kInk};
constexpr double kBarHeight = 1.6;
constexpr int kBarFields = 5;
constexpr double kLabelledField = 6;  // mm
constexpr double kSampleWidth = 11, kLegendRow = 5;

struct Fact {
  std::string label, value;
};

std::vector<Fact> title_facts(const Plan& plan) {
  const ProjectSettings& s = plan.site->settings;
  std::vector<Fact> facts;
  const auto add = [&](const char* label, const std::string& value) {
    if (!value.empty()) facts.push_back({label, value});
  };
  add("For", s.client);
  add("By", s.author + (s.credentials.empty() ? "" : ", " + s.credentials));
  add("Status", s.status);
  const ReferenceSystem& system = plan.site->system;
  add("Grid", system.name.empty() ? system.code : system.name + " (" + system.code + ")");
  add("Datum", system.datum);
  add("Data", plan.assessment->data_version);
  return facts;
}

constexpr double kFactLabel = 12, kBlockPad = 2.2;

}  // namespace

Length bar_length(double longest, int scale, UnitSystem units) {
  const double unit = units == UnitSystem::metric ? 1 : metres_per(LengthUnit::foot);
  const double most = longest * scale / 1000 / unit;
  double step = std::pow(10, std::floor(std::log10(most)));
  if (step * 5 <= most)
    step *= 5;
  else if (step * 2 <= most)
    step *= 2;
  return Length::metres(step * unit);
}

Rect draw_scale_bar(Pen& pen, Place at, double longest, int scale, UnitSystem units) {
  const Length length = bar_length(longest, scale, units);
  const double width = length.millimetres() / scale, field = width / kBarFields;
  const double top = at.y + 3.2;
  pen.rect({at.x, top, width, kBarHeight}, layout::kNoStroke, layout::kWhiteFill, "scale-bar");
  for (int i = 0; i < kBarFields; ++i) {
    const Rect part{at.x + i * field, top, field, kBarHeight};
    pen.rect(part, {0.18, kInk}, i % 2 == 0 ? layout::kInkFill : layout::kWhiteFill, "bar-field");
  }
  const bool metric = units == UnitSystem::metric;
  const double shown = metric ? length.metres() : in_unit(length, LengthUnit::foot);
  const std::string far = with_thousands(shown, shown < 1 ? 1 : 0) + (metric ? " m" : " ft");
  const double half = shown / kBarFields;
  pen.text({at.x, at.y}, "0", aligned(kBarText, Align::left));
  if (field > kLabelledField)
    pen.text({at.x + field, at.y}, with_thousands(half, half == std::round(half) ? 0 : 1),
             aligned(kBarText, Align::centre));
  const Rect end = pen.text({at.x + width, at.y}, far, aligned(kBarText, Align::centre));
  return {at.x, at.y, end.right() - at.x, top + kBarHeight - at.y};
}

Rect draw_north_arrow(Pen& pen, Place foot, double height) {
  const double half = height * 0.2, tip = foot.y - height * 0.74;
  const Place notch{foot.x, foot.y - height * 0.16};
  pen.shape({{{foot.x, tip}, {foot.x + half, foot.y}, notch}}, {0.2, kInk}, layout::kInkFill,
            "north");
  pen.shape({{{foot.x, tip}, {foot.x - half, foot.y}, notch}}, {0.2, kInk}, layout::kWhiteFill,
            "north");
  const TextStyle letter{
      .points = 7.5, .weight = Weight::bold, .colour = kInk, .align = Align::centre};
  const double h = pen.measure("N", letter).h;
  pen.text({foot.x, tip - h}, "N", letter);
  return {foot.x - half, tip - h, 2 * half, foot.y - tip + h};
}

void draw_sample(Pen& pen, const Rect& sample, const Symbol& symbol) {
  const std::string name = "legend:" + symbol.key;
  if (symbol.key.starts_with("work:fence posts")) {  // single holes along a line
    const double side = sample.h * 0.45, gap = (sample.w - 3 * side) / 2;
    for (int i = 0; i < 3; ++i)
      pen.rect({sample.x + i * (side + gap), sample.centre().y - side / 2, side, side},
               symbol.stroke, symbol.fill, name);
  } else if (symbol.key.starts_with("work:root cut")) {
    const double thick = 0.9;
    pen.rect({sample.x, sample.centre().y - thick / 2, sample.w, thick}, symbol.stroke, symbol.fill,
             name);
  } else if (symbol.form == Symbol::Form::area) {
    pen.rect(sample, symbol.stroke, symbol.fill, name);
  } else if (symbol.form == Symbol::Form::line) {
    pen.line({sample.x, sample.centre().y}, {sample.right(), sample.centre().y}, symbol.stroke,
             name);
  } else {
    for (const Action action : {Action::keep, Action::keep_with_measures, Action::assess_further,
                                Action::transplant, Action::remove, Action::undecided}) {
      if (symbol_of(action).key == symbol.key)
        draw_stem(pen, sample.centre(), kSmallestStemRadius, action, name);
    }
  }
}

double draw_legend(Pen& pen, const Rect& box, const DrawnPlan& drawn) {
  const Rect head = pen.text({box.x, box.y}, "Legend", weighted(kSmall, Weight::bold));
  const double row = std::min(
      kLegendRow, (box.h - head.h - 2) / std::max<double>(1, double(drawn.symbols.size())));
  double y = head.bottom() + 1.2;
  for (const Symbol& symbol : drawn.symbols) {
    draw_sample(pen, {box.x, y + row * 0.12, kSampleWidth, row * 0.76}, symbol);
    const double width = box.w - kSampleWidth - 2.5;
    const double line = pen.measure("N", kLegendText).h;
    const Rect words = pen.block({box.x + kSampleWidth + 2.5, y + (row - line) / 2}, width,
                                 symbol.meaning, kLegendText);
    y += row + words.h - line;  // a meaning of two lines takes a line more
  }
  return y - box.y;
}

double title_block_height(const Pen& pen, double width, const Plan& plan) {
  const ProjectSettings& s = plan.site->settings;
  double height = 2 * kBlockPad + 6;
  height += pen.measure(s.title, weighted(sized(kSmall, 10.5), Weight::bold), width).h;
  if (!s.address.empty()) height += pen.measure(s.address, kSmall, width).h + 1.2;
  for (const Fact& fact : title_facts(plan))
    height +=
        pen.measure(fact.value, sized(kSmall, layout::kSmallestType), width - kFactLabel).h + 0.5;
  return height + 16;
}

void draw_title_block(Pen& pen, const Rect& box, const Plan& plan, const std::string& drawing,
                      const std::string& scale_text, const std::string& sheet_name) {
  const ProjectSettings& s = plan.site->settings;
  pen.line({box.x, box.y}, {box.right(), box.y}, {0.6, kInk});
  double y = box.y + kBlockPad;
  y = pen.block({box.x, y}, box.w, s.title, weighted(sized(kSmall, 10.5), Weight::bold)).bottom();
  if (!s.address.empty()) y = pen.block({box.x, y + 0.4}, box.w, s.address, kSmall).bottom();
  y += 1.4;
  const TextStyle value = sized(kSmall, layout::kSmallestType);
  for (const Fact& fact : title_facts(plan)) {
    pen.text({box.x, y}, fact.label, coloured(value, kGrey));
    y = pen.block({box.x + kFactLabel, y}, box.w - kFactLabel, fact.value, value).bottom() + 0.5;
  }
  const double foot = box.bottom() - 13;
  pen.line({box.x, foot}, {box.right(), foot}, {0.18, kInk});
  pen.text({box.x, foot + 1.2}, drawing, weighted(sized(kSmall, 8.4), Weight::bold));
  pen.text({box.x, foot + 5.6}, scale_text + " at " + sheet_name, sized(kSmall, 8.4));
  const std::string rev = s.revision.empty() ? "–" : s.revision;
  pen.text({box.right(), foot + 1.2}, "Rev " + rev,
           aligned(weighted(sized(kSmall, 8.4), Weight::bold), Align::right));
  pen.text({box.right(), foot + 5.6}, s.date, aligned(sized(kSmall, 8.4), Align::right));
}

Rect draw_demo_band(Pen& pen, Place at, double width) {
  const TextStyle words{.points = 8, .weight = Weight::bold, .colour = kAccent};
  const double height = 7;
  const Rect band{at.x, at.y, width, height};
  pen.rect(band, {0.3, kAccent}, {Hatch::rising, kAccent, 1.6, 0.16}, "demo-band");
  const layout::Size size = pen.measure(kDemoSentence, words, width - 10);
  const double w = pen.measure(kDemoSentence, words).w;
  const Rect patch{at.x + 4, at.y + (height - size.h) / 2 - 0.6, std::min(w + 4, width - 8),
                   size.h + 1.2};
  pen.rect(patch, layout::kNoStroke, layout::kWhiteFill, "demo-band");
  pen.text({patch.x + 2, patch.y + 0.6}, pen.shortened(kDemoSentence, words, width - 10), words,
           "demo");
  return band;
}

}  // namespace rootstead
