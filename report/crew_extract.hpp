// The small plan of the crew's sheet: fences, stretches by id, trees by tag, in black on white and
// letters to be read at arm's length. Private to the report room.
#pragma once

#include "report/pen.hpp"
#include "report/plan.hpp"

namespace rootstead {

struct CrewExtract {
  // All: fences, stretches and trees. Works: the works that have stretches, and their trees; the
  // rest is on the parts.
  enum class Names { all, works } names = Names::all;
  std::optional<Box> part = {};  // of the site; empty: all the crew has to find
};

// Takes the frame: drawing above, key below. Returns the labels that found no room.
std::size_t draw_crew_extract(layout::Pen& pen, const Plan& plan, const layout::Rect& frame,
                              const CrewExtract& what = {});

// The site cut into parts so large that letters fit in, row by row from the north-west; those with
// nothing to find are left out.
std::vector<Box> crew_parts(const Plan& plan, const layout::Rect& frame);

}  // namespace rootstead
