// Roots beside the upright plane along a line, laid into it.
#pragma once

#include <vector>

#include "engine/roots/architecture.hpp"

namespace rootstead::serve {

// The part of a piece that lies within the half width of one run of the line.
struct LaidRoot {
  double along_from = 0, along_to = 0, depth_from = 0, depth_to = 0;  // m
  double thickness = 0;                                               // m, its middle
  std::size_t piece = 0;
};
// In the order of the runs, then of the pieces. A root near a corner may lie beside both runs.
std::vector<LaidRoot> laid_into(const Line& line, Length half_width, const RootSystem& roots);

}  // namespace rootstead::serve
