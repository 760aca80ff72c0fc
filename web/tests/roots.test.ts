import { expect, test } from "vitest";
import type { RootPiece, RootSystem } from "../src/api/looking";
import { blockEdges, blockSides, placer, relief, rootMeshes, spokes, surfaceNet } from "../src/rootview/meshes";
import { byKey, LOWEST, named, nearer, standing, turned, upward } from "../src/rootview/orbit";
import { flatBlocks, flatPaths, summary } from "../src/rootview/summary";

const piece = (more: Partial<RootPiece> = {}): RootPiece => ({
  from: [100, 200, 0.2],
  to: [103, 204, 0.2],
  thickness_m: [0.06, 0.04],
  parent: -1,
  kind: "lateral",
  severed: false,
  ...more,
});
const block = {
  id: "W1",
  name: "Main",
  kind: "trench",
  areas: [
    [
      [
        [101, 201],
        [103, 201],
        [103, 202],
        [101, 202],
      ],
    ],
  ],
  top_m: 0,
  bottom_m: 1.5,
};
const system: RootSystem = {
  tree: "T1",
  label: "1",
  seed: 1,
  each_stands_for: 1,
  stem: { at: [100, 200], diameter_m: 0.5 },
  pieces: [piece()],
  ground: null,
  works: [block],
  barriers: [],
  note: "",
};

test("east is right, depth is down, north goes away from the reader", () => {
  expect(placer(system)(103, 204, 0.5)).toEqual([3, -0.5, -4]);
});
test("known ground lifts what stands on it, over the foot of the stem", () => {
  const ground = { at: [100, 200], cell_m: 1, columns: 3, rows: 2, height_m: [10, 11, null, 12, 13, 14] };
  const rise = relief(ground, [100, 200]);
  expect([rise(100, 200), rise(101, 200), rise(102, 200), rise(101, 201), rise(500, 500)]).toEqual([0, 1, 0, 3, 0]);
  expect(placer({ ...system, ground })(101, 200, 0.25)[1]).toBe(0.75);
});
test("spokes stand at right angles to their piece and are one metre long", () => {
  for (const to of [
    [1, 0, 0],
    [0, 1, 0],
    [0.3, -2, 5],
  ] as const) {
    for (const spoke of spokes([0, 0, 0], to, 6)) {
      expect(Math.hypot(...spoke)).toBeCloseTo(1, 9);
      expect(spoke[0] * to[0] + spoke[1] * to[1] + spoke[2] * to[2]).toBeCloseTo(0, 9);
    }
  }
});
test("what stays is a tube with its line, what is severed is a cage, thin roots are lines", () => {
  const stays = rootMeshes(system);
  expect(stays.tubes.positions.length).toBe(6 * 6 * 3);
  expect(stays.tubes.normals.length).toBe(stays.tubes.positions.length);
  expect([stays.lines.length, stays.severed.length]).toEqual([6, 0]);
  expect(stays.reach).toBe(5);
  const cut = rootMeshes({ ...system, pieces: [piece({ severed: true })] });
  expect([cut.tubes.positions.length, cut.lines.length, cut.severed.length]).toEqual([0, 0, 4 * 6]);
  const thin = { thickness_m: [0.002, 0.001] };
  const fine = rootMeshes({ ...system, pieces: [piece(thin), piece({ ...thin, severed: true })] });
  expect([fine.tubes.positions.length, fine.lines.length, fine.severed.length]).toEqual([0, 6, 6]);
});
test("a tube is as thick as its root at both ends", () => {
  const along = piece({ from: [100, 200, 0], to: [101, 200, 0], thickness_m: [0.2, 0.1] });
  const { positions } = rootMeshes({ ...system, pieces: [along] }).tubes;
  const radii: Record<string, number> = {};
  for (let i = 0; i < positions.length; i += 3)
    radii[positions[i]!.toFixed(0)] = Math.hypot(positions[i + 1]!, positions[i + 2]!);
  expect(radii["0"]).toBeCloseTo(0.1, 6);
  expect(radii["1"]).toBeCloseTo(0.05, 6);
});
test("a block has three edges and one side a corner", () => {
  const place = placer(system);
  expect(blockEdges(block, place).length).toBe(4 * 3 * 6);
  const sides = blockSides(block, place);
  expect(sides.length).toBe(4 * 6 * 3);
  const heights = Array.from(sides).filter((_, i) => i % 3 === 1);
  expect([Math.min(...heights), Math.max(...heights)]).toEqual([-1.5, 0]);
});
test("the net of the ground covers the reach with meshes of a metre", () => {
  const net = surfaceNet(system, 2);
  expect(net.length).toBe(7 * 6 * 2 * 6);
  expect(Math.max(...net)).toBe(3);
});
test("one stands where bearing, tilt and distance say", () => {
  const near = (spot: readonly number[], wish: number[]) =>
    spot.forEach((one, i) => expect(one).toBeCloseTo(wish[i]!, 9));
  near(standing({ bearing: 180, tilt: 0, distance: 10 }), [0, 0, 10]); // from the south
  near(standing({ bearing: 90, tilt: 0, distance: 10 }), [10, 0, 0]); // from the east
  near(standing({ bearing: 180, tilt: 90, distance: 10 }), [0, 10, 0]); // from above
  near(upward({ bearing: 180, tilt: 90, distance: 10 }), [0, 0, -1]); // north is up on the screen
  near(upward({ bearing: 33, tilt: 0, distance: 1 }), [0, 1, 0]);
});
test("turning goes round, tilting stops, keys do what buttons do", () => {
  const orbit = named("south", 10);
  expect(turned(orbit, -200, 0).bearing).toBe(340);
  expect([turned(orbit, 0, 500).tilt, turned(orbit, 0, -500).tilt]).toEqual([90, LOWEST]);
  expect(nearer(orbit, 2).distance).toBe(5);
  expect(byKey(orbit, "ArrowLeft", 10)).toEqual(turned(orbit, 10, 0));
  expect(byKey(nearer(orbit, 3), "Home", 10)).toEqual(named("slant", 10));
  expect(byKey(orbit, "a", 10)).toBeUndefined();
});
test("the table counts pieces and metres by thickness", () => {
  const sums = summary([
    piece(),
    piece({ severed: true, to: [100, 200, 1.2] }),
    piece({ thickness_m: [0.003, 0.002] }),
  ]);
  expect(sums.map((sum) => [sum.least, sum.pieces])).toEqual([
    [0.05, 2],
    [0, 1],
  ]);
  expect(sums[0]).toMatchObject({ length: 6, severed: 1, deepest: 1.2 });
});
test("the flat drawing shows the same from above and from the south", () => {
  expect(flatPaths(system, "plan", 10)[0]).toMatchObject({ severed: false, path: "M0.0 0.0L30.0 -40.0" });
  expect(flatPaths(system, "elevation", 10)[0]!.path).toBe("M0.0 2.0L30.0 2.0");
  expect(flatBlocks(system, "elevation", 10)).toEqual([{ name: "Main", path: "M10.0 0.0H30.0V15.0H10.0Z" }]);
  expect(flatBlocks(system, "plan", 1)[0]!.path).toBe("M1.0 -1.0L3.0 -1.0L3.0 -2.0L1.0 -2.0Z");
});
