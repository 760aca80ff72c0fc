import { expect, test } from "vitest";
import { anything, byWork, lineFrom, matching, plain } from "../src/ledger/groups";
import type { LedgerLine } from "../src/ledger/lines";
import { Heights, partsOf, scrolledTo, topOf } from "../src/ledger/window";

const wanted = { count: 6000, heightOf: () => 50, top: 100_000, room: 500, beyond: 100, keep: [] as number[] };
const rows = (parts: ReturnType<typeof partsOf>) => parts.flatMap((part) => ("row" in part ? [part.row] : []));
const height = (parts: ReturnType<typeof partsOf>, heightOf: (row: number) => number) =>
  parts.reduce((sum, part) => sum + ("row" in part ? heightOf(part.row) : part.gap), 0);

test("of six thousand lines those in sight are drawn, and the whole keeps its height", () => {
  const parts = partsOf(wanted);
  expect(rows(parts)).toEqual(Array.from({ length: 14 }, (_, i) => 1998 + i));
  expect(height(parts, wanted.heightOf)).toBe(6000 * 50);
});
test("a line that must stay is drawn in its place", () => {
  const parts = partsOf({ ...wanted, keep: [3] });
  expect(rows(parts)[0]).toBe(3);
  expect(parts.slice(0, 3)).toEqual([{ gap: 150, after: 3 }, { row: 3 }, { gap: (1998 - 4) * 50, after: 1998 }]);
  expect(height(parts, wanted.heightOf)).toBe(6000 * 50);
});
test("short and empty lists have no gaps", () => {
  expect(partsOf({ ...wanted, count: 2, top: 0 })).toEqual([{ row: 0 }, { row: 1 }]);
  expect(partsOf({ ...wanted, count: 0, top: 0 })).toEqual([]);
});
test("a line is brought into sight with the least scrolling", () => {
  const heightOf = (row: number) => (row % 2 ? 30 : 50);
  expect(topOf(3, heightOf)).toBe(130);
  expect(scrolledTo(0, { heightOf, top: 200, room: 100 })).toBe(0);
  expect(scrolledTo(5, { heightOf, top: 0, room: 100 })).toBe(140);
  expect(scrolledTo(1, { heightOf, top: 20, room: 200 })).toBe(20);
});
test("unmeasured lines are taken to be as high as the measured", () => {
  const heights = new Heights(56);
  expect(heights.of("a")).toBe(56);
  expect([heights.take("a", 40), heights.take("b", 60), heights.take("a", 40.2)]).toEqual([true, true, false]);
  expect([heights.of("a"), heights.of("c")]).toEqual([40, 50]);
  expect(heights.take("a", 50)).toBe(true);
  expect(heights.average).toBe(55);
  heights.forget();
  expect(heights.of("a")).toBe(56);
});

const line = (id: string, works: string[], more: Partial<LedgerLine> = {}) =>
  ({ id, label: id, works, verdict: "keep", vitality: "small", stability: "none", ...more }) as LedgerLine;
const lines = [
  line("1", ["W2", "W1"]),
  line("2", [], { verdict: "remove" }),
  line("3", ["W1"], { stability: "large" }),
];

test("lines are chosen by verdict and by either answer", () => {
  const ids = (choice: Partial<typeof anything>) => matching(lines, { ...anything, ...choice }).map((one) => one.id);
  expect(ids({})).toEqual(["1", "2", "3"]);
  expect(ids({ verdict: "remove" })).toEqual(["2"]);
  expect(ids({ vitality: "small", stability: "large" })).toEqual(["3"]);
});
test("a tree stands under each work that takes from it, the untouched last", () => {
  const items = byWork(lines, ["W1", "W2", "W3"]);
  const told = items.map((item) => (item.kind === "group" ? `${item.work}:${item.count}` : item.line.id));
  expect(told).toEqual(["W1:2", "1", "3", "W2:1", "1", ":1", "2"]);
  expect(new Set(items.map((item) => item.key)).size).toBe(items.length);
});
test("arrow keys pass over heads of groups and stop at the ends", () => {
  const items = byWork(lines, ["W1", "W2"]);
  expect(lineFrom(items, -1, 1)).toBe(1);
  expect(lineFrom(items, 2, 1)).toBe(4);
  expect(lineFrom(items, 4, -1)).toBe(2);
  expect(lineFrom(items, 1, -99)).toBe(1);
  expect(lineFrom(items, 1, 99)).toBe(items.length - 1);
  expect(lineFrom(plain([]), -1, 1)).toBe(-1);
});
