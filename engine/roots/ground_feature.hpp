// What the site has in the ground round one stem, each thing as an area with a depth and how easily
// roots pass and grow above and below that depth. The words of the survey end here.
#pragma once

#include <string>
#include <vector>

#include "engine/geom/shapes.hpp"
#include "engine/site/site.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

// How the ground takes roots; open ground is 1 in both.
struct Ease {
  double speed = 1, rooting = 1;
};

struct GroundFeature {
  std::string name;  // id, and the name if it has one
  MultiPolygon area;
  double depth = 0;    // m, underside; 0 for what lies on the ground and works on all below
  Ease above, below;   // that depth
  bool solid = false;  // takes every cell it touches; else those whose centre it covers
};

// Everything that touches `around`. `leak` as for ground_round(); `cell` of the grid in metres.
std::vector<GroundFeature> features_round(const Site& site, const Tables& tables, const Box& around,
                                          double cell, double leak);

// Depth below which no roots are counted: the general limit, or the site's rock, pan or water.
double rootable_depth(const Soil& soil, const Tables& tables);

}  // namespace rootstead
