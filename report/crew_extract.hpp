// The small plan of the crew's sheet: fences, stretches by id, trees by tag, in black on white and
// letters to be read at arm's length. Private to the report room.
#pragma once

#include "report/pen.hpp"
#include "report/plan.hpp"

namespace rootstead {

// Takes the frame: drawing above, key below. Returns the labels that found no room.
std::size_t draw_crew_extract(layout::Pen& pen, const Plan& plan, const layout::Rect& frame);

}  // namespace rootstead
