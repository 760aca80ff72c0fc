// Section lines that nobody drew: through a stem by its bearing, and across works that have no line.
import type { Line, Position, Shape } from "../api/names";
import { boxOf, positionsOf } from "../model/shape";

export function lineThrough([x, y]: Position, bearingDeg: number, reach: number): Line {
  const angle = (bearingDeg * Math.PI) / 180; // clockwise from grid north
  const [dx, dy] = [Math.sin(angle) * reach, Math.cos(angle) * reach];
  return [
    [x - dx, y - dy],
    [x + dx, y + dy],
  ];
}

const BEHIND = 3; // metres shown on the far side of the stem
const BEYOND = 1; // metres shown past the work
const FAR = 60; // metres; a tree farther away has nothing to do with the work

// Across an area or a row of points: from behind the stem of the tree through the middle of the work;
// without a tree near it, along the longer side of the work's box.
export function lineAcross(shape: Shape, tree: Position | null): Line | null {
  const corners = positionsOf(shape);
  const box = boxOf(corners);
  if (!box) return null;
  const middle: Position = [(box[0] + box[2]) / 2, (box[1] + box[3]) / 2];
  const run = tree ? Math.hypot(middle[0] - tree[0], middle[1] - tree[1]) : 0;
  if (tree && run > 0.5 && run < FAR) {
    const [ux, uy] = [(middle[0] - tree[0]) / run, (middle[1] - tree[1]) / run];
    const far = Math.max(...corners.map(([x, y]) => (x - tree[0]) * ux + (y - tree[1]) * uy)) + BEYOND;
    return [
      [tree[0] - BEHIND * ux, tree[1] - BEHIND * uy],
      [tree[0] + far * ux, tree[1] + far * uy],
    ];
  }
  const wide = box[2] - box[0] >= box[3] - box[1];
  return wide
    ? [
        [box[0] - BEYOND, middle[1]],
        [box[2] + BEYOND, middle[1]],
      ]
    : [
        [middle[0], box[1] - BEYOND],
        [middle[0], box[3] + BEYOND],
      ];
}
