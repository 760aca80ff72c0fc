#include "report/bars.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace rootstead {

using layout::Hatch;
using layout::kAccent;
using layout::kInk;
using layout::kQuiet;
using layout::Pen;
using layout::Place;
using layout::Rect;

namespace {

constexpr double kTickEvery = 0.25;

// The scale from 0 to 100 % on which every bar stands.
void draw_axis(Pen& pen, const Rect& box) {
  const double y = box.centre().y;
  pen.line({box.x, y}, {box.right(), y}, {0.14, kQuiet}, "axis");
  for (double at = 0; at <= 1; at += kTickEvery) {
    const double x = box.x + at * box.w, half = at == 0 || at == 1 ? box.h * 0.3 : box.h * 0.15;
    pen.line({x, y - half}, {x, y + half}, {0.14, kQuiet}, "axis");
  }
}

void draw_limits(Pen& pen, const Rect& box, const std::vector<double>& limits) {
  for (const double limit : limits) {
    if (!(limit > 0 && limit <= 1)) continue;
    const double x = box.x + limit * box.w;
    pen.line({x, box.y - 0.3}, {x, box.bottom() + 0.3}, {0.45, kAccent}, "limit");
  }
}

double place_of(const Rect& box, double share) {
  return box.x + std::clamp(share, 0.0, 1.0) * box.w;
}

}  // namespace

void draw_share_bar(Pen& pen, const Rect& box, double value, const std::vector<double>& limits) {
  draw_axis(pen, box);
  const double end = place_of(box, value);
  if (end > box.x) {
    pen.rect({box.x, box.centre().y - box.h * 0.28, end - box.x, box.h * 0.56}, layout::kNoStroke,
             layout::kInkFill, "share-bar");
  }
  draw_limits(pen, box, limits);
}

void draw_range_bar(Pen& pen, const Rect& box, const Range& range,
                    const std::vector<double>& limits) {
  draw_axis(pen, box);
  const double low = place_of(box, range.low), high = place_of(box, range.high);
  const Rect bar{low, box.centre().y - box.h * 0.28, std::max(high - low, 0.2), box.h * 0.56};
  pen.rect(bar, {0.16, kInk}, layout::kWhiteFill, "range-bar");
  pen.rect(bar, {0.16, kInk}, {Hatch::rising, kInk, 0.7, 0.11}, "range-bar");
  const double best = place_of(box, range.best);
  pen.rect({best - 0.4, box.y, 0.8, box.h}, layout::kNoStroke, layout::kInkFill, "best");
  draw_limits(pen, box, limits);
}

double draw_concern(Pen& pen, Place at, Concern concern, double size) {
  constexpr int kSteps = 3;
  const double gap = size * 0.28;
  for (int i = 0; i < kSteps; ++i) {
    const Rect box{at.x + i * (size + gap), at.y, size, size};
    if (concern == Concern::unknown)
      pen.rect(box, {0.2, kInk, {0.5, 0.4}}, {}, "concern");
    else
      pen.rect(box, {0.2, kInk}, i < int(concern) ? layout::kInkFill : layout::kWhiteFill,
               "concern");
  }
  return kSteps * size + (kSteps - 1) * gap;
}

void draw_rose(Pen& pen, Place centre, double radius, const AnchorageKept& kept) {
  const auto at = [&](double azimuth, double share) -> Place {
    return {centre.x + radius * share * std::sin(azimuth),
            centre.y - radius * share * std::cos(azimuth)};
  };
  pen.disc(centre, radius, {0.16, kQuiet}, {}, "rose-full");
  pen.disc(centre, radius / 2, {0.12, kQuiet, {0.6, 0.6}}, {}, "rose-half");
  std::vector<Place> ring;
  for (int i = 0; i < kWindDirections; ++i) {
    const double azimuth = 2 * std::numbers::pi * i / kWindDirections;
    ring.push_back(at(azimuth, std::clamp(kept.by_direction[std::size_t(i)], 0.0, 1.0)));
  }
  pen.shape({ring}, {0.3, kInk}, {Hatch::rising, kInk, 0.9, 0.1}, "rose");
  const double worst = kept.worst_from.radians();
  pen.line(at(worst, 1.12), at(worst, std::clamp(kept.kept.best, 0.0, 1.0)), {0.45, kAccent},
           "rose-worst");
}

}  // namespace rootstead
