// A place told in words and numbers: what was entered becomes a position or a reason why not.
import type { Position } from "../api/names";
import { byBearing, byTwoDistances, fromLine, type Side } from "../model/tape";

export type Way = "grid" | "offset" | "bearing" | "known" | "two" | "along";
export const WAYS: readonly Way[] = ["grid", "offset", "bearing", "known", "two", "along"];

// Coordinates of the grid are large: which foot is meant makes a difference of metres there. A US
// survey foot is 1200/3937 m (from memory).
export type GridUnit = "m" | "ft" | "us-ft";
export const GRID_UNITS: Record<GridUnit, number> = { m: 1, ft: 0.3048, "us-ft": 1200 / 3937 };

export interface Anchor {
  at: Position;
  radius: number;
}
export interface Entered {
  way: Way;
  x: number | null; // grid, metres
  y: number | null;
  from: Anchor | null; // offset, bearing, known, two (first), along (first)
  towards: Anchor | null; // two (second), along (second)
  first: number | null; // metres: dx, distance, distance from the first, along
  second: number | null; // metres: dy, distance from the second, aside
  degrees: number | null;
  side: Side;
  fromBark: boolean; // the tape begins at the face of the stem
}
export type Told =
  | { kind: "at"; at: Position; other: Position | null; growth: number | null }
  | { kind: "open" } // something is not entered yet
  | { kind: "same" | "short" | "long"; by: number };

const open: Told = { kind: "open" };
const placed = (at: Position): Told => ({ kind: "at", at, other: null, growth: null });

function byTapes({ from, towards, first, second, side, fromBark }: Entered): Told {
  if (!from || !towards || first === null || second === null || first < 0 || second < 0) return open;
  const [a, b] = [first + (fromBark ? from.radius : 0), second + (fromBark ? towards.radius : 0)];
  const met = byTwoDistances(from.at, a, towards.at, b, side);
  if (met.kind === "same") return { kind: "same", by: 0 };
  if (met.kind !== "met") return met;
  const across = byTwoDistances(from.at, a, towards.at, b, side === "left" ? "right" : "left");
  return { kind: "at", at: met.at, other: across.kind === "met" ? across.at : null, growth: met.growth };
}
function byLine({ from, towards, first, second, side }: Entered): Told {
  if (!from || !towards || first === null || second === null) return open;
  if (Math.hypot(from.at[0] - towards.at[0], from.at[1] - towards.at[1]) < 1e-9) return { kind: "same", by: 0 };
  return placed(fromLine(from.at, towards.at, first, side === "left" ? second : -second));
}

export function told(entered: Entered): Told {
  const { way, x, y, from, first, second, degrees, fromBark } = entered;
  if (way === "grid") return x === null || y === null ? open : placed([x, y]);
  if (way === "two") return byTapes(entered);
  if (way === "along") return byLine(entered);
  if (!from) return open;
  if (way === "known") return placed(from.at);
  if (way === "offset")
    return first === null || second === null ? open : placed([from.at[0] + first, from.at[1] + second]);
  if (first === null || degrees === null) return open;
  return placed(byBearing(from.at, degrees, first + (fromBark ? from.radius : 0)));
}
