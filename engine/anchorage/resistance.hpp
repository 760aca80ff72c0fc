// What an uncut tree holds against being pulled over: M_a = c D^2 H, c from pulling tests to
// failure. Half of the tested trees held less; the spread is that of safety.hpp.
// Source: docs/methods/anchorage.md.
#pragma once

#include "engine/site/site.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

// Nm. `strength` is c in kNm/m3.
double anchorage_strength(double strength, Length diameter, Length height);

// The row of the species, else of its genus, else that of all trees of the study.
const AnchorageResistance& anchorage_resistance_of(std::string_view botanical_name,
                                                   const Tables& tables);

// How much of it this ground gives: 1 where it drains freely. From forest conifers.
struct GroundHold {
  double factor = 1;     // S_soil: drainage and depth
  double saturated = 1;  // S_sat, to be multiplied where the ground is saturated
  bool wet = false;      // the record says that it often is
};
GroundHold ground_hold(const Soil& soil, const Tables& tables);

// Share of the full resistance mobilised at a tilt of the stem base; 1 from 2.5 degrees on.
// L = 2.4 t / (1 + 2 t), t in degrees: our curve through two published anchors.
double mobilised_at(Angle tilt);

// Above-ground mass and the horizontal reach of its centre, for a tree that leans. Nm about the
// stem's foot, towards the lean. A rough mass by stem size; our assumption.
double lean_moment(Length diameter, Length height, Angle from_vertical, const Tables& tables);

}  // namespace rootstead
