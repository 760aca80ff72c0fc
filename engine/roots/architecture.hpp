// One likely root system, root by root: for pictures, and for counting where laws are too coarse.
// It is an example drawn by lot, never a map of this tree's roots: every picture must say so.
// Formulas, sources: docs/methods/architecture.md. Same seed, same roots.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "engine/roots/root_field.hpp"
#include "engine/roots/thick_roots.hpp"
#include "engine/site/site.hpp"
#include "engine/tables/tables.hpp"

namespace rootstead {

enum class RootKind { lateral, oblique, sinker, tap, prop, aerial, palm };

struct Place3 {
  double x = 0, y = 0;  // plan, project coordinates
  double z = 0;         // m, depth below ground, downward; negative above ground
};

struct RootPiece {
  Place3 from, to;
  double thickness_from = 0, thickness_to = 0;  // m
  int parent = -1;                              // index of the piece it grows from
  int order = 0;                                // 0: from the stem
  RootKind kind = RootKind::lateral;
};

struct RootSystem {
  std::vector<RootPiece> pieces;  // parents before children
  bool palm = false;
};

// Grows one. Roots keep to the field's directions, stop at the walls of `site` and turn along
// them; nothing thinner than `thinnest` is followed. Fails as root_model does.
Result<RootSystem> grow_roots(const Tree& tree, const Site& site, const Tables& tables,
                              std::uint64_t seed, Length thinnest = Length::millimetres(5));

// Where roots of the system cross an upright plane from `a` to `b`: place along it, depth,
// thickness.
struct Crossing {
  double along = 0, depth = 0, thickness = 0;
  int piece = 0;
};
std::vector<Crossing> crossings(const RootSystem& roots, const Point& a, const Point& b);

}  // namespace rootstead
