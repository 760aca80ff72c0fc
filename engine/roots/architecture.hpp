// One likely root system, root by root: for pictures, and for counting where laws are too coarse.
// It is an example drawn by lot, never a map of this tree's roots: every picture must say so.
// Formulas, sources: docs/methods/architecture.md. Same seed, same roots.
#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

#include "engine/roots/root_field.hpp"
#include "engine/roots/thick_roots.hpp"
#include "engine/site/site.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

// lateral: level, from the trunk or a branch of one; oblique and tap: down from the trunk; sinker:
// straight down from a lateral; prop: from the trunk through the air into the ground; aerial: from
// the crown down to the ground, or a knee out of it; palm: of palms and their like.
enum class RootKind { lateral, oblique, sinker, tap, prop, aerial, palm };
std::string_view to_text(RootKind kind);  // "lateral", "taproot" ...

struct Place3 {
  double x = 0, y = 0;  // plan, project coordinates
  double z = 0;         // m, depth below ground, downward; negative above ground
  friend bool operator==(const Place3&, const Place3&) = default;
};

struct RootPiece {
  Place3 from, to;
  double thickness_from = 0, thickness_to = 0;  // m
  int parent = -1;                              // index of the piece it grows from
  int order = 0;                                // 0: from the stem
  RootKind kind = RootKind::lateral;
  friend bool operator==(const RootPiece&, const RootPiece&) = default;
};

struct RootSystem {
  std::vector<RootPiece> pieces;  // parents before children
  bool palm = false;
  double each_stands_for = 1;  // palms: roots that one drawn root stands for
};

// Grows one. Laterals cross every ring in the numbers and thicknesses of the law of thick roots
// (thick_roots.hpp), lie as deep, and spread over the sectors of one draw; they turn along the
// walls of `site` and end where two walls meet. A branch is at most 0.54 as thick as its parent, so
// that all cross-sections after a fork are 1 to 1.3 of that before. Nothing thinner than `thinnest`
// is followed (of palms, all are). Fails as root_model does.
Result<RootSystem> grow_roots(const Tree& tree, const Site& site, const Tables& tables,
                              std::uint64_t seed, Length thinnest = Length::millimetres(5));

// Where roots of the system cross an upright plane from `a` to `b`: place along it, depth,
// thickness. In the order of the pieces.
struct Crossing {
  double along = 0, depth = 0, thickness = 0;  // m
  int piece = 0;
};
std::vector<Crossing> crossings(const RootSystem& roots, const Point& a, const Point& b);

}  // namespace rootstead
