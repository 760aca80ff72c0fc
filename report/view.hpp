// View: from ground to paper at one true scale; and the sheets and scales that are usual.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "engine/geom/shapes.hpp"
#include "report/layout.hpp"
#include "report/plan.hpp"

namespace rootstead {

// North is up; the frame is a window of the page, `centre` is what stands in its middle.
struct View {
  layout::Rect frame;
  Point centre;
  int scale = 200;

  layout::Place place(const Point& at) const;
  double millimetres(Length length) const { return length.millimetres() / scale; }
  Box ground() const;  // what the frame shows
  std::vector<layout::Place> places(const Line& line) const;
  std::vector<std::vector<layout::Place>> rings(const Polygon& polygon) const;
};

struct SheetFormat {
  std::string_view name;  // "A3"
  double width, height;   // mm, landscape
  double column;          // of legend and title, at the right
};
// ISO 216 and ANSI/ASME Y14.1 sizes, Arch D 24 x 36 in.
SheetFormat format_of(SheetSize size);
bool is_us(SheetSize size);

// Those of the common scale rulers: 1:50 ... 1:1250, or 1 in = 5 ft ... 1 in = 100 ft; the largest
// scale first.
const std::vector<int>& usual_scales(UnitSystem units);

// The largest usual scale at which `ground` fits the frame with `margin` mm to spare each side.
std::optional<int> largest_scale(const Box& ground, const layout::Rect& frame, UnitSystem units,
                                 double margin = 4);
bool fits(const Box& ground, const layout::Rect& frame, int scale, double margin = 4);

// A round scale smaller than every usual one, for an overview: 1:1500, 1:2000, 1:2500, 1:5000 ...
int overview_scale(const Box& ground, const layout::Rect& frame, UnitSystem units);

void widen(Box& box, const Point& at, double by = 0);
Point middle_of(const Box& box);

}  // namespace rootstead
