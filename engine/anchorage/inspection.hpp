// What a cut means beyond the figure: plain facts about it, and the reasons why a person must look
// whatever the figure says.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/anchorage/cut_rose.hpp"

namespace rootstead {

struct CutFacts {
  double circumference_cut = 0;   // share of rays met within 3 units of the face
  double area_cut = 0;            // the same, counting only roots above the cut's depth
  std::optional<double> nearest;  // m from the trunk face, 0 where the trunk stands in it
  int nearest_ray = 0;
  bool within_sides = false;           // any cut within 6 units
  bool several_sides = false;          // within 6 units, more than one straight cut could meet
  bool deeper_than_far = false;        // somewhere deeper than its distance from the trunk
  bool windward_of(Angle lean) const;  // within 6 units on the side away from the lean
  std::vector<int> rays_within_sides;
};

CutFacts facts_of(const CutRose& rose, const AnchorageShares& shares);

struct InspectionContext {
  const Tree* tree = nullptr;
  const Soil* soil = nullptr;
  bool palm = false;
  RootArchitecture architecture = RootArchitecture::unknown;
  Length diameter;
  const Tables* tables = nullptr;
};

// Own words, one sentence each, most urgent first. Empty where no cut comes near.
std::vector<std::string> reasons_to_inspect(const CutFacts& facts,
                                            const InspectionContext& context);

// Stem diameters for which any test exists, or palms cut nearer than the roots' own zone.
bool outside_tests(const CutFacts& facts, const InspectionContext& context);

}  // namespace rootstead
