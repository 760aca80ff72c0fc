// The three pictures of the crew's sheet, in black on white. Private to the report room.
#pragma once

#include "report/one_page.hpp"
#include "report/pen.hpp"

namespace rootstead {

inline constexpr layout::Colour kBlack{0, 0, 0};
inline const layout::TextStyle kBlackText{.points = kLeastPoints, .colour = kBlack};
inline const layout::TextStyle kBlackBold{
    .points = kLeastPoints, .weight = layout::Weight::bold, .colour = kBlack};
inline constexpr layout::Colour kPaper{1, 1, 1};
inline const layout::Fill kSolid{.hatch = layout::Hatch::solid, .colour = kBlack};
inline const layout::Fill kBlank{.hatch = layout::Hatch::solid, .colour = kPaper};

// Each fills its frame and draws nothing beyond it.
void draw_machine_outside(layout::Pen& pen, const layout::Rect& frame);
void draw_hand_digging(layout::Pen& pen, const layout::Rect& frame);
void draw_wet_cover_call(layout::Pen& pen, const layout::Rect& frame);

// An eight-sided plate, `radius` mm to its corners.
void draw_stop_plate(layout::Pen& pen, layout::Place centre, double radius);

}  // namespace rootstead
