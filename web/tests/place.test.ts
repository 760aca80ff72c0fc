import { expect, test } from "vitest";
import type { Site } from "../src/api/names";
import { bySort, knownPlaces } from "../src/place/known";
import { GRID_UNITS, told, type Entered } from "../src/place/told";

const blank: Entered = {
  way: "grid",
  x: null,
  y: null,
  from: null,
  towards: null,
  first: null,
  second: null,
  degrees: null,
  side: "left",
  fromBark: false,
};
const stem = (x: number, y: number) => ({ at: [x, y] as [number, number], radius: 0.25 });

test("nothing is placed before all of it is told", () => {
  for (const way of ["grid", "offset", "bearing", "known", "two", "along"] as const)
    expect(told({ ...blank, way })).toEqual({ kind: "open" });
  expect(told({ ...blank, x: 1 })).toEqual({ kind: "open" });
  expect(told({ ...blank, way: "two", from: stem(0, 0), towards: stem(5, 0), first: 3 })).toEqual({ kind: "open" });
});
test("each way leads to its place", () => {
  const at = (entered: Partial<Entered>) => {
    const said = told({ ...blank, ...entered });
    return said.kind === "at" ? said.at.map((v) => Math.round(v * 1e6) / 1e6) : said;
  };
  expect(at({ x: 3, y: 4 })).toEqual([3, 4]);
  expect(at({ way: "offset", from: stem(1, 1), first: 2, second: -1 })).toEqual([3, 0]);
  expect(at({ way: "bearing", from: stem(1, 1), first: 2, degrees: 90 })).toEqual([3, 1]);
  expect(at({ way: "known", from: stem(1, 1) })).toEqual([1, 1]);
  expect(at({ way: "two", from: stem(0, 0), towards: stem(5, 0), first: 3, second: 4 })).toEqual([1.8, 2.4]);
  expect(at({ way: "along", from: stem(0, 0), towards: stem(5, 0), first: 2, second: 1, side: "right" })).toEqual([
    2, -1,
  ]);
});
test("a tape held at the bark is longer by half the stem", () => {
  const said = told({
    ...blank,
    way: "two",
    from: stem(0, 0),
    towards: stem(5, 0),
    first: 2.75,
    second: 3.75,
    fromBark: true,
  });
  expect(said.kind === "at" && said.at[0]).toBeCloseTo(1.8, 9);
  expect(said.kind === "at" && said.other?.[1]).toBeCloseTo(-2.4, 9);
});
test("tapes that cannot meet are said to", () => {
  const tapes = { ...blank, way: "two" as const, from: stem(0, 0), first: 1, second: 1 };
  expect(told({ ...tapes, towards: stem(5, 0) })).toEqual({ kind: "short", by: 3 });
  expect(told({ ...tapes, towards: stem(0, 0) })).toEqual({ kind: "same", by: 0 });
  expect(told({ ...tapes, way: "along", towards: stem(0, 0) })).toEqual({ kind: "same", by: 0 });
});
test("which foot is meant matters at the size of a grid", () => {
  const northing = 2_000_000;
  expect(northing * GRID_UNITS["us-ft"] - northing * GRID_UNITS.ft).toBeCloseTo(1.2192, 3);
});
test("known places: trees that have one, every corner, gates", () => {
  const site = {
    trees: [
      { id: "T1", label: "1", at: [1, 2], stem_diameter_m: 0.5 },
      { id: "T2", label: "2", at: null, stem_diameter_m: 0.5 },
    ],
    works: [
      {
        id: "W1",
        name: "",
        shape: {
          lines: [
            [
              [0, 0],
              [1, 0],
            ],
          ],
          areas: [],
          points: [],
        },
      },
    ],
    barriers: [],
    boundary: [
      [
        [
          [0, 0],
          [9, 0],
          [9, 9],
        ],
      ],
    ],
    gates: [[4, 4]],
  } as unknown as Site;
  const known = knownPlaces(site);
  expect(known.map((one) => `${one.sort} ${one.name} ${one.n}`)).toEqual([
    "tree 1 0",
    "work W1 1",
    "work W1 2",
    "boundary  1",
    "boundary  2",
    "boundary  3",
    "gate  1",
  ]);
  expect([known[0]!.radius, new Set(known.map((one) => one.key)).size]).toEqual([0.25, known.length]);
  expect(bySort(known).map(([sort, of]) => [sort, of.length])).toEqual([
    ["tree", 1],
    ["work", 2],
    ["boundary", 3],
    ["gate", 1],
  ]);
});
