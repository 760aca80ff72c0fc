// RootsMet: the thick roots a work is likely to meet, metre by metre along the side that faces the
// tree. Roots run straight out from the stem (or as `travelled` says); what a nearer work has
// severed is not met again; of a deeper work beyond a shallower one only the roots between the two
// depths. Formulas: docs/methods/thick_roots.md.
#pragma once

#include <array>
#include <functional>
#include <string>
#include <vector>

#include "engine/base/range.hpp"
#include "engine/roots/root_model.hpp"
#include "engine/roots/thick_roots.hpp"

namespace rootstead {

// A metre or less of the side of a work that faces the tree; longer only where one ray of half a
// degree grazes more of it.
struct FacePiece {
  Point from, to;
  double distance = 0;        // m from the trunk face, its middle
  double top = 0, depth = 0;  // m below ground: roots between them are met
  std::array<Range, kSpokenThickness.size()> expected{};  // roots at least so thick, mean number
  std::array<Range, kSpokenThickness.size()> chance{};    // of at least one
};

// What one severing work meets, piece by piece along its near side.
struct RootsMet {
  std::string work;
  std::vector<FacePiece> pieces;                          // none where no roots reach it
  std::array<Range, kSpokenThickness.size()> expected{};  // over all pieces
  std::array<Range, kSpokenThickness.size()> chance{};
};

// Metres of open ground a root has come from the stem centre to a place; infinite where none gets.
using WayTravelled = std::function<double(const Point&)>;

// One entry for each work that severs, in the order of first appearance. Ranges are P10, P50 and
// P90 over the laws (one law: three times its value); all laws must share one crowding and the
// chance is that of the range of the mean number. A work all round the stem is met at the trunk.
// Accuracy: 720 rays; within 2 % of the law integrated along a straight side.
// Cost: the geometry once; a law then costs a short table over distance. Requires: draws not empty.
// `known`: what was met before by the same laws on the same ground; works whose side is unchanged
// are taken from there, and it is brought up to date. The answer is the same bits without it.
namespace facing {
struct KnownSide;
}
std::vector<RootsMet> roots_met(const std::vector<ThickRootLaw>& draws, const Point& stem,
                                const std::vector<GroundTaking>& takings,
                                const WayTravelled& travelled = {},
                                std::vector<facing::KnownSide>* known = nullptr);

}  // namespace rootstead
