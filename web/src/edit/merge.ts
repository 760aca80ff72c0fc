// A form that is open while the same thing changes elsewhere (another program, an undo, a nudge):
// what was not touched here follows, what was touched on both sides is named, nothing is lost in
// silence.
import type { Thing } from "../api/editing";
import type { Shape } from "../api/names";
import { noShape } from "../model/corners";
import { sameShape } from "../model/shape";

export interface Clash {
  field: string | null; // null: where it lies
  mine: string;
  theirs: string;
}
export interface Rebased {
  fields: Record<string, string>;
  shape: Shape;
  clashes: Clash[];
}
type Mine = Pick<Thing, "fields"> & { shape: Shape };

export function rebased(base: Thing, mine: Mine, theirs: Thing): Rebased {
  const fields: Record<string, string> = {};
  const clashes: Clash[] = [];
  for (const field of new Set([
    ...Object.keys(base.fields),
    ...Object.keys(mine.fields),
    ...Object.keys(theirs.fields),
  ])) {
    const [was, here, there] = [base, mine, theirs].map((thing) => thing.fields[field] ?? "") as [
      string,
      string,
      string,
    ];
    const touched = here !== was;
    const value = touched ? here : there;
    if (value !== "") fields[field] = value;
    if (touched && there !== was && there !== here) clashes.push({ field, mine: here, theirs: there });
  }
  const [was, there] = [base.shape ?? noShape, theirs.shape ?? noShape];
  const touched = !sameShape(mine.shape, was);
  if (touched && !sameShape(there, was) && !sameShape(there, mine.shape))
    clashes.push({ field: null, mine: "", theirs: "" });
  return { fields, shape: touched ? mine.shape : there, clashes };
}
