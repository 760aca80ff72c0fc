#include "report/view.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace rootstead {

using layout::Place;
using layout::Rect;

Place View::place(const Point& at) const {
  const Place middle = frame.centre();
  const double k = 1000.0 / scale;
  return {middle.x + (at.x - centre.x) * k, middle.y - (at.y - centre.y) * k};
}

Box View::ground() const {
  const double half_w = frame.w * scale / 2000, half_h = frame.h * scale / 2000;
  return {centre.x - half_w, centre.y - half_h, centre.x + half_w, centre.y + half_h};
}

std::vector<Place> View::places(const Line& line) const {
  std::vector<Place> out;
  out.reserve(line.size());
  for (const Point& p : line) out.push_back(place(p));
  return out;
}

std::vector<std::vector<Place>> View::rings(const Polygon& polygon) const {
  std::vector<std::vector<Place>> out{places(polygon.outer)};
  for (const Ring& hole : polygon.holes) out.push_back(places(hole));
  return out;
}

SheetFormat format_of(SheetSize size) {
  switch (size) {
    case SheetSize::a4:
      return {"A4", 297, 210, 62};
    case SheetSize::a3:
      return {"A3", 420, 297, 78};
    case SheetSize::a2:
      return {"A2", 594, 420, 88};
    case SheetSize::a1:
      return {"A1", 841, 594, 96};
    case SheetSize::letter:
      return {"Letter", 279.4, 215.9, 62};
    case SheetSize::tabloid:
      return {"Tabloid", 431.8, 279.4, 78};
    case SheetSize::arch_d:
      return {"Arch D", 914.4, 609.6, 96};
  }
  return {"A3", 420, 297, 78};
}

bool is_us(SheetSize size) {
  return size == SheetSize::letter || size == SheetSize::tabloid || size == SheetSize::arch_d;
}

const std::vector<int>& usual_scales(UnitSystem units) {
  static const std::vector<int> kMetric{50, 75, 100, 125, 200, 250, 300, 400, 500, 750, 1000, 1250};
  static const std::vector<int> kUs{60, 120, 240, 360, 480, 600, 720, 960, 1200};  // in = 5 ft ...
  return units == UnitSystem::metric ? kMetric : kUs;
}

bool fits(const Box& ground, const Rect& frame, int scale, double margin) {
  const double k = 1000.0 / scale;
  return (ground.max_x - ground.min_x) * k <= frame.w - 2 * margin &&
         (ground.max_y - ground.min_y) * k <= frame.h - 2 * margin;
}

std::optional<int> largest_scale(const Box& ground, const Rect& frame, UnitSystem units,
                                 double margin) {
  for (const int scale : usual_scales(units)) {
    if (fits(ground, frame, scale, margin)) return scale;
  }
  return std::nullopt;
}

int overview_scale(const Box& ground, const Rect& frame, UnitSystem units) {
  constexpr std::array<int, 4> kRound{15, 20, 25, 50};
  const int unit = units == UnitSystem::metric ? 100 : 120;  // 12 in a foot
  for (int decade = 1; decade < 100'000; decade *= 10) {
    for (const int round : kRound) {
      if (fits(ground, frame, round * unit * decade)) return round * unit * decade;
      if (round == kRound.back() && fits(ground, frame, 100 * unit * decade))
        return 100 * unit * decade;
    }
  }
  return 100 * unit * 100'000;
}

void widen(Box& box, const Point& at, double by) {
  if (box.empty()) {
    box = {at.x - by, at.y - by, at.x + by, at.y + by};
    return;
  }
  box.min_x = std::min(box.min_x, at.x - by), box.max_x = std::max(box.max_x, at.x + by);
  box.min_y = std::min(box.min_y, at.y - by), box.max_y = std::max(box.max_y, at.y + by);
}

Point middle_of(const Box& box) {
  return {(box.min_x + box.max_x) / 2, (box.min_y + box.max_y) / 2};
}

}  // namespace rootstead
