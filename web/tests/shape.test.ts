import { expect, test } from "vitest";
import type { Line, Shape } from "../src/api/names";
import { boxOf, closed, crownOutline, moved, movedCorner, opened, positionsOf, sameShape } from "../src/model/shape";

const shape: Shape = {
  lines: [
    [
      [0, 0],
      [1, 0],
    ],
  ],
  areas: [
    [
      [
        [0, 0],
        [4, 0],
        [4, 4],
      ],
      [
        [1, 1],
        [2, 1],
        [2, 2],
      ],
    ],
  ],
  points: [[9, 9]],
};

test("a move there and back leaves the shape", () => {
  expect(sameShape(moved(moved(shape, 0.5, -2), -0.5, 2), shape)).toBe(true);
  expect(positionsOf(moved(shape, 1, 2))).toEqual(positionsOf(shape).map(([x, y]) => [x + 1, y + 2]));
});
test("one corner moves and no other, in lines, holes and points", () => {
  const all = positionsOf(shape);
  all.forEach((_, n) => {
    const after = positionsOf(movedCorner(shape, n, 1, 1));
    const changed = after.flatMap((position, i) => (position[0] !== all[i]![0] ? [i] : []));
    expect(changed).toEqual([n]);
  });
});
test("rings are closed for the screen and opened for the interface", () => {
  const ring = shape.areas[0]![0]!;
  expect(closed(ring)).toHaveLength(4);
  expect(opened(closed(ring))).toEqual(ring);
  expect(opened(ring)).toEqual(ring);
});
test("a crown meets its four radii", () => {
  const outline: Line = crownOutline([10, 20], [1, 2, 3, 4], 2);
  const at = (i: number) => outline[i]!.map((v) => Math.round(v * 1e9) / 1e9);
  expect([at(0), at(2), at(4), at(6)]).toEqual([
    [10, 21],
    [12, 20],
    [10, 17],
    [6, 20],
  ]);
});
test("the box of nothing is none", () => {
  expect(boxOf([])).toBeNull();
  expect(
    boxOf([
      [3, 1],
      [-2, 5],
    ]),
  ).toEqual([-2, 1, 3, 5]);
});
