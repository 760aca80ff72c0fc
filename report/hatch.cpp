#include <cmath>

#include "report/layout.hpp"

namespace rootstead::layout {
namespace {

// Calls `at(index, position)` for every multiple of `step` in [from, to].
template <class At>
void each_step(double from, double to, double step, At at) {
  for (double i = std::ceil(from / step); i * step <= to; ++i) at(i, i * step);
}

bool odd(double index) {
  return std::fmod(std::abs(index), 2.0) == 1.0;
}

// Lines x + y = c (rising on a page whose y points down) or x - y = c (falling).
void slanted(const Fill& fill, const Rect& r, bool rising, HatchMarks& marks) {
  const double step = fill.spacing * std::sqrt(2.0);
  const double low = rising ? r.x + r.y : r.x - r.bottom();
  const double high = rising ? r.right() + r.bottom() : r.right() - r.y;
  each_step(low, high, step, [&](double, double c) {
    if (rising)
      marks.lines.push_back({{c - r.y, r.y}, {c - r.bottom(), r.bottom()}});
    else
      marks.lines.push_back({{c + r.y, r.y}, {c + r.bottom(), r.bottom()}});
  });
}

void level(const Fill& fill, const Rect& r, HatchMarks& marks) {
  each_step(r.y, r.bottom(), fill.spacing, [&](double, double y) {
    marks.lines.push_back({{r.x, y}, {r.right(), y}});
  });
}

void upright(const Fill& fill, const Rect& r, HatchMarks& marks) {
  each_step(r.x, r.right(), fill.spacing, [&](double, double x) {
    marks.lines.push_back({{x, r.y}, {x, r.bottom()}});
  });
}

// Pieces of `length` every `period` along each level line, every other line shifted by half.
template <class Piece>
void staggered(const Fill& fill, const Rect& r, double period, Piece piece) {
  each_step(r.y - fill.spacing, r.bottom() + fill.spacing, fill.spacing, [&](double row, double y) {
    const double shift = odd(row) ? period / 2 : 0;
    each_step(r.x - period - shift, r.right() - shift, period,
              [&](double, double x) { piece(x + shift, y); });
  });
}

void chevrons(const Fill& fill, const Rect& r, HatchMarks& marks) {
  const double half = fill.spacing * 0.6;
  each_step(r.y - half, r.bottom() + half, fill.spacing, [&](double, double y) {
    std::vector<Place> line;
    each_step(r.x - half, r.right() + half, half, [&](double i, double x) {
      line.push_back({x, odd(i) ? y : y + half});
    });
    marks.lines.push_back(std::move(line));
  });
}

}  // namespace

HatchMarks marks_of(const Fill& fill, const Rect& r) {
  HatchMarks marks;
  const double s = fill.spacing;
  switch (fill.hatch) {
    case Hatch::none:
    case Hatch::solid:
      break;
    case Hatch::rising:
    case Hatch::falling:
      slanted(fill, r, fill.hatch == Hatch::rising, marks);
      break;
    case Hatch::crossed:
      slanted(fill, r, true, marks);
      slanted(fill, r, false, marks);
      break;
    case Hatch::level:
      level(fill, r, marks);
      break;
    case Hatch::upright:
      upright(fill, r, marks);
      break;
    case Hatch::squares:
      level(fill, r, marks);
      upright(fill, r, marks);
      break;
    case Hatch::bricks:
      level(fill, r, marks);
      staggered(fill, r, 2 * s, [&](double x, double y) {
        marks.lines.push_back({{x, y}, {x, y + s}});
      });
      break;
    case Hatch::dashes:
      staggered(fill, r, 2.4 * s, [&](double x, double y) {
        marks.lines.push_back({{x, y}, {x + 1.3 * s, y}});
      });
      break;
    case Hatch::dots:
      staggered(fill, r, s, [&](double x, double y) { marks.dots.push_back({x, y}); });
      break;
    case Hatch::chevrons:
      chevrons(fill, r, marks);
      break;
  }
  return marks;
}

}  // namespace rootstead::layout
