// What every drawing sheet has round its drawing: frames, coordinates, the foot with bar and arrow.
// Private to the report room.
#pragma once

#include "report/sheet_parts.hpp"

namespace rootstead {

struct Frames {
  layout::Rect window, column, foot;  // drawing; legend and title; bar and arrow
  layout::Place band;                 // of the words on invented data, above the window
};
Frames frames_of(const SheetFormat& format, bool demo);

// Coordinates of the grid along the upper and the left edge, outside the window.
void draw_coordinates(layout::Pen& pen, const View& view, const ReferenceSystem& system);
void draw_foot(layout::Pen& pen, const layout::Rect& foot, const Plan& plan, const View& view,
               bool overview);

}  // namespace rootstead
