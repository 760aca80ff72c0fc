// Steps that can be undone and redone, without limit. Values are never changed in place, so that a
// step that the server refuses leaves the history as it was.
import type { Shape } from "../api/names";

export interface Step {
  work: string;
  before: Shape;
  after: Shape;
}
export interface History {
  readonly done: readonly Step[];
  readonly undone: readonly Step[];
}

export const noHistory: History = { done: [], undone: [] };

export function withStep(history: History, step: Step): History {
  return { done: [...history.done, step], undone: [] };
}
export function afterUndo(history: History): History {
  const step = history.done.at(-1);
  return step ? { done: history.done.slice(0, -1), undone: [...history.undone, step] } : history;
}
export function afterRedo(history: History): History {
  const step = history.undone.at(-1);
  return step ? { done: [...history.done, step], undone: history.undone.slice(0, -1) } : history;
}

// Steps of works that someone else changed can no longer be taken back: the shape they would bring
// back is not what anyone left.
export function withoutWorks(history: History, works: ReadonlySet<string>): History {
  const keep = (step: Step) => !works.has(step.work);
  return { done: history.done.filter(keep), undone: history.undone.filter(keep) };
}
