// Straight scales and the paths of a line with its range.
import type { Range } from "../api/names";
import { roundAbove } from "../words/format";

export interface Point {
  at: number; // along the axis
  share: Range;
}
export type Scale = (value: number) => number;

export function scale(from: number, to: number, first: number, last: number): Scale {
  const run = to - from || 1;
  return (value) => first + ((value - from) / run) * (last - first);
}

// Round marks from nothing to `most`, at most `count` of them.
export function marks(most: number, count: number): number[] {
  if (!(most > 0)) return [0];
  const step = roundAbove(most / count);
  return Array.from({ length: Math.floor(most / step + 1e-9) + 1 }, (_, i) => Number((i * step).toPrecision(12)));
}

const n = (value: number) => value.toFixed(1);
export const linePath = (points: readonly Point[], x: Scale, y: Scale, upright = false): string =>
  points.map((p, i) => `${i === 0 ? "M" : "L"}${pair(x(p.at), y(p.share.best), upright)}`).join("");

// There and back again: low values on the way out, high ones on the way home.
export function bandPath(points: readonly Point[], x: Scale, y: Scale, upright = false): string {
  if (points.length === 0) return "";
  const out = points.map((p) => pair(x(p.at), y(p.share.low), upright));
  const home = points.map((p) => pair(x(p.at), y(p.share.high), upright)).reverse();
  return `M${[...out, ...home].join("L")}Z`;
}
// Upright: the axis runs down the sheet and the share to the right, as depth is read.
const pair = (axis: number, share: number, upright: boolean) =>
  upright ? `${n(share)} ${n(axis)}` : `${n(axis)} ${n(share)}`;

// Where the verdict changes on the way outward: the first offset of each run of one verdict.
export function runs<T extends { verdict: string }>(points: readonly T[]): { first: T; last: T }[] {
  const made: { first: T; last: T }[] = [];
  for (const point of points) {
    const run = made.at(-1);
    if (run && run.last.verdict === point.verdict) run.last = point;
    else made.push({ first: point, last: point });
  }
  return made;
}
