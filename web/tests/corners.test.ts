import { expect, test } from "vitest";
import type { Position, Shape } from "../src/api/names";
import { cornersOf, lacks, noShape, withCornerAfter, withCornerAt, withoutCorner } from "../src/model/corners";
import { positionsOf } from "../src/model/shape";

const holed: Shape = {
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
        [9, 0],
        [9, 9],
      ],
      [
        [5, 1],
        [6, 1],
        [6, 2],
      ],
    ],
  ],
  points: [[7, 7]],
};

test("corners are counted as positions are", () => {
  expect(cornersOf(holed).map((corner) => corner.at)).toEqual(positionsOf(holed));
});
test("a corner put after any other can be taken away again", () => {
  cornersOf(holed).forEach((corner, n) => {
    const more = withCornerAfter(holed, n, [3, 3], "line");
    expect(cornersOf(more)[n + 1]).toMatchObject({ at: [3, 3], kind: corner.kind, ring: corner.ring });
    expect(withoutCorner(more, n + 1)).toEqual(holed);
    expect(cornersOf(withCornerAt(holed, n, [4, 4]))[n]!.at).toEqual([4, 4]);
  });
});
test("a shape is drawn corner by corner and is whole when it may be saved", () => {
  const draw = (kind: "line" | "area" | "point", places: Position[]) =>
    places.reduce((shape, at) => withCornerAfter(shape, cornersOf(shape).length - 1, at, kind), noShape);
  expect(lacks(noShape)).toEqual({ kind: "point", missing: 1 });
  expect(lacks(draw("line", [[0, 0]]))).toEqual({ kind: "line", missing: 1 });
  expect(lacks(draw("area", [[0, 0]]))).toEqual({ kind: "area", missing: 2 });
  const triangle = draw("area", [
    [0, 0],
    [1, 0],
    [1, 1],
  ]);
  expect([lacks(triangle), triangle.areas[0]![0]!.length]).toEqual([null, 3]);
  expect(draw("point", [[1, 2]])).toEqual({ ...noShape, points: [[1, 2]] });
});
test("what has lost its last corner is gone", () => {
  let shape = holed;
  for (let i = 0; i < 2; i += 1) shape = withoutCorner(shape, 0);
  expect(shape.lines).toEqual([]);
  expect(withoutCorner(shape, 99)).toBe(shape);
});
