import { expect, test } from "vitest";
import type { Site, TreeAnswer } from "../src/api/names";
import { thingChanges, treeChanges, type Seen } from "../src/model/changes";

const range = (best: number) => ({ low: best / 2, best, high: best * 1.5 });
const answer = (loss: number, kept: number, verdict = "keep") =>
  ({ absorbing_loss: range(loss), anchorage_kept: range(kept), verdict }) as unknown as TreeAnswer;
const shape = (x: number) => ({ lines: [], areas: [], points: [[x, 0]] });
const site = (works: unknown[], trees = [{ id: "T1", label: "1", at: [0, 0], species: "Tilia", crown: null }]): Site =>
  ({ trees, works, barriers: [] }) as unknown as Site;
const work = (id: string, x: number, depth = 1) => ({ id, name: id, kind: "pit", depth_m: depth, shape: shape(x) });
const seen = (answers: Record<string, TreeAnswer>): Seen => ({ site: site([]), answers });

test("health and stability are told apart, and only what changed", () => {
  const change = treeChanges(seen({ T1: answer(0.1, 0.6) }), seen({ T1: answer(0.2, 0.6, "remove") }))[0]!;
  expect(change.loss).toEqual({ before: range(0.1), after: range(0.2) });
  expect(change.kept).toBeNull();
  expect(change.verdict).toEqual({ before: "keep", after: "remove" });
});
test("what is smaller than is printed is no change", () => {
  expect(treeChanges(seen({ T1: answer(0.1, 0.6) }), seen({ T1: answer(0.1001, 0.6) }))).toEqual([]);
});
test("an answer that came or went is a change", () => {
  const none = { ...answer(0.1, 0.6), absorbing_loss: null } as unknown as TreeAnswer;
  expect(treeChanges(seen({ T1: answer(0.1, 0.6) }), seen({ T1: none }))[0]!.loss).toEqual({
    before: range(0.1),
    after: null,
  });
});
test("works that came, went, moved and were made deeper", () => {
  const before = site([work("A", 0), work("B", 0), work("C", 0)]);
  const after = site([work("A", 0), work("C", 5, 2), work("D", 1)]);
  const changes = thingChanges(before, after);
  expect(changes.map(({ id, how }) => `${id} ${how}`)).toEqual(["C changed", "D added", "B taken"]);
  expect(changes[0]!.aspects).toEqual([
    { aspect: "moved", before: null, after: null },
    { aspect: "depth", before: 1, after: 2 },
  ]);
  expect(thingChanges(before, before)).toEqual([]);
});
