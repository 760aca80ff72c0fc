import { expect, test } from "vitest";
import type { Line, Polygon, Position } from "../src/api/names";
import { areaOf, lengthOf } from "../src/model/measure";
import { placeAlong, splitArea, splitLine, splitPoints } from "../src/model/split";

const line: Line = [
  [0, 0],
  [10, 0],
  [10, 10],
];
const square: Polygon = [
  [
    [0, 0],
    [10, 0],
    [10, 10],
    [0, 10],
  ],
];

test("the two parts of a line are as long as the whole, wherever it is cut", () => {
  for (const at of [
    [3, 2],
    [10, 0],
    [12, 7],
    [0.1, 0],
  ] as Position[]) {
    const cut = splitLine(line, at);
    if (cut.kind !== "split") throw new Error("it is split");
    expect(lengthOf(cut.first.lines[0]!) + lengthOf(cut.second.lines[0]!)).toBeCloseTo(20, 9);
    expect(cut.first.lines[0]!.at(-1)).toEqual(cut.second.lines[0]![0]);
  }
});
test("a line is not cut at its ends", () => {
  expect(splitLine(line, [0, 0])).toEqual({ kind: "refused", why: "at-end" });
  expect(splitLine(line, [10, 30])).toEqual({ kind: "refused", why: "at-end" });
});
test("an area is cut in two, through its sides or its corners", () => {
  for (const [a, b] of [
    [
      [4, -5],
      [4, 5],
    ],
    [
      [0, 0],
      [10, 10],
    ],
    [
      [0, 0],
      [10, 5],
    ],
  ] as [Position, Position][]) {
    const cut = splitArea(square, a, b);
    if (cut.kind !== "split") throw new Error("it is split");
    const [left, right] = [areaOf(cut.first.areas[0]![0]!), areaOf(cut.second.areas[0]![0]!)];
    expect(left + right).toBeCloseTo(100, 9);
    expect(Math.min(left, right)).toBeGreaterThan(1);
  }
});
test("what cannot be cut in two is told", () => {
  expect(splitArea(square, [20, 0], [20, 1])).toEqual({ kind: "refused", why: "misses" });
  expect(splitArea(square, [10, 0], [10, 1])).toEqual({ kind: "refused", why: "misses" });
  const u: Polygon = [
    [
      [0, 0],
      [9, 0],
      [9, 9],
      [6, 9],
      [6, 3],
      [3, 3],
      [3, 9],
      [0, 9],
    ],
  ];
  expect(splitArea(u, [0, 6], [1, 6])).toEqual({ kind: "refused", why: "many-crossings" });
  const hole: Line = [
    [4, 4],
    [6, 4],
    [6, 6],
  ];
  expect(splitArea([square[0]!, hole], [5, 0], [5, 1])).toEqual({ kind: "refused", why: "hole" });
  const aside = splitArea([square[0]!, hole], [2, 0], [2, 1]);
  expect(aside.kind === "split" && aside.second.areas[0]).toHaveLength(2);
});
test("posts are dealt out", () => {
  const points: Line = [
    [0, 0],
    [1, 0],
    [2, 0],
  ];
  expect(splitPoints(points, 1)).toMatchObject({ first: { points: [[0, 0]] } });
  expect(splitPoints(points, 0)).toEqual({ kind: "refused", why: "at-end" });
  expect(splitPoints(points, 3)).toEqual({ kind: "refused", why: "at-end" });
});
test("a place so far along a line, round its corners", () => {
  expect(placeAlong(line, 4)).toEqual([4, 0]);
  expect(placeAlong(line, 13)).toEqual([10, 3]);
  expect([placeAlong(line, -1), placeAlong(line, 99)]).toEqual([[0, 0], [10, 10]]); // prettier-ignore
});
