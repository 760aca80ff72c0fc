import { expect, test } from "vitest";
import type { Line } from "../src/api/names";
import { areaOf, crossesItself, legsOf, lengthOf, roundOf } from "../src/model/measure";

const far = (line: Line): Line => line.map(([x, y]) => [x + 480_000, y + 4_880_000]);
const square: Line = [
  [0, 0],
  [4, 0],
  [4, 4],
  [0, 4],
];

test("legs have lengths and bearings", () => {
  expect(
    legsOf([
      [0, 0],
      [3, 4],
      [3, 0],
    ]),
  ).toEqual([
    { length: 5, bearing: expect.closeTo(36.8699, 4) },
    { length: 4, bearing: 180 },
  ]);
  expect(lengthOf([[1, 1]])).toBe(0);
});
test("areas do not depend on the sense of turning nor on great coordinates", () => {
  expect(areaOf(square)).toBe(16);
  expect(areaOf([...square].reverse())).toBe(16);
  expect(areaOf(far(square))).toBe(16);
  expect(roundOf(square)).toBe(16);
  expect([areaOf([]), roundOf([])]).toEqual([0, 0]);
});
test("a bow tie is known as one", () => {
  expect(crossesItself(square)).toBe(false);
  expect(crossesItself([square[0]!, square[2]!, square[1]!, square[3]!])).toBe(true);
});
