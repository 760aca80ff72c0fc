// The scale plan: one sheet at a true scale with its frame, grid, legend, bar, north arrow, title
// block and revision table.
#pragma once

#include "engine/base/result.hpp"
#include "report/layout.hpp"
#include "report/plan.hpp"
#include "report/revision_history.hpp"
#include "report/text_meter.hpp"

namespace rootstead {

struct Sheet {
  layout::Page page;
  layout::Rect window;  // the drawing itself
  int scale = 0;
  bool overview = false;  // smaller than every usual scale: the site is too large for the sheet
};

// Fails with wrong_use where the asked scale does not fit, naming what does. With a history: its
// revision table, and clouds round what changed.
Result<Sheet> make_sheet(const Plan& plan, const ReportOptions& options,
                         const layout::TextMeter& meter, const RevisionHistory* history = nullptr);

// The plan in a frame as wide as the picture allows, with legend, bar and north arrow. Whoever
// shows a picture scales it, so it is at no usual scale and has only the bar.
layout::Page make_picture(const Plan& plan, double width, const layout::TextMeter& meter);

}  // namespace rootstead
