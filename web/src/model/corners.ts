// The corners of a shape in one count through lines, areas and points; adding and taking away.
import type { Line, Position, Shape } from "../api/names";

export type Drawn = "line" | "area" | "point";
export interface Corner {
  kind: Drawn;
  part: number;
  ring: number; // of an area; 0 is the outline, others are holes
  index: number; // within its line, ring or list of points
  at: Position;
}

export const noShape: Shape = { lines: [], areas: [], points: [] };

export function cornersOf(shape: Shape): Corner[] {
  const of = (kind: Drawn, part: number, ring: number, line: Line): Corner[] =>
    line.map((at, index) => ({ kind, part, ring, index, at }));
  return [
    ...shape.lines.flatMap((line, part) => of("line", part, 0, line)),
    ...shape.areas.flatMap((area, part) => area.flatMap((ring, r) => of("area", part, r, ring))),
    ...of("point", 0, 0, shape.points),
  ];
}

const spliced = (run: Line, from: number, gone: number, ...put: Line): Line => [
  ...run.slice(0, from),
  ...put,
  ...run.slice(from + gone),
];
function withRun(shape: Shape, corner: Corner, change: (run: Line) => Line): Shape {
  const swap = <T>(list: readonly T[], n: number, by: (old: T) => T): T[] => list.map((o, i) => (i === n ? by(o) : o));
  if (corner.kind === "point") return { ...shape, points: change(shape.points) };
  if (corner.kind === "line") return { ...shape, lines: swap(shape.lines, corner.part, change) };
  return { ...shape, areas: swap(shape.areas, corner.part, (area) => swap(area, corner.ring, change)) };
}

// After the nth corner, in the same line or ring; into an empty shape as the first of `kind`.
export function withCornerAfter(shape: Shape, n: number, at: Position, kind: Drawn): Shape {
  const corner = cornersOf(shape)[n];
  if (corner) return withRun(shape, corner, (run) => spliced(run, corner.index + 1, 0, at));
  if (kind === "line") return { ...shape, lines: [...shape.lines, [at]] };
  if (kind === "area") return { ...shape, areas: [...shape.areas, [[at]]] };
  return { ...shape, points: [...shape.points, at] };
}
export function withCornerAt(shape: Shape, n: number, at: Position): Shape {
  const corner = cornersOf(shape)[n];
  return corner ? withRun(shape, corner, (run) => spliced(run, corner.index, 1, at)) : shape;
}
// Runs that are emptied go; runs that have become too short stay and are named by `lacks`.
export function withoutCorner(shape: Shape, n: number): Shape {
  const corner = cornersOf(shape)[n];
  if (!corner) return shape;
  const left = withRun(shape, corner, (run) => spliced(run, corner.index, 1));
  return {
    lines: left.lines.filter((line) => line.length > 0),
    areas: left.areas.map((area) => area.filter((ring) => ring.length > 0)).filter((area) => area.length > 0),
    points: left.points,
  };
}

// How many corners are missing until the shape can be saved; null when none are.
export function lacks(shape: Shape): { kind: Drawn; missing: number } | null {
  const line = shape.lines.find((run) => run.length < 2);
  if (line) return { kind: "line", missing: 2 - line.length };
  const ring = shape.areas.flat().find((run) => run.length < 3);
  if (ring) return { kind: "area", missing: 3 - ring.length };
  return cornersOf(shape).length === 0 ? { kind: "point", missing: 1 } : null;
}
