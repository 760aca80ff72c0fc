import { expect, test } from "vitest";
import type { Line } from "../src/api/names";
import { marksAlong } from "../src/plan/along";
import { boxes, contour, joined, levelFor, tintSteps } from "../src/plan/contours";

// Densest in the middle, falling outward.
const side = 21;
const values = Array.from({ length: side * side }, (_, i) => {
  const [dx, dy] = [(i % side) - 10, Math.floor(i / side) - 10];
  const far = Math.hypot(dx, dy);
  return far > 9 ? 0 : Math.exp(-far / 4);
});
const grid = { at: [100, 200], cell_m: 0.5, columns: side, rows: side, values };

test("so much of the whole lies at or above the level", () => {
  for (const part of [0.5, 0.8, 0.95]) {
    const level = levelFor(values, part);
    const sum = (list: number[]) => list.reduce((a, b) => a + b, 0);
    const inside = sum(values.filter((value) => value >= level)) / sum(values);
    expect(inside).toBeGreaterThanOrEqual(part - 1e-9);
    expect(inside).toBeLessThan(part + 0.06);
  }
  expect(levelFor([], 0.5)).toBe(Infinity);
  expect(levelFor([0, 0], 0.5)).toBe(Infinity);
});
test("boxes cover exactly the cells between two levels", () => {
  const [low, high] = [levelFor(values, 0.8), levelFor(values, 0.5)];
  const area = boxes(grid, low, high).reduce((sum, [w, s, e, n]) => sum + (e - w) * (n - s), 0);
  expect(area).toBeCloseTo(0.25 * values.filter((value) => value >= low && value < high).length, 9);
});
test("the line of equal value closes around the stem", () => {
  const lines = joined(contour(grid, 0.3));
  expect(lines).toHaveLength(1);
  const [first, last] = [lines[0]![0]!, lines[0]!.at(-1)!];
  expect(Math.hypot(first[0] - last[0], first[1] - last[1])).toBeLessThan(1e-9);
  const far = -4 * Math.log(0.3) * 0.5; // metres from the middle of the grid
  for (const [x, y] of lines[0]!) expect(Math.hypot(x - 105.25, y - 205.25)).toBeCloseTo(far, 0);
});
test("a grid full to its edge still has a closed line", () => {
  const full = { at: [0, 0], cell_m: 1, columns: 2, rows: 2, values: [1, 1, 1, 1] };
  const [line] = joined(contour(full, 0.5));
  expect(line![0]).toEqual(line!.at(-1));
});
test("steps run from dense to thin and share no cell", () => {
  const tint = { tree: "T", at: grid.at, cell_m: 0.5, columns: side, rows: side, share_per_m2: values, status: "" };
  const steps = tintSteps(tint);
  expect(steps.map((step) => step.part)).toEqual([0.5, 0.8, 0.95]);
  const cells = steps.flatMap((step) => step.boxes).reduce((sum, [w, s, e, n]) => sum + (e - w) * (n - s) * 4, 0);
  expect(cells).toBeCloseTo(values.filter((value) => value >= levelFor(values, 0.95)).length, 9);
});
test("marks stand at even distances round corners, with the line's direction", () => {
  const line: Line = [
    [0, 0],
    [10, 0],
    [10, 10],
  ];
  const marks = marksAlong(line, 4);
  expect(marks.map((mark) => mark.at)).toEqual([
    [2, 0],
    [6, 0],
    [10, 0],
    [10, 4],
    [10, 8],
  ]);
  expect(marks.at(-1)!.angle).toBeCloseTo(Math.PI / 2, 9);
  expect(marksAlong(line, 0.001, 50)).toHaveLength(50);
});
