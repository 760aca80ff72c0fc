// What the wind does to a crown: its moment about the foot of the stem, summed over strips of
// height. The outline is that of still air: gaps and bending leaves are inside the drag.
// Source: docs/methods/anchorage.md; drag from data/crown_drag.csv.
#pragma once

#include <string_view>

#include "engine/anchorage/wind.hpp"
#include "engine/tables/anchorage_tables.hpp"

namespace rootstead {

enum class CrownShape { ellipse, cone, rectangle };

struct CrownOutline {
  CrownShape shape = CrownShape::ellipse;
  Length base, top, width;  // heights above ground, greatest width

  Length height() const { return top - base; }
  Length width_at(Length z) const;  // 0 outside the crown
  Area area() const;                // pi/4 W h, W h / 2, W h
  Length centre_height() const;     // of the area
};

struct WindTarget {
  CrownOutline crown;
  double crown_drag = 0.25;
  Length stem;  // diameter of the bare stem below the crown
  double stem_drag = 1.0;
};

// Forces in N and moments in Nm, before the size factor.
struct WindLoad {
  double crown_force = 0, crown_moment = 0;
  double stem_force = 0, stem_moment = 0;
  double size_factor = 1;                                                       // c_s
  double moment() const { return size_factor * (crown_moment + stem_moment); }  // Nm
};

// Accuracy: 200 strips; within 0.05 % of a thousand. Requires: 0 <= base < top.
WindLoad wind_load(const WindTarget& target, const WindField& wind);

// The drag that falls with speed as a crown gives way: C v^-N from 10 to 25 m/s, constant outside.
struct Streamlining {
  double coefficient = 0;  // C
  double exponent = 0;     // N
  double drag(double speed) const;
};
// Tree classes of the published law: "B1", "B2", "B3" broadleaves, "C1", "C2", "C3" conifers.
Streamlining streamlining(std::string_view tree_class, const Tables& tables);

// The row of the species, else of its genus, else of the growth form. Palms: the palm row.
const CrownDrag& crown_drag_of(std::string_view botanical_name, GrowthForm form,
                               const Tables& tables);

}  // namespace rootstead
