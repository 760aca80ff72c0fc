import { expect, test } from "vitest";
import type { Position } from "../src/api/names";
import { bearing, byBearing, byTwoDistances, fromLine } from "../src/model/tape";

const near = (a: Position, b: Position) => {
  expect(a[0]).toBeCloseTo(b[0], 9);
  expect(a[1]).toBeCloseTo(b[1], 9);
};

test("a 3-4-5 triangle stands on either side of its base", () => {
  const left = byTwoDistances([0, 0], 3, [5, 0], 4, "left");
  const right = byTwoDistances([0, 0], 3, [5, 0], 4, "right");
  if (left.kind !== "met" || right.kind !== "met") throw new Error("the tapes meet");
  near(left.at, [1.8, 2.4]);
  near(right.at, [1.8, -2.4]);
  expect(left.growth).toBeCloseTo(1, 12); // they cross at a right angle
});
test("left is left of the way from the first to the second, whichever way it runs", () => {
  const met = byTwoDistances([0, 10], 6, [0, 0], 8, "left"); // southward: left is east
  if (met.kind !== "met") throw new Error("the tapes meet");
  expect(met.at[0]).toBeGreaterThan(0);
});
test("both distances are kept, over many triangles", () => {
  for (let i = 0; i < 200; i += 1) {
    const a: Position = [480_000 + i, 4_880_000 - 2 * i];
    const b: Position = [a[0] + 7 * Math.cos(i), a[1] + 7 * Math.sin(i)];
    const met = byTwoDistances(a, 5 + (i % 3), b, 4 + (i % 2), i % 2 === 0 ? "left" : "right");
    if (met.kind !== "met") throw new Error("the tapes meet");
    expect(Math.hypot(met.at[0] - a[0], met.at[1] - a[1])).toBeCloseTo(5 + (i % 3), 6);
    expect(Math.hypot(met.at[0] - b[0], met.at[1] - b[1])).toBeCloseTo(4 + (i % 2), 6);
  }
});
test("tapes that do not meet say by how much", () => {
  expect(byTwoDistances([0, 0], 2, [10, 0], 3, "left")).toEqual({ kind: "short", by: 5 });
  expect(byTwoDistances([0, 0], 20, [10, 0], 3, "left")).toEqual({ kind: "long", by: 7 });
  expect(byTwoDistances([1, 1], 2, [1, 1], 2, "left")).toEqual({ kind: "same" });
});
test("a grazing angle is told by the growth of errors", () => {
  const met = byTwoDistances([0, 0], 5.01, [10, 0], 5, "left");
  expect(met.kind === "met" && met.growth).toBeGreaterThan(10);
  const touching = byTwoDistances([0, 0], 5, [10, 0], 5, "left");
  expect(touching).toMatchObject({ kind: "met", growth: Infinity });
});
test("along and aside", () => {
  near(fromLine([0, 0], [0, 10], 4, 1), [-1, 4]); // northward: left is west
  near(fromLine([0, 0], [0, 10], 4, -1), [1, 4]);
  near(fromLine([2, 3], [12, 3], -1, 0), [1, 3]);
});
test("bearings go clockwise from north and back again", () => {
  near(byBearing([0, 0], 0, 2), [0, 2]);
  near(byBearing([0, 0], 90, 2), [2, 0]);
  near(byBearing([0, 0], 225, Math.SQRT2), [-1, -1]);
  for (let degrees = 0; degrees < 360; degrees += 7)
    expect(bearing([5, 5], byBearing([5, 5], degrees, 3))).toBeCloseTo(degrees, 9);
});
