// The protection plan through one View: what stands round the trees, what is laid on the ground,
// and how and where is dug. Private to the report room.
#pragma once

#include <string>
#include <vector>

#include "report/plan_drawing.hpp"
#include "report/protection_symbols.hpp"
#include "report/wording.hpp"

namespace rootstead {

// One sheet shows both; where that is too much, each has a sheet of its own.
struct ProtectionParts {
  bool standing = true;  // fences, gates, signs, guards, ground protection, ways
  bool digging = true;   // no-dig areas, root cuts, stretches, bores
};

struct DrawnProtection {
  std::vector<LegendRow> legend;           // what was drawn, in the order of a legend
  std::size_t labels = 0;                  // asked for
  std::vector<std::string> without_label;  // ids that found no room for theirs
  std::size_t shortened = 0;               // labels that are only their id
  std::vector<std::string> off_sheet;      // ids of parts beyond the edge of the drawing
  std::vector<std::string> without_place;  // trees that have no position
  bool assumed_depth = false;              // a depth stands on it that nobody entered
};

// Requires: plan.advice->protection.
DrawnProtection draw_protection(layout::Pen& pen, const Plan& plan, const View& view,
                                const ProtectionParts& parts);

// Everything the sheet must show.
Box ground_of_protection(const Plan& plan);

// Words of drawing and tables alike.
std::string chainages(const Wording& words, Length from, Length to);  // "12.0–18.5 m"
std::string depth_text(const Wording& words, Length depth);           // "0.60 m", "2.0 ft"
// The depth of the work, marked where it was not entered.
std::string depth_text(const Wording& words, Length depth, const Work* work);
std::string tags_of(const Site& site, const std::vector<std::string>& trees);
// "F1 to F4, F7": runs of numbers behind one letter are drawn together.
std::string runs_of(const std::vector<std::string>& ids);
std::string clash_number(std::size_t index);  // "C1" for 0

}  // namespace rootstead
