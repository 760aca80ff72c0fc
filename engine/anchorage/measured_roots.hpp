// Roots that were laid bare near the stem and measured, in place of roots assumed even all round.
// Source: docs/methods/anchorage.md.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "engine/anchorage/cut_rose.hpp"
#include "engine/site/evidence.hpp"

namespace rootstead {

// Everything the evidence of a site says about the roots near one stem. Only openings and roots
// that name this tree count: of others nobody knows whose roots they show.
struct RootsSeen {
  std::vector<MeasuredRoot> roots;  // living, placed and within reach
  double circle_seen = 0;           // share of the circle laid open within 3 units of the face
  int without_place = 0;            // living roots of those openings that nobody placed
  bool any() const { return circle_seen > 0 || without_place > 0 || !roots.empty(); }
};
RootsSeen roots_seen(const Tree& tree, const Trunk& trunk, std::span<const Evidence> evidence);

// Why they cannot replace even roots, in words that follow "they are not used: "; empty where they
// can: the circle must be open nearly all round and a few roots at least be placed, all of them.
std::string why_not_used(const RootsSeen& seen, const Tables& tables);

}  // namespace rootstead
