// Places told by a tape: from two known points by two distances, along and aside from a line, by
// bearing and distance. Plane geometry in metres, x east and y north; bearings are degrees from
// grid north, clockwise. Exact but for rounding (about 1e-9 of the size of the coordinates).
import type { Position } from "../api/names";

export type Side = "left" | "right"; // of the way from the first point to the second

export interface Met {
  kind: "met";
  at: Position;
  // By how much an error of both tapes may grow: one over the sine of the angle at which they cross.
  growth: number;
}
export type TapeAnswer =
  | Met
  | { kind: "same" } // the two known points are one: nothing follows from them
  | { kind: "short"; by: number } // the tapes do not reach each other
  | { kind: "long"; by: number }; // one ends beyond the other's circle

const dist = (a: Position, b: Position): number => Math.hypot(b[0] - a[0], b[1] - a[1]);

export function byTwoDistances(a: Position, fromA: number, b: Position, fromB: number, side: Side): TapeAnswer {
  const base = dist(a, b);
  if (base < 1e-9) return { kind: "same" };
  if (fromA + fromB < base) return { kind: "short", by: base - fromA - fromB };
  if (Math.abs(fromA - fromB) > base) return { kind: "long", by: Math.abs(fromA - fromB) - base };
  const along = (base * base + fromA * fromA - fromB * fromB) / (2 * base);
  const aside = Math.sqrt(Math.max(0, fromA * fromA - along * along));
  const at = fromLine(a, b, along, side === "left" ? aside : -aside);
  // Twice the triangle's area is base times aside, and fromA times fromB times the sine.
  return { kind: "met", at, growth: aside > 0 ? (fromA * fromB) / (base * aside) : Infinity };
}

// `along` from a towards b, then `left` of that way; negative is to the right. `a` must not be `b`.
export function fromLine(a: Position, b: Position, along: number, left: number): Position {
  const run = dist(a, b);
  const [ux, uy] = [(b[0] - a[0]) / run, (b[1] - a[1]) / run];
  return [a[0] + along * ux - left * uy, a[1] + along * uy + left * ux];
}

export function byBearing(from: Position, degrees: number, distance: number): Position {
  const angle = (degrees * Math.PI) / 180;
  return [from[0] + distance * Math.sin(angle), from[1] + distance * Math.cos(angle)];
}

// From 0 up to, not including, 360.
export function bearing(a: Position, b: Position): number {
  const degrees = (Math.atan2(b[0] - a[0], b[1] - a[1]) * 180) / Math.PI;
  return (degrees + 360) % 360;
}
