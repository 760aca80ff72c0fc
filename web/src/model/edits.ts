// What an edit makes of the site that is shown, and which things differ between two sites.
import type { Change, Edited } from "../api/editing";
import type { Shape, Site, WorkOnPlan } from "../api/names";
import { keyOf } from "./history";

// Works as the server answers them; trees and barriers come by loading again (`whole`).
export function worksAfter(works: readonly WorkOnPlan[], changes: readonly Change[], edited: Edited): WorkOnPlan[] {
  const gone = new Set(
    changes.flatMap((change) => ("remove" in change && change.remove.sort === "work" ? [change.remove.id] : [])),
  );
  const fresh = new Map(edited.works.map((work) => [work.id, work]));
  const kept = works.filter((work) => !gone.has(work.id) || fresh.has(work.id));
  const known = new Set(kept.map((work) => work.id));
  return [...kept.map((work) => fresh.get(work.id) ?? work), ...edited.works.filter((work) => !known.has(work.id))];
}

const plainShape = (shape: unknown) => {
  const { lines, areas, points } = shape as Shape;
  return [lines, areas, points];
};
// Each thing by its key, with all of it that a person can change.
export function thingsOf(site: Site): Map<string, string> {
  const things = new Map<string, string>();
  const put = (key: string, facts: unknown[]) => void things.set(key, JSON.stringify(facts));
  for (const w of site.works)
    put(keyOf("work", w.id), [w.name, w.kind, w.state, w.method, w.width_m, w.depth_m, plainShape(w.shape)]);
  for (const tree of site.trees ?? [])
    put(keyOf("tree", tree.id), [tree.label, tree.species, tree.at, tree.stem_diameter_m, tree.crown]);
  for (const one of site.barriers ?? []) put(keyOf("barrier", one.id), [one.name, one.kind, plainShape(one.shape)]);
  return things;
}
export function changedThings(before: Site, after: Site): Set<string> {
  const [was, is] = [thingsOf(before), thingsOf(after)];
  return new Set([...was.keys(), ...is.keys()].filter((key) => was.get(key) !== is.get(key)));
}

// The first id after the greatest number in use, so that an id taken away is not met again.
export function freeId(prefix: string, taken: readonly string[]): string {
  const numbers = taken.flatMap((id) => {
    const found = id.startsWith(prefix) ? /^\d+$/.exec(id.slice(prefix.length)) : null;
    return found ? [Number(found[0])] : [];
  });
  return `${prefix}${Math.max(0, ...numbers) + 1}`;
}
