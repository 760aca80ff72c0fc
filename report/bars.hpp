// Small pictures of one figure each: a share against its limits, a range, a level of concern.
// Health and stability each get their own; nothing here adds two figures up.
#pragma once

#include <optional>
#include <vector>

#include "engine/rootstead.hpp"
#include "report/pen.hpp"

namespace rootstead {

inline constexpr double kBarHeight = 2.4;  // mm, of any of them with its marks

// A full black bar from zero to `value`; limits as marks standing across it.
void draw_share_bar(layout::Pen& pen, const layout::Rect& box, double value,
                    const std::vector<double>& limits);
// A pale bar from low to high with a black mark at the best estimate. From the left: lost, or kept.
void draw_range_bar(layout::Pen& pen, const layout::Rect& box, const Range& range,
                    const std::vector<double>& limits = {});
// Three squares, as many filled as the concern is large; open and dashed where unknown. Returns
// the width taken.
double draw_concern(layout::Pen& pen, layout::Place at, Concern concern, double size = 2.2);

// Anchorage kept for wind from every direction, north up: the full circle is as before the works.
void draw_rose(layout::Pen& pen, layout::Place centre, double radius, const AnchorageKept& kept);

}  // namespace rootstead
