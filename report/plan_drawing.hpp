// The plan itself: ground, works, barriers, zones, crowns and stems through one View. The sheet,
// the detail on a tree's page and the picture are all drawn here, so they cannot disagree.
#pragma once

#include <string>
#include <vector>

#include "report/pen.hpp"
#include "report/plan.hpp"
#include "report/symbols.hpp"
#include "report/view.hpp"

namespace rootstead {

struct PlanParts {
  bool grid = true;
  bool labels = true;
  std::string only_zones_of;                 // id of a tree: zones of no other are drawn
  std::vector<layout::Rect> kept_free = {};  // of labels, for what is drawn over the plan
};

struct DrawnPlan {
  std::vector<Symbol> symbols;             // used, in the order of a legend
  std::vector<std::string> without_label;  // trees that found no room for one
  std::vector<std::string> without_place;  // trees that have no position
};

DrawnPlan draw_plan(layout::Pen& pen, const Plan& plan, const View& view, const PlanParts& parts);

// Everything a plan must show: stems, zones of the main rule, crowns, works; not barriers and
// surfaces beyond them.
Box ground_of(const Plan& plan);

// The zones drawn for a tree: those of the first rule of the project that has a clause for it, and
// where that rule has none for stability, the first such zone of another.
std::vector<const Zone*> main_zones(const TreeAssessment& tree);

// Metres between grid crosses: 1, 2 or 5 times a power of ten, about 3 to 5 cm on paper.
double grid_step(const View& view);
void draw_grid(layout::Pen& pen, const View& view);  // the crosses

// One stem of the same cross-section as all together; zero where none was measured.
Length drawn_diameter(const Tree& tree);

const Tree* tree_of(const Plan& plan, const TreeAssessment& assessment);

}  // namespace rootstead
