// What differs between two states of the site: answers of trees, and works, trees and barriers
// that came, went or were changed. Two health answers are compared, and two stability answers;
// never one with the other.
import type { Range, Site, TreeAnswer } from "../api/names";

export interface Seen {
  site: Site;
  answers: Readonly<Record<string, TreeAnswer>>;
}
export type Aspect = "moved" | "name" | "kind" | "state" | "method" | "width" | "depth" | "stem" | "species" | "crown";
export interface ThingChange {
  sort: "tree" | "work" | "barrier";
  id: string;
  name: string;
  how: "added" | "taken" | "changed";
  aspects: { aspect: Aspect; before: string | number | null; after: string | number | null }[];
}
export interface TreeChange {
  id: string;
  label: string;
  loss: { before: Range | null; after: Range | null } | null; // null where the answer stayed
  kept: { before: Range | null; after: Range | null } | null;
  verdict: { before: string; after: string } | null;
}

const SHOWN = 0.0005; // a share smaller than what is printed is no change
function differs(a: Range | null, b: Range | null): boolean {
  if (!a || !b) return a !== b;
  return (["low", "best", "high"] as const).some((key) => Math.abs(a[key] - b[key]) >= SHOWN);
}
export function treeChanges(before: Seen, after: Seen): TreeChange[] {
  return after.site.trees.flatMap((tree) => {
    const [was, is] = [before.answers[tree.id], after.answers[tree.id]];
    if (!was || !is) return [];
    const pair = (key: "absorbing_loss" | "anchorage_kept") =>
      differs(was[key] ?? null, is[key] ?? null) ? { before: was[key] ?? null, after: is[key] ?? null } : null;
    const verdict = was.verdict === is.verdict ? null : { before: was.verdict, after: is.verdict };
    const change = {
      id: tree.id,
      label: tree.label,
      loss: pair("absorbing_loss"),
      kept: pair("anchorage_kept"),
      verdict,
    };
    return change.loss || change.kept || verdict ? [change] : [];
  });
}

type Facts = [Aspect, string | number | null][];
interface Known {
  sort: ThingChange["sort"];
  id: string;
  name: string;
  place: string; // compared, not shown
  facts: Facts;
}
function known(site: Site): Known[] {
  const trees = site.trees.map((tree): Known => ({
    sort: "tree",
    id: tree.id,
    name: tree.label,
    place: JSON.stringify(tree.at),
    facts: [
      ["species", tree.species],
      ["stem", tree.stem_diameter_m],
      ["crown", tree.crown?.join(", ") ?? null],
    ],
  }));
  const works = site.works.map((work): Known => ({
    sort: "work",
    id: work.id,
    name: work.name || work.id,
    place: JSON.stringify([work.shape.lines, work.shape.areas, work.shape.points]),
    facts: [
      ["name", work.name],
      ["kind", work.kind],
      ["state", work.state],
      ["method", work.method],
      ["width", work.width_m],
      ["depth", work.depth_m],
    ],
  }));
  const barriers = site.barriers.map((one): Known => ({
    sort: "barrier",
    id: one.id,
    name: one.name || one.id,
    place: JSON.stringify([one.shape.lines, one.shape.areas, one.shape.points]),
    facts: [
      ["name", one.name],
      ["kind", one.kind],
    ],
  }));
  return [...works, ...trees, ...barriers];
}
const keyOf = (one: Known): string => `${one.sort} ${one.id}`;

function compared(was: Known, is: Known): ThingChange[] {
  const aspects = is.facts.flatMap(([aspect, after], i) => {
    const before = was.facts[i]![1];
    return before === after ? [] : [{ aspect, before, after }];
  });
  if (was.place !== is.place) aspects.unshift({ aspect: "moved", before: null, after: null });
  return aspects.length > 0 ? [{ sort: is.sort, id: is.id, name: is.name, how: "changed", aspects }] : [];
}
export function thingChanges(before: Site, after: Site): ThingChange[] {
  const old = new Map(known(before).map((one) => [keyOf(one), one]));
  const now = new Map(known(after).map((one) => [keyOf(one), one]));
  const bare = ({ sort, id, name }: Known, how: "added" | "taken"): ThingChange => ({
    sort,
    id,
    name,
    how,
    aspects: [],
  });
  const kept = [...now].flatMap(([key, is]) => {
    const was = old.get(key);
    return was ? compared(was, is) : [bare(is, "added")];
  });
  return [...kept, ...[...old].flatMap(([key, was]) => (now.has(key) ? [] : [bare(was, "taken")]))];
}
