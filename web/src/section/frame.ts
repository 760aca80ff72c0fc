// From the section's metres to the sheet's pixels, and what is drawn, as plain values. Along runs to
// the right; depth runs down from the existing ground, which may itself rise and fall.
import type { SectionRoot, SectionView } from "../api/looking";
import { roundAbove } from "../words/format";

export interface Wish {
  pixels: number; // width that the drawing may take at zoom 1
  zoom: number;
  exaggeration: number; // how much taller than true the upright scale is
  from: number; // metres along the line
  to: number;
}
export interface Frame {
  from: number;
  to: number;
  top: number; // metres above the zero level, for stems and the heads of zones
  bottom: number; // metres below it
  perMetre: number; // pixels, along
  perMetreDown: number;
  width: number;
  height: number;
  x(along: number): number;
  y(level: number): number; // level: metres below the highest existing ground
  level(along: number, depth: number): number;
}

export const LEFT = 46; // pixels for the depth axis
export const RIGHT = 12;
export const FOOT_ROOM = 34; // pixels for the chainage axis
export const STEM_TOP = 0.7; // metres of stem that are drawn

type Ground = SectionView["ground"];

// Height between two known points; null where none is known.
function heightAt(ground: Ground, along: number, pick: (g: Ground[number]) => number | null): number | null {
  const known = ground.filter((g) => pick(g) !== null);
  const after = known.findIndex((g) => g.along_m >= along);
  if (known.length === 0) return null;
  if (after <= 0) return pick(after === 0 ? known[0]! : known.at(-1)!);
  const [a, b] = [known[after - 1]!, known[after]!];
  const part = (along - a.along_m) / (b.along_m - a.along_m || 1);
  return pick(a)! + part * (pick(b)! - pick(a)!);
}
export const existingAt = (ground: Ground, along: number) => heightAt(ground, along, (g) => g.existing_m);
export const proposedAt = (ground: Ground, along: number) => heightAt(ground, along, (g) => g.proposed_m);

// The level from which depths of the drawing are counted: the highest ground in sight.
export function zeroOf(ground: Ground): number {
  return ground.reduce((most, g) => Math.max(most, g.existing_m ?? -Infinity), -Infinity);
}

export function frameOf(view: SectionView, wish: Wish): Frame {
  const zero = zeroOf(view.ground);
  const level = (along: number, depth: number) => {
    const ground = existingAt(view.ground, along);
    return depth + (ground === null ? 0 : zero - ground);
  };
  const { from, to } = wish;
  const perMetre = (Math.max(60, wish.pixels - LEFT - RIGHT) / Math.max(0.1, to - from)) * wish.zoom;
  const perMetreDown = perMetre * wish.exaggeration;
  const [top, bottom] = reach(view, from, to, level);
  return {
    from,
    to,
    top,
    bottom,
    perMetre,
    perMetreDown,
    width: LEFT + (to - from) * perMetre + RIGHT,
    height: (top + bottom) * perMetreDown + FOOT_ROOM,
    x: (along) => LEFT + (along - from) * perMetre,
    y: (at) => (top + at) * perMetreDown,
    level,
  };
}

// How far up and down anything in sight reaches, and a little more.
function reach(view: SectionView, from: number, to: number, level: Frame["level"]): [number, number] {
  const seen = (a: number, b: number) => Math.max(a, b) >= from && Math.min(a, b) <= to;
  let [top, bottom] = [STEM_TOP, 1];
  const zero = zeroOf(view.ground);
  const take = (at: number) => {
    if (!Number.isFinite(at)) return;
    top = Math.max(top, -at);
    bottom = Math.max(bottom, at);
  };
  for (const g of view.ground)
    if (seen(g.along_m, g.along_m)) {
      if (g.existing_m !== null) take(zero - g.existing_m);
      if (g.proposed_m !== null) take(zero - g.proposed_m);
    }
  for (const piece of view.pieces)
    if (seen(piece.from_m, piece.to_m)) {
      take(level((piece.from_m + piece.to_m) / 2, piece.top_m));
      take(level((piece.from_m + piece.to_m) / 2, piece.bottom_m));
    }
  for (const root of view.predicted)
    if (seen(root.along_m[0]!, root.along_m[1]!)) take(level(root.along_m[0]!, Math.max(...root.depth_m)));
  for (const root of view.found) if (seen(root.along_m, root.along_m)) take(level(root.along_m, root.depth_m));
  return [top, bottom + 0.25];
}

const n = (value: number) => value.toFixed(1);

// A strip at two depths below ground that may slope between its ends.
export function strip(frame: Frame, ground: Ground, from: number, to: number, top: number, bottom: number): string {
  const between = ground.map((g) => g.along_m).filter((at) => at > from && at < to);
  const stations = [from, ...between, to];
  const edge = (depth: number) => stations.map((at) => `${n(frame.x(at))} ${n(frame.y(frame.level(at, depth)))}`);
  return `M${edge(top).join("L")}L${edge(bottom).reverse().join("L")}Z`;
}
export function groundPath(frame: Frame, ground: Ground, pick: (g: Ground[number]) => number | null): string {
  const zero = zeroOf(ground);
  const known = ground.filter((g) => pick(g) !== null);
  return known.map((g, i) => `${i === 0 ? "M" : "L"}${n(frame.x(g.along_m))} ${n(frame.y(zero - pick(g)!))}`).join("");
}

// Roots by thickness: one path a class keeps thousands of pieces quick to draw.
export const CLASSES = [
  { least: 0.05, pixels: 4.5 },
  { least: 0.025, pixels: 3 },
  { least: 0.01, pixels: 1.8 },
  { least: 0, pixels: 0.9 },
] as const;
export interface RootPath {
  least: number; // metres
  pixels: number;
  severed: boolean;
  count: number;
  path: string;
}
export const classOf = (thickness: number) => CLASSES.findIndex((one) => thickness >= one.least);

export function rootPaths(frame: Frame, roots: readonly SectionRoot[]): RootPath[] {
  const made = CLASSES.flatMap((one) => [false, true].map((severed) => ({ ...one, severed, count: 0, path: "" })));
  for (const root of roots) {
    const into = made[2 * Math.max(0, classOf(root.thickness_m)) + (root.severed ? 1 : 0)]!;
    const at = (i: number) => {
      const along = root.along_m[i]!;
      return `${n(frame.x(along))} ${n(frame.y(frame.level(along, root.depth_m[i]!)))}`;
    };
    into.count += 1;
    into.path += `M${at(0)}L${at(1)}`;
  }
  return made.filter((one) => one.count > 0);
}

// Marks of an axis at round distances, not closer than so many pixels.
export function ticks(from: number, to: number, perUnit: number, apart: number): number[] {
  const step = roundAbove(apart / perUnit);
  const first = Math.ceil(from / step - 1e-9);
  const count = Math.floor(to / step + 1e-9) - first + 1;
  return Array.from({ length: Math.max(0, count) }, (_, i) => Number(((first + i) * step).toFixed(6)));
}

// Zones lie as bars over the ground, each in the first lane that is free there.
export interface Laned<T> {
  lane: number;
  item: T;
}
export function lanes<T extends { from_m: number; to_m: number }>(items: readonly T[], gap: number): Laned<T>[] {
  const ends: number[] = [];
  return [...items]
    .sort((a, b) => a.from_m - b.from_m)
    .map((item) => {
      const free = ends.findIndex((end) => end + gap <= item.from_m);
      const lane = free >= 0 ? free : ends.length;
      ends[lane] = item.to_m;
      return { lane, item };
    });
}
