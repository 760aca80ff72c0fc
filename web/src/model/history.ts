// Steps that can be undone and redone, without limit. Values are never changed in place, so that a
// step that the server refuses leaves the history as it was.
import type { Change, Sort } from "../api/editing";
import type { Shape } from "../api/names";

export interface MoveStep {
  work: string;
  before: Shape;
  after: Shape;
}
// An edit and what takes it back; each is learnt from the server when the other is made.
export interface EditStep {
  edit: string; // what was done, in the words of the page
  things: readonly string[]; // keys of what it touches
  back: readonly Change[];
  forth: readonly Change[];
}
export type Step = MoveStep | EditStep;

export interface History {
  readonly done: readonly Step[];
  readonly undone: readonly Step[];
}

export const noHistory: History = { done: [], undone: [] };
export const keyOf = (sort: Sort, id: string): string => `${sort} ${id}`;
export function keysOf(changes: readonly Change[]): string[] {
  return changes.map((change) =>
    "put" in change ? keyOf(change.put.sort, change.put.id) : keyOf(change.remove.sort, change.remove.id),
  );
}
const touched = (step: Step): readonly string[] => ("edit" in step ? step.things : [keyOf("work", step.work)]);

export function withStep(history: History, step: Step): History {
  return { done: [...history.done, step], undone: [] };
}

// `inverse` is what the server said takes the walk back; moves know it themselves.
export function afterUndo(history: History, inverse?: readonly Change[]): History {
  const step = history.done.at(-1);
  if (!step) return history;
  const next = inverse && "edit" in step ? { ...step, forth: inverse } : step;
  return { done: history.done.slice(0, -1), undone: [...history.undone, next] };
}
export function afterRedo(history: History, inverse?: readonly Change[]): History {
  const step = history.undone.at(-1);
  if (!step) return history;
  const next = inverse && "edit" in step ? { ...step, back: inverse } : step;
  return { done: [...history.done, next], undone: history.undone.slice(0, -1) };
}

// Steps of things that someone else changed can no longer be taken back: the state they would bring
// back is not what anyone left.
export function withoutThings(history: History, changed: ReadonlySet<string>): History {
  const keep = (step: Step) => !touched(step).some((key) => changed.has(key));
  return { done: history.done.filter(keep), undone: history.undone.filter(keep) };
}
