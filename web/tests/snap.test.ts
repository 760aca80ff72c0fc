import { expect, test } from "vitest";
import type { Site } from "../src/api/names";
import { footOn, snapped, targetsOf, type Targets } from "../src/model/snap";

const all = { corners: true, lines: true, stems: true };
const targets: Targets = {
  stems: [[0, 1]],
  corners: [
    [0, 0],
    [10, 0],
  ],
  legs: [
    [
      [0, 0],
      [10, 0],
    ],
  ],
};

test("corners and stems win over a line that is nearer", () => {
  expect(snapped([0.3, 0.1], targets, 0.5, all)).toEqual({ at: [0, 0], to: "corners" });
  expect(snapped([0.1, 0.7], targets, 0.5, all)).toEqual({ at: [0, 1], to: "stems" });
  expect(snapped([5, 0.2], targets, 0.5, all)).toEqual({ at: [5, 0], to: "lines" });
});
test("what is switched off does not attract, nor what is out of reach", () => {
  expect(snapped([0.3, 0.1], targets, 0.5, { ...all, corners: false })).toEqual({ at: [0.3, 0], to: "lines" });
  expect(snapped([0.1, 0.9], targets, 0.5, { ...all, stems: false })).toEqual({ at: [0.1, 0.9], to: null });
  expect(snapped([5, 3], targets, 0.5, all)).toEqual({ at: [5, 3], to: null });
});
test("a foot stays on its leg", () => {
  expect(footOn([-4, 3], [0, 0], [10, 0])).toEqual([0, 0]);
  expect(footOn([4, 3], [4, 4], [4, 4])).toEqual([4, 4]);
});
test("an area's closing leg attracts too", () => {
  const ring = [
    [0, 0],
    [4, 0],
    [0, 4],
  ];
  const site = {
    trees: [{ at: [9, 9] }, { at: null }],
    works: [{ shape: { lines: [], areas: [[ring]], points: [] } }],
    barriers: [],
    boundary: [],
    gates: [],
  } as unknown as Site;
  const found = targetsOf(site);
  expect([found.legs.length, found.corners.length, found.stems.length]).toEqual([3, 3, 1]);
  expect(snapped([0.1, 2], found, 0.5, all)).toEqual({ at: [0, 2], to: "lines" });
});
