import { expect, test } from "vitest";
import type { TreeAnswer } from "../src/api/names";
import { filtered, sorted, worstWork, type Column, type LedgerLine } from "../src/ledger/lines";
import { directionOf } from "../src/works/direction";

const range = (best: number) => ({ low: best / 2, best, high: best * 1.5 });
function line(label: string, more: Partial<LedgerLine> = {}): LedgerLine {
  return {
    id: label,
    label,
    species: "",
    loss: null,
    kept: null,
    largeLoss: null,
    largeReduction: null,
    vitality: "",
    stability: "",
    verdict: "keep",
    worst: "",
    worstShare: 0,
    works: [],
    ...more,
  };
}
const lines = [
  line("10", {
    species: "Tilia",
    loss: range(0.2),
    kept: range(0.9),
    verdict: "remove",
    worst: "Main",
    worstShare: 0.1,
  }),
  line("2", { species: "Acer", loss: range(0.3), kept: range(0.5) }),
  line("1", { species: "Quercus", verdict: "keep with measures" }),
];
const order = (column: Column, down = false) => sorted(lines, { column, down }, "en").map((one) => one.label);

test("labels sort as numbers, answers by their best, verdicts by how severe they are", () => {
  expect(order("label")).toEqual(["1", "2", "10"]);
  expect(order("species")).toEqual(["2", "1", "10"]);
  expect(order("loss", true)).toEqual(["2", "10", "1"]);
  expect(order("kept")).toEqual(["1", "2", "10"]);
  expect(order("verdict")).toEqual(["2", "1", "10"]);
  expect(order("worst", true)).toEqual(["10", "1", "2"]);
});
test("every word of the filter must occur", () => {
  const shown = (one: LedgerLine) => `${one.label} ${one.species} ${one.verdict}`;
  expect(filtered(lines, "KEEP quer", shown).map((one) => one.label)).toEqual(["1"]);
  expect(filtered(lines, " ", shown)).toHaveLength(3);
  expect(filtered(lines, "palm", shown)).toEqual([]);
});
test("the worst work is the largest best loss of what does not stand yet", () => {
  const part = (work: string, best: number | null, existing = false) => ({
    work,
    affected_m2: 1,
    existing,
    absorbing_loss: best === null ? null : range(best),
  });
  const by = (...by_work: TreeAnswer["by_work"]) => worstWork({ by_work } as TreeAnswer);
  expect(by(part("a", 0.1), part("b", 0.3), part("old", 0.9, true), part("c", null))).toEqual({
    work: "b",
    share: 0.3,
  });
  expect(by()).toBeNull();
});
test("arrow keys are directions unless the browser needs them", () => {
  const key = (name: string, altKey = false) => directionOf({ key: name, altKey, ctrlKey: false, metaKey: false });
  expect(key("ArrowUp")).toEqual([0, 1]);
  expect(key("ArrowLeft")).toEqual([-1, 0]);
  expect(key("ArrowLeft", true)).toBeUndefined();
  expect(key("a")).toBeUndefined();
});
