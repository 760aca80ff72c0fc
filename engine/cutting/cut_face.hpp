// CutFace: the side of a work's ground that faces a tree, where roots are to be cut cleanly before
// any machine comes. Straight lines of sight from the stem, one each half degree.
// Accuracy: points lie on the true edge; corners are met to half a degree. Nearest is exact.
#pragma once

#include <vector>

#include "engine/geom/shapes.hpp"

namespace rootstead {

struct CutFace {
  std::vector<Line> lines;  // apart where something lies between, each from left to right as seen
  double length = 0;        // m, of all
  double nearest = 0;       // m from `stem` to the ground, 0 where it stands in it
  Point nearest_at;
  Angle towards;                // azimuth from the stem to that point
  bool round_the_stem = false;  // the stem stands in the ground: no side faces it
  int sides = 0;  // of four quarters round the stem, those in which a side comes nearest to it
};

// Ground further than `reach` from the stem is left out. No lines where none is nearer.
CutFace cut_face(const Point& stem, const MultiPolygon& ground, Length reach);

}  // namespace rootstead
