// Two works of one: a line cut at a place, an area cut by a straight line, posts dealt out.
import type { Line, Polygon, Position, Shape } from "../api/names";
import { noShape } from "./corners";
import { footOn } from "./snap";

export type Split =
  | { kind: "split"; first: Shape; second: Shape }
  | { kind: "refused"; why: "at-end" | "many-parts" | "misses" | "many-crossings" | "hole" };

const dist = (a: Position, b: Position): number => Math.hypot(b[0] - a[0], b[1] - a[1]);
const split = (first: Partial<Shape>, second: Partial<Shape>): Split => ({
  kind: "split",
  first: { ...noShape, ...first },
  second: { ...noShape, ...second },
});

// At the place of the line that is nearest to `at`; both parts have that place.
export function splitLine(line: Line, at: Position): Split {
  const feet = line.slice(1).map((b, i) => ({ leg: i, foot: footOn(at, line[i]!, b) }));
  const best = feet.sort((a, b) => dist(at, a.foot) - dist(at, b.foot))[0];
  if (!best) return { kind: "refused", why: "many-parts" };
  const before = line.slice(0, best.leg + 1);
  const after = line.slice(best.leg + 1);
  const first = dist(before.at(-1)!, best.foot) > 1e-6 ? [...before, best.foot] : before;
  const second = dist(after[0]!, best.foot) > 1e-6 ? [best.foot, ...after] : after;
  if (first.length < 2 || second.length < 2) return { kind: "refused", why: "at-end" };
  return split({ lines: [first] }, { lines: [second] });
}

const side = (p: Position, a: Position, b: Position): number =>
  (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]);
function cutAt(p: Position, q: Position, a: Position, b: Position): Position {
  const [s, t] = [side(p, a, b), side(q, a, b)];
  const along = s / (s - t);
  return [p[0] + along * (q[0] - p[0]), p[1] + along * (q[1] - p[1])];
}

// By the endless line through a and b: what lies to its left, then what lies to its right.
export function splitArea(area: Polygon, a: Position, b: Position): Split {
  const [outline = [], ...holes] = area;
  const sides: [Line, Line] = [[], []];
  let crossings = 0;
  outline.forEach((p, i) => {
    const q = outline[(i + 1) % outline.length]!;
    const [s, t] = [side(p, a, b), side(q, a, b)];
    if (s >= 0) sides[0].push(p);
    if (s <= 0) sides[1].push(p);
    if (s * t < 0) {
      const cut = cutAt(p, q, a, b);
      sides[0].push(cut);
      sides[1].push(cut);
      crossings += 1;
    } else if (s === 0) crossings += 1;
  });
  if (crossings > 2) return { kind: "refused", why: "many-crossings" };
  if (crossings < 2 || sides.some((ring) => ring.length < 3)) return { kind: "refused", why: "misses" };
  const sorted: [Polygon, Polygon] = [[sides[0]], [sides[1]]];
  for (const hole of holes) {
    const left = hole.every((p) => side(p, a, b) > 0);
    if (!left && !hole.every((p) => side(p, a, b) < 0)) return { kind: "refused", why: "hole" };
    sorted[left ? 0 : 1].push(hole);
  }
  return split({ areas: [sorted[0]] }, { areas: [sorted[1]] });
}

// The first n points, then the others.
export function splitPoints(points: Line, n: number): Split {
  if (n < 1 || n >= points.length) return { kind: "refused", why: "at-end" };
  return split({ points: points.slice(0, n) }, { points: points.slice(n) });
}

// So far from the first point; before it and beyond the last one, those are meant.
export function placeAlong(line: Line, along: number): Position {
  let left = Math.max(0, along);
  for (let i = 1; i < line.length; i += 1) {
    const [a, b] = [line[i - 1]!, line[i]!];
    const run = dist(a, b);
    if (left <= run && run > 0) return [a[0] + (left / run) * (b[0] - a[0]), a[1] + (left / run) * (b[1] - a[1])];
    left -= run;
  }
  return line.at(-1) ?? [0, 0];
}
