// Lengths and areas of what was pointed out. Metres; plane of the project's grid, so a distance is
// a grid distance: on the ground it may differ by the scale of the projection (by about 4 in
// 10 000 in the middle of a UTM zone; from memory).
import type { Line, Position } from "../api/names";
import { bearing } from "./tape";

export interface Leg {
  length: number;
  bearing: number; // degrees from grid north
}
export function legsOf(line: Line): Leg[] {
  return line.slice(1).map((b, i) => {
    const a = line[i]!;
    return { length: Math.hypot(b[0] - a[0], b[1] - a[1]), bearing: bearing(a, b) };
  });
}
export const lengthOf = (line: Line): number => legsOf(line).reduce((sum, leg) => sum + leg.length, 0);

// Of the ring closed from its last point to its first. Counted from its first point, so that great
// coordinates cost no digits.
export function areaOf(ring: Line): number {
  const [ox, oy] = ring[0] ?? [0, 0];
  let twice = 0;
  ring.forEach(([x, y], i) => {
    const [nx, ny] = ring[(i + 1) % ring.length]!;
    twice += (x - ox) * (ny - oy) - (nx - ox) * (y - oy);
  });
  return Math.abs(twice) / 2;
}
export function roundOf(ring: Line): number {
  const first = ring[0];
  return first ? lengthOf([...ring, first]) : 0;
}

const turn = (a: Position, b: Position, c: Position): number =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
function cross(a: Position, b: Position, c: Position, d: Position): boolean {
  return turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0;
}
// A ring that crosses itself has no area worth telling.
export function crossesItself(ring: Line): boolean {
  const n = ring.length;
  for (let i = 0; i < n; i += 1)
    for (let j = i + 1; j < n; j += 1)
      if (cross(ring[i]!, ring[(i + 1) % n]!, ring[j]!, ring[(j + 1) % n]!)) return true;
  return false;
}
