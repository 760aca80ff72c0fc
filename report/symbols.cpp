#include "report/symbols.hpp"

#include <algorithm>
#include <cmath>

#include "report/wording.hpp"

namespace rootstead {

using layout::Hatch;
using layout::kAccent;
using layout::kHair;
using layout::kInk;
using layout::kPale;
using layout::kQuiet;
using layout::Pen;
using layout::Place;
using layout::Stroke;

namespace {

struct AreaLook {
  Hatch hatch;
  double spacing, outline;
  std::vector<double> dash = {};
};

AreaLook look_of(WorkKind kind) {
  switch (kind) {
    case WorkKind::trench:
      return {Hatch::rising, 0.9, 0.28};
    case WorkKind::pit:
      return {Hatch::crossed, 1.5, 0.28};
    case WorkKind::cut:
      return {Hatch::falling, 1.3, 0.28};
    case WorkKind::fill:
      return {Hatch::dots, 1.3, 0.2};
    case WorkKind::paving:
      return {Hatch::bricks, 1.7, 0.2};
    case WorkKind::traffic:
      return {Hatch::dashes, 1.5, 0.2, {2, 0.8}};
    case WorkKind::building:
      return {Hatch::rising, 2.6, 0.6};
    case WorkKind::fence_posts:
      return {Hatch::solid, 1, 0.35};
    case WorkKind::bore:
      return {Hatch::none, 1, 0.3, {1.4, 0.6}};
    case WorkKind::root_cut:
      return {Hatch::solid, 1, 0.5, {0.9, 0.5}};
  }
  return {Hatch::rising, 1, 0.3};
}

AreaLook look_of(BarrierKind kind) {
  switch (kind) {
    case BarrierKind::wall:
      return {Hatch::solid, 1, 0.7};
    case BarrierKind::foundation:
      return {Hatch::squares, 0.9, 0.7, {2, 0.6}};
    case BarrierKind::kerb:
      return {Hatch::none, 1, 0.4};
    case BarrierKind::root_barrier:
      return {Hatch::none, 1, 0.6, {0.5, 0.5}};
    case BarrierKind::building:
      return {Hatch::upright, 1.8, 0.6};
    case BarrierKind::rock:
      return {Hatch::chevrons, 1.8, 0.25};
    case BarrierKind::water:
      return {Hatch::level, 1.2, 0.2, {3, 0.6, 0.6, 0.6}};
  }
  return {Hatch::solid, 1, 0.6};
}

constexpr int kCrownRank = 20, kZoneRank = 30, kWorkRank = 40, kBarrierRank = 50, kSurfaceRank = 60;
constexpr double kMarkGap = 0.75, kSmallestMark = 1.5, kCross = 2.0;

}  // namespace

Symbol symbol_of(const Work& work) {
  const AreaLook look = look_of(work.kind);
  const bool existing = work.state == WorkState::existing;
  const auto colour = existing ? kQuiet : kInk;
  std::string key = "work:" + std::string(to_text(work.kind));
  std::string meaning = sentence_case(std::string(to_text(work.kind)));
  if (existing) key += ":existing", meaning += ", existing";
  const bool line = work.kind == WorkKind::bore;
  return {key,
          meaning,
          line ? Symbol::Form::line : Symbol::Form::area,
          {look.outline, colour, look.dash},
          {look.hatch, colour, look.spacing},
          kWorkRank};
}

Symbol symbol_of(const Barrier& barrier) {
  const AreaLook look = look_of(barrier.kind);
  std::string meaning = std::string(to_text(barrier.kind));
  meaning = sentence_case(meaning);
  if (barrier.kind == BarrierKind::building) meaning += ", standing";
  const auto form = look.hatch == Hatch::none || barrier.kind == BarrierKind::wall
                        ? Symbol::Form::line
                        : Symbol::Form::area;
  return {"barrier:" + std::string(to_text(barrier.kind)),
          meaning,
          form,
          {look.outline, kInk, look.dash},
          {look.hatch, kInk, look.spacing},
          kBarrierRank};
}

Symbol symbol_of(const Surface& surface) {
  if (surface.permeable) {
    return {"surface:permeable", "Surfaced today, permeable",  Symbol::Form::area,
            {0.12, kQuiet, {}},  {Hatch::squares, kHair, 2.2}, kSurfaceRank};
  }
  return {"surface:sealed",   "Sealed today",        Symbol::Form::area,
          {0.12, kQuiet, {}}, {Hatch::solid, kPale}, kSurfaceRank};
}

Symbol symbol_of(ZonePurpose purpose) {
  switch (purpose) {
    case ZonePurpose::vitality:
      return {"zone:vitality",          "Root zone", Symbol::Form::line,
              {0.4, kAccent, {3, 1.2}}, {},          kZoneRank};
    case ZonePurpose::stability:
      return {"zone:stability",
              "Structural root zone",
              Symbol::Form::line,
              {0.35, kInk, {1.1, 0.6}},
              {},
              kZoneRank + 1};
    case ZonePurpose::crown:
      return {"zone:crown",
              "Crown zone of the rule",
              Symbol::Form::line,
              {0.25, kInk, {2, 0.6, 0.4, 0.6}},
              {},
              kZoneRank + 2};
    case ZonePurpose::precaution:
      return {
          "zone:precaution", "Precautionary zone", Symbol::Form::line, {0.25, kAccent, {1, 1}}, {},
          kZoneRank + 3};
  }
  return {};
}

Symbol crown_symbol() {
  return {"crown", "Crown outline", Symbol::Form::line, {0.16, kQuiet, {}}, {}, kCrownRank};
}

Symbol symbol_of(Action action) {
  return {"stem:" + std::string(to_text(action)),
          sentence_case(std::string(to_text(action))),
          Symbol::Form::stem,
          {},
          {},
          int(action)};
}

double stem_reach(double radius, Action action) {
  const double mark = std::max(radius + kMarkGap, kSmallestMark);
  switch (action) {
    case Action::keep:
      return radius;
    case Action::remove:
      return std::max(kCross, radius + kMarkGap);
    case Action::transplant:
      return mark * std::sqrt(2.0);
    default:
      return mark + 0.2;
  }
}

void draw_stem(Pen& pen, Place at, double radius, Action action, const std::string& name) {
  const double mark = std::max(radius + kMarkGap, kSmallestMark);
  const Stroke ring{0.25, kInk, {}};
  const std::string symbol = "symbol:" + symbol_of(action).key;
  pen.disc(at, radius, {0.12, kInk, {}}, layout::kInkFill, name);
  switch (action) {
    case Action::keep:
      break;
    case Action::keep_with_measures:
      pen.disc(at, mark, ring, {}, symbol);
      break;
    case Action::assess_further:
      pen.disc(at, mark, {0.4, kAccent, {0.5, 0.5}}, {}, symbol);
      break;
    case Action::transplant:
      pen.rect({at.x - mark, at.y - mark, 2 * mark, 2 * mark}, ring, {}, symbol);
      break;
    case Action::remove: {
      const double c = std::max(kCross, radius + kMarkGap);
      const Stroke bar{0.5, kAccent, {}};
      pen.line({at.x - c, at.y - c}, {at.x + c, at.y + c}, bar, symbol);
      pen.line({at.x - c, at.y + c}, {at.x + c, at.y - c}, bar, symbol);
      break;
    }
    case Action::undecided: {
      const double h = mark * 0.9;
      pen.shape({{{at.x, at.y - mark * 1.15}, {at.x + mark, at.y + h}, {at.x - mark, at.y + h}}},
                ring, {}, symbol);
      break;
    }
  }
}

}  // namespace rootstead
