import { expect, test } from "vitest";
import type { Shape } from "../src/api/names";
import { afterRedo, afterUndo, noHistory, withoutThings, withStep, type Step } from "../src/model/history";

const shape = (x: number): Shape => ({ lines: [], areas: [], points: [[x, 0]] });
const step = (work: string, x: number): Step => ({ work, before: shape(x), after: shape(x + 1) });
const many = (n: number) => Array.from({ length: n }, (_, x) => step("W1", x)).reduce(withStep, noHistory);

test("a thousand steps go back and forth", () => {
  let history = many(1000);
  const full = history.done;
  for (let i = 0; i < 1000; i += 1) history = afterUndo(history);
  expect(history.done).toEqual([]);
  expect(history.undone.at(-1)).toEqual(step("W1", 0));
  for (let i = 0; i < 1000; i += 1) history = afterRedo(history);
  expect(history.done).toEqual(full);
});
test("nothing to undo or redo changes nothing", () => {
  expect(afterUndo(noHistory)).toBe(noHistory);
  expect(afterRedo(noHistory)).toBe(noHistory);
});
test("a new step ends what could be redone", () => {
  const history = withStep(afterUndo(many(3)), step("W2", 9));
  expect(history.undone).toEqual([]);
  expect(history.done).toHaveLength(3);
});
test("steps of works changed by others are dropped, others stay", () => {
  const history = afterUndo(withStep(withStep(many(1), step("W2", 5)), step("W1", 7)));
  const left = withoutThings(history, new Set(["work W1"]));
  expect(left.done).toEqual([step("W2", 5)]);
  expect(left.undone).toEqual([]);
});
test("an edit learns from the server what takes it back, each way", () => {
  const remove = [{ remove: { sort: "tree" as const, id: "T9" } }];
  const put = [{ put: { sort: "tree" as const, id: "T9", fields: {}, shape: null } }];
  const made = withStep(noHistory, { edit: "added", things: ["tree T9"], back: remove, forth: [] });
  const undone = afterUndo(made, put);
  expect(undone.undone[0]).toMatchObject({ forth: put, back: remove });
  expect(afterRedo(undone, remove).done[0]).toMatchObject({ forth: put, back: remove });
  expect(withoutThings(made, new Set(["tree T9"])).done).toEqual([]);
  expect(withoutThings(made, new Set(["work T9"])).done).toHaveLength(1);
});
