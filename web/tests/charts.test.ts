import { expect, test } from "vitest";
import { bandPath, linePath, marks, runs, scale } from "../src/charts/scale";

const points = [
  { at: 0, share: { low: 0, best: 0.5, high: 1 } },
  { at: 10, share: { low: 0.1, best: 0.2, high: 0.3 } },
];
const x = scale(0, 10, 0, 100);
const y = scale(0, 1, 100, 0);

test("a scale is straight and bears an empty range", () => {
  expect([x(0), x(5), x(10), y(0.25)]).toEqual([0, 50, 100, 75]);
  expect(scale(3, 3, 10, 20)(3)).toBe(10);
});
test("the line follows the best, the band goes out low and home high", () => {
  expect(linePath(points, x, y)).toBe("M0.0 50.0L100.0 80.0");
  expect(bandPath(points, x, y)).toBe("M0.0 100.0L100.0 90.0L100.0 70.0L0.0 0.0Z");
  expect(bandPath([], x, y)).toBe("");
});
test("an upright chart has its axis down the sheet", () => {
  expect(linePath(points, x, y, true)).toBe("M50.0 0.0L80.0 100.0");
});
test("marks are round and few", () => {
  expect(marks(10, 5)).toEqual([0, 2, 4, 6, 8, 10]);
  expect(marks(1.6, 8)).toEqual([0, 0.2, 0.4, 0.6, 0.8, 1, 1.2, 1.4, 1.6]);
  for (const most of [0.3, 1, 7.3, 14, 99, 1234]) expect(marks(most, 6).length).toBeLessThanOrEqual(7);
  expect(marks(0, 5)).toEqual([0]);
});
test("runs of one verdict are told once", () => {
  const said = ["remove", "remove", "keep", "remove"].map((verdict, at) => ({ verdict, at }));
  expect(runs(said).map(({ first, last }) => [first.verdict, first.at, last.at])).toEqual([
    ["remove", 0, 1],
    ["keep", 2, 2],
    ["remove", 3, 3],
  ]);
});
