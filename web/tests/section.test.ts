import { expect, test } from "vitest";
import type { SectionView } from "../src/api/looking";
import {
  existingAt,
  FOOT_ROOM,
  frameOf,
  groundPath,
  lanes,
  LEFT,
  RIGHT,
  rootPaths,
  STEM_TOP,
  strip,
  ticks,
} from "../src/section/frame";
import { lineAcross, lineThrough } from "../src/section/line";

const view: SectionView = {
  line: [],
  length_m: 20,
  ground: [],
  pieces: [
    {
      id: "W1",
      name: "",
      kind: "trench",
      sort: "work",
      from_m: 2,
      to_m: 8,
      top_m: 0,
      bottom_m: 2.75,
      pipe_m: null,
    },
  ],
  zones: [],
  stems: [],
  predicted: [],
  found: [],
  note: "",
};
const sloping: SectionView["ground"] = [
  { along_m: 0, existing_m: 100, proposed_m: null },
  { along_m: 10, existing_m: 101, proposed_m: null },
  { along_m: 20, existing_m: 99, proposed_m: 98 },
];
const wish = { pixels: LEFT + RIGHT + 400, zoom: 1, exaggeration: 1, from: 0, to: 20 };

test("one metre is as many pixels down as along, unless heights are exaggerated", () => {
  const frame = frameOf(view, wish);
  expect(frame.perMetre).toBe(20);
  expect([frame.x(0), frame.x(20)]).toEqual([LEFT, LEFT + 400]);
  expect(frame.y(1) - frame.y(0)).toBe(20);
  expect(frame.height).toBeCloseTo((STEM_TOP + 3) * 20 + FOOT_ROOM, 9);
  expect(frameOf(view, { ...wish, exaggeration: 5 }).perMetreDown).toBe(100);
  expect(frameOf(view, { ...wish, zoom: 2 }).perMetre).toBe(40);
});
test("a stretch reaches only as deep as what lies in it", () => {
  expect(frameOf(view, { ...wish, from: 10 }).bottom).toBe(1.25);
  expect(frameOf(view, wish).bottom).toBe(3);
});
test("depths follow the ground; without levels it is flat", () => {
  expect([existingAt(sloping, 5), existingAt(sloping, 15), existingAt(sloping, 30), existingAt([], 1)]).toEqual([
    100.5,
    100,
    99,
    null,
  ]);
  const frame = frameOf({ ...view, ground: sloping }, wish);
  expect(frame.level(5, 1)).toBe(1.5);
  expect(frame.level(10, 1)).toBe(1);
  expect(frameOf(view, wish).level(5, 1)).toBe(1);
  expect(frame.bottom).toBe(3.5); // 2.75 under ground that lies half a metre below the highest, and a little
});
test("a strip under sloping ground bends where the ground does", () => {
  const frame = frameOf({ ...view, ground: sloping }, wish);
  const path = strip(frame, sloping, 5, 15, 0, 1);
  expect(path.match(/[ML]/g)).toHaveLength(6);
  expect(path.startsWith(`M${frame.x(5).toFixed(1)} ${frame.y(0.5).toFixed(1)}`)).toBe(true);
  expect(groundPath(frame, sloping, (g) => g.proposed_m).match(/[ML]/g)).toHaveLength(1);
});
test("roots go by thickness and by whether they are severed", () => {
  const root = (thickness_m: number, severed: boolean) => ({
    tree: "T",
    along_m: [1, 2],
    depth_m: [0.1, 0.2],
    thickness_m,
    severed,
  });
  const paths = rootPaths(frameOf(view, wish), [
    root(0.06, false),
    root(0.055, true),
    root(0.05, false),
    root(0.001, true),
  ]);
  expect(paths.map((path) => [path.least, path.severed, path.count])).toEqual([
    [0.05, false, 2],
    [0.05, true, 1],
    [0, true, 1],
  ]);
});
test("marks stand at round distances and not too close", () => {
  expect(ticks(0, 20, 20, 70)).toEqual([0, 5, 10, 15, 20]);
  expect(ticks(3, 9, 40, 70)).toEqual([4, 6, 8]);
  expect(ticks(0, 1, 100, 18)).toEqual([0, 0.2, 0.4, 0.6, 0.8, 1]);
  for (const perUnit of [0.7, 3, 11, 48, 260]) {
    const [a, b] = ticks(0, 1000 / perUnit, perUnit, 50);
    expect((b! - a!) * perUnit).toBeGreaterThanOrEqual(49.9);
  }
});
test("zones that overlap lie in lanes of their own", () => {
  const zone = (from_m: number, to_m: number) => ({ from_m, to_m });
  expect(lanes([zone(5, 9), zone(0, 6), zone(6.5, 8), zone(9.5, 12)], 0.2).map((one) => one.lane)).toEqual([
    0, 1, 0, 0,
  ]);
});
test("a line through a stem runs by its bearing from north", () => {
  const [a, b] = lineThrough([100, 200], 90, 5);
  expect([a![0], b![0]]).toEqual([95, 105]);
  expect(a![1]).toBeCloseTo(200, 9);
  const [c, d] = lineThrough([0, 0], 0, 3);
  expect([c![1], d![1]]).toEqual([-3, 3]);
});
test("works without a line are cut from the tree through their middle, or along their longer side", () => {
  const area = [
    [
      [10, -1],
      [14, -1],
      [14, 1],
      [10, 1],
    ] as [number, number][],
  ];
  const shape = { lines: [], areas: [area], points: [] };
  expect(lineAcross(shape, [0, 0])).toEqual([
    [-3, 0],
    [15, 0],
  ]);
  const box = [
    [9, 0],
    [15, 0],
  ];
  expect(lineAcross(shape, null)).toEqual(box);
  expect(lineAcross(shape, [500, 0])).toEqual(box);
  expect(lineAcross(shape, [12, 0.1])).toEqual(box);
  expect(lineAcross({ lines: [], areas: [], points: [] }, [0, 0])).toBeNull();
});
