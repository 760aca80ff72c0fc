// What hangs on the hook: ball, stem and crown, as ranges. Cranes and slings are sized on the high
// value and more; the engineer or the lifting supervisor on site decides.
#pragma once

#include <optional>

#include "engine/base/figure.hpp"
#include "engine/base/quantity.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

// V = pi h / 3 (R^2 + R r + r^2), r = 0.6 R: kg. Without a density those of light, moist and wet
// soil make the range.
Figure ball_weight_cone(Length diameter, Length depth, std::optional<Density> density,
                        const Tables& tables);
// The same in the soils that a tree mover prints.
Figure ball_weight_practice(Length diameter, Length depth, const Tables& tables);
// Two thirds of the box: D^2 h 2/3, kg.
Figure ball_weight_short_rule(Length diameter, Length depth, std::optional<Density> density,
                              const Tables& tables);
// The published weight nearest above this diameter, low to high over the sources; none outside.
std::optional<Figure> ball_weight_published(Length diameter);
// A palm's ball: an upright cylinder.
Figure ball_weight_cylinder(Length diameter, Length depth, std::optional<Density> density,
                            const Tables& tables);

// A stem that narrows from `base` to `top`: kg of green wood.
Figure stem_weight(Length base, Length top, Length height, std::optional<Density> density,
                   bool conifer, const Tables& tables);
// A palm's trunk: a cylinder of the width that was measured. Geometry only: nothing of the palm's
// roots, ball or water is told from it.
Figure palm_trunk_weight(Length width, Length height, std::optional<Density> density,
                         const Tables& tables);

// What lifting gear must bear: the high weight by the allowance for jerk and breaking out.
Figure lifting_load(Mass heaviest, const Tables& tables);
// The least breaking strength of slings for that load.
Figure sling_strength(Mass load, const Tables& tables);

}  // namespace rootstead
