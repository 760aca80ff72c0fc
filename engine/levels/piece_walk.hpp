// Walks over the pieces of ground on which the difference of two surfaces is one plane. Inside
// this room only.
//
// The area is cut into square tiles, halved until few planes are left in each; a tile wholly inside
// the area needs no cutting by its outline. Places are relative to an origin amid the ground, so
// that coordinates of millions of metres cost no digits.
#pragma once

#include <functional>
#include <vector>

#include "engine/levels/prepared_levels.hpp"

namespace rootstead {

// A corner of a piece; `d` is after less before there.
struct Corner {
  double x = 0, y = 0, d = 0;
};
using Corners = std::vector<Corner>;

struct PieceView {
  // One ring of the piece, counter-clockwise; where the outline of the area cuts it, a ring may
  // run back along itself, and rings of holes run clockwise: sums over rings are right.
  const Corners& ring;
  // The convex piece that the outline cut, or null where the ring is the whole piece.
  const Corners* uncut = nullptr;
};

struct PieceVisitor {
  virtual ~PieceVisitor() = default;
  virtual void piece(const PieceView& view) = 0;
  virtual void tile_done(const Box& /*tile*/) {}
};

// Both surfaces, or how one alone covers the ground (`after` null; d is then less the height).
struct PieceWalk {
  const PreparedLevels& before;
  const PreparedLevels* after = nullptr;
  const MultiPolygon* area = nullptr;  // valid, apart, outer rings counter-clockwise; null: all

  Point origin() const;
  void visit(PieceVisitor& visitor) const;
};

// Grids whose cells lie exactly upon one another.
bool same_cells(const PreparedLevels& a, const PreparedLevels& b);

// The part of a ring on the side where nx x + ny y + nd d >= c, along the line where it is cut.
void clip(const Corners& ring, double nx, double ny, double nd, double c, Corners& out);
inline void clip_above(const Corners& ring, double least, Corners& out) {
  clip(ring, 0, 0, 1, least, out);
}
inline void clip_below(const Corners& ring, double most, Corners& out) {
  clip(ring, 0, 0, -1, -most, out);
}

// Signed area of a ring, and the integral of d over it.
struct RingSum {
  double area = 0, volume = 0;
};
RingSum sum_over(const Corners& ring);

}  // namespace rootstead
