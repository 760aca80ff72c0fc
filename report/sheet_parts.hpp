// Parts of a sheet that smaller drawings use too. Private to the report room.
#pragma once

#include "report/plan_drawing.hpp"
#include "report/wording.hpp"

namespace rootstead {

// A ruler of alternating fields, `length` ground metres long as drawn. The bar itself is the
// element "scale-bar". Returns the box taken, texts included.
layout::Rect draw_scale_bar(layout::Pen& pen, layout::Place at, double longest, int scale,
                            UnitSystem units);
// The round length a bar not wider than `longest` mm shows.
Length bar_length(double longest, int scale, UnitSystem units);

// Points to grid north; `height` mm tall, its foot in the middle of the lower edge.
layout::Rect draw_north_arrow(layout::Pen& pen, layout::Place foot, double height);

// Two columns where one is too long. Returns what height it took.
double draw_legend(layout::Pen& pen, const layout::Rect& box, const DrawnPlan& drawn);

// The sample of one symbol in a legend, the element "legend:<key>".
void draw_sample(layout::Pen& pen, const layout::Rect& sample, const Symbol& symbol);

void draw_title_block(layout::Pen& pen, const layout::Rect& box, const Plan& plan,
                      const std::string& drawing, const std::string& scale_text,
                      const std::string& sheet_name);
double title_block_height(const layout::Pen& pen, double width, const Plan& plan);

// A band of falling lines with words on it, for invented data.
layout::Rect draw_demo_band(layout::Pen& pen, layout::Place at, double width);

inline constexpr const char* kDemoSentence =
    "INVENTED DATA – a demonstration; no such place, trees or works exist.";

}  // namespace rootstead
