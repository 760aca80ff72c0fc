// What a pointed place is drawn to. Corners and stems win over lines, because they are places a
// person means; among equals the nearest wins.
import type { Line, Position, Site, Shape } from "../api/names";

export type SnapTo = "corners" | "lines" | "stems";
export type Switches = Record<SnapTo, boolean>;
export interface Targets {
  corners: Position[];
  stems: Position[];
  legs: [Position, Position][];
}
export interface Snapped {
  at: Position;
  to: SnapTo | null;
}

const dist = (a: Position, b: Position): number => Math.hypot(b[0] - a[0], b[1] - a[1]);

export function footOn(at: Position, a: Position, b: Position): Position {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const along = ((at[0] - a[0]) * dx + (at[1] - a[1]) * dy) / (dx * dx + dy * dy || 1);
  const held = Math.max(0, Math.min(1, along));
  return [a[0] + held * dx, a[1] + held * dy];
}
function nearest(at: Position, places: readonly Position[], reach: number): Position | null {
  let best: Position | null = null;
  let least = reach;
  for (const place of places) {
    const away = dist(at, place);
    if (away <= least) [best, least] = [place, away];
  }
  return best;
}

export function snapped(at: Position, targets: Targets, reach: number, on: Switches): Snapped {
  const points: [SnapTo, Position | null][] = [
    ["stems", on.stems ? nearest(at, targets.stems, reach) : null],
    ["corners", on.corners ? nearest(at, targets.corners, reach) : null],
  ];
  const found = points.flatMap(([to, place]) => (place ? [{ at: place, to }] : []));
  found.sort((a, b) => dist(at, a.at) - dist(at, b.at));
  if (found[0]) return found[0];
  const feet = on.lines ? targets.legs.map(([a, b]) => footOn(at, a, b)) : [];
  const foot = nearest(at, feet, reach);
  return foot ? { at: foot, to: "lines" } : { at, to: null };
}

const legs = (line: Line): [Position, Position][] => line.slice(1).map((b, i) => [line[i]!, b]);
const ringLegs = (ring: Line): [Position, Position][] => legs(ring[0] ? [...ring, ring[0]] : ring);
function ofShape(shape: Shape): Targets {
  return {
    stems: [],
    corners: [...shape.lines.flat(), ...shape.areas.flat(2), ...shape.points],
    legs: [...shape.lines.flatMap(legs), ...shape.areas.flat().flatMap(ringLegs)],
  };
}
export function targetsOf(site: Site): Targets {
  const boundary = { lines: [], areas: site.boundary ?? [], points: site.gates ?? [] } as unknown as Shape;
  const shapes = [...site.works.map((work) => work.shape), ...site.barriers.map((one) => one.shape), boundary];
  const all = shapes.map((shape) => ofShape(shape as Shape));
  return {
    stems: site.trees.flatMap((tree) => (tree.at ? [tree.at as Position] : [])),
    corners: all.flatMap((one) => one.corners),
    legs: all.flatMap((one) => one.legs),
  };
}
