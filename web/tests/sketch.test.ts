import { expect, test } from "vitest";
import type { Thing } from "../src/api/editing";
import type { Shape } from "../src/api/names";
import { rebased } from "../src/edit/merge";
import { Sketch } from "../src/edit/sketch.svelte";

const at = (x: number): Shape => ({ lines: [[[x, 0], [x + 5, 0]]], areas: [], points: [] }); // prettier-ignore
const stored = (fields: Record<string, string>, x = 0): Thing => ({ sort: "work", id: "W1", fields, shape: at(x) });

test("what was not touched here follows what changed elsewhere", () => {
  const base = stored({ depth: "0.9 m", name: "Water" });
  const mine = { fields: { depth: "1.2 m", name: "Water" }, shape: at(0) };
  const next = rebased(base, mine, stored({ depth: "0.9 m", name: "Water main", notes: "n" }, 7));
  expect(next).toEqual({ fields: { depth: "1.2 m", name: "Water main", notes: "n" }, shape: at(7), clashes: [] });
});
test("what was touched on both sides is named and mine stays", () => {
  const mine = { fields: { depth: "1.2 m" }, shape: at(3) };
  const next = rebased(stored({ depth: "0.9 m" }), mine, stored({ depth: "2 m" }, 7));
  expect(next.fields).toEqual({ depth: "1.2 m" });
  expect(next.shape).toEqual(at(3));
  expect(next.clashes).toEqual([
    { field: "depth", mine: "1.2 m", theirs: "2 m" },
    { field: null, mine: "", theirs: "" },
  ]);
});
test("the same change on both sides is no clash, a field emptied here stays empty", () => {
  const next = rebased(
    stored({ depth: "1 m", notes: "x" }),
    { fields: { depth: "2 m" }, shape: at(0) },
    stored({ depth: "2 m", notes: "x" }),
  );
  expect([next.clashes, next.fields]).toEqual([[], { depth: "2 m" }]);
});
test("a new work is drawn as its kind is, corner by corner", () => {
  const sketch = new Sketch("work", "W9", null);
  sketch.setField("kind", "pit");
  expect(sketch.drawn).toBe("area");
  for (const place of [[0, 0], [4, 0], [4, 0], [4, 4]] as [number, number][]) sketch.put(place); // prettier-ignore
  expect([sketch.shape.areas[0]![0]!.length, sketch.last]).toEqual([3, [4, 4]]);
  sketch.corner = 0;
  sketch.put([2, -1]);
  expect(sketch.shape.areas[0]![0]![1]).toEqual([2, -1]);
  sketch.removeCorner(1);
  expect([sketch.shape.areas[0]![0]!.length, sketch.corner]).toEqual([3, 0]);
  expect(sketch.change()).toMatchObject({ put: { sort: "work", id: "W9", fields: { kind: "pit" } } });
});
test("a tree stands in one place and may stand nowhere", () => {
  const sketch = new Sketch("tree", "T9", null);
  expect(sketch.change()).toMatchObject({ put: { shape: null } });
  sketch.put([1, 1]);
  sketch.put([2, 2]);
  expect(sketch.shape.points).toEqual([[2, 2]]);
});
test("theirs can be taken and mine can be kept, clash by clash", () => {
  const sketch = new Sketch("work", "W1", stored({ depth: "0.9 m", name: "a" }));
  sketch.setField("depth", "1.2 m");
  sketch.setField("name", "b");
  sketch.follow(stored({ depth: "2 m", name: "c" }));
  expect(sketch.clashes).toHaveLength(2);
  sketch.takeTheirs(sketch.clashes[0]!);
  sketch.keepMine(sketch.clashes[0]!);
  expect([sketch.fields, sketch.clashes]).toEqual([{ depth: "2 m", name: "b" }, []]);
  expect(sketch.touched).toBe(true);
});
