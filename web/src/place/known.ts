// Places a tape can be held to: stems, corners, gates.
import type { Position, Site } from "../api/names";
import { positionsOf } from "../model/shape";
import type { Shape } from "../api/names";

export type KnownSort = "tree" | "work" | "barrier" | "boundary" | "gate";
export interface Known {
  key: string;
  sort: KnownSort;
  name: string;
  n: number; // which corner, from 1; 0 of a stem
  at: Position;
  radius: number; // of the stem, metres; 0 of all else and where it was not measured
}

const SORTS: readonly KnownSort[] = ["tree", "work", "barrier", "boundary", "gate"];

function corners(sort: KnownSort, id: string, name: string, places: readonly Position[]): Known[] {
  return places.map((at, i) => ({ key: `${sort} ${id} ${i}`, sort, name, n: i + 1, at, radius: 0 }));
}
export function knownPlaces(site: Site): Known[] {
  const trees = site.trees.flatMap((tree): Known[] => {
    const radius = (tree.stem_diameter_m ?? 0) / 2;
    const at = tree.at as Position | null;
    return at ? [{ key: `tree ${tree.id}`, sort: "tree", name: tree.label, n: 0, at, radius }] : [];
  });
  return [
    ...trees,
    ...site.works.flatMap((one) => corners("work", one.id, one.name || one.id, positionsOf(one.shape as Shape))),
    ...site.barriers.flatMap((one) => corners("barrier", one.id, one.name || one.id, positionsOf(one.shape as Shape))),
    ...corners("boundary", "", "", (site.boundary ?? []).flat(2) as unknown as Position[]),
    ...corners("gate", "", "", (site.gates ?? []) as Position[]),
  ];
}
export function bySort(known: readonly Known[]): [KnownSort, Known[]][] {
  return SORTS.flatMap((sort): [KnownSort, Known[]][] => {
    const of = known.filter((one) => one.sort === sort);
    return of.length > 0 ? [[sort, of]] : [];
  });
}
