// From pieces of roots to a few long arrays of numbers, so that thousands of pieces are drawn at
// once. Positions are metres from the foot of the stem: east +x, up +y, north -z.
import type { Block, GroundGrid, RootPiece, RootSystem } from "../api/looking";

export const THIN = 0.008; // metres; below, a tube would be thinner than a line on the screen

export interface Mesh {
  positions: Float32Array;
  normals: Float32Array;
}
export interface RootMeshes {
  tubes: Mesh; // roots that stay
  lines: Float32Array; // centre lines of all that stay: none vanishes when seen from far
  severed: Float32Array; // cages and lines, drawn broken: distinct without any colour
  reach: number; // metres from the stem to the farthest piece
}
type Spot = readonly [number, number, number];

// Height of the ground over the foot of the stem; 0 where it is not known.
export function relief(ground: GroundGrid | null, at: readonly number[]): (x: number, y: number) => number {
  if (!ground) return () => 0;
  const height = (x: number, y: number): number | null => {
    const column = Math.round((x - ground.at[0]!) / ground.cell_m);
    const row = Math.round((y - ground.at[1]!) / ground.cell_m);
    if (column < 0 || row < 0 || column >= ground.columns || row >= ground.rows) return null;
    return ground.height_m[row * ground.columns + column] ?? null;
  };
  const zero = height(at[0]!, at[1]!);
  return (x, y) => (zero === null ? 0 : (height(x, y) ?? zero) - zero);
}

export function placer(system: Pick<RootSystem, "stem" | "ground">): (x: number, y: number, depth: number) => Spot {
  const [ox, oy] = [system.stem.at[0]!, system.stem.at[1]!];
  const rise = relief(system.ground, system.stem.at);
  return (x, y, depth) => [x - ox, rise(x, y) - depth, oy - y];
}

const minus = (a: Spot, b: Spot): Spot => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const cross = (a: Spot, b: Spot): Spot => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
function unit(a: Spot): Spot {
  const length = Math.hypot(...a) || 1;
  return [a[0] / length, a[1] / length, a[2] / length];
}

// Directions around a piece, at right angles to it.
export function spokes(a: Spot, b: Spot, sides: number): Spot[] {
  const along = unit(minus(b, a));
  const aside = unit(cross(along, Math.abs(along[1]) > 0.9 ? [1, 0, 0] : [0, 1, 0]));
  const over = cross(along, aside);
  return Array.from({ length: sides }, (_, i) => {
    const angle = (i / sides) * 2 * Math.PI;
    const [s, c] = [Math.sin(angle), Math.cos(angle)];
    return [c * aside[0] + s * over[0], c * aside[1] + s * over[1], c * aside[2] + s * over[2]];
  });
}
const out = (a: Spot, spoke: Spot, radius: number): Spot => [
  a[0] + spoke[0] * radius,
  a[1] + spoke[1] * radius,
  a[2] + spoke[2] * radius,
];

const SIDES = 6;
function addTube(positions: number[], normals: number[], a: Spot, b: Spot, radii: readonly number[]): void {
  const around = spokes(a, b, SIDES);
  for (let i = 0; i < SIDES; i += 1) {
    const [p, q] = [around[i]!, around[(i + 1) % SIDES]!];
    const corners = [out(a, p, radii[0]!), out(a, q, radii[0]!), out(b, q, radii[1]!), out(b, p, radii[1]!)];
    for (const k of [0, 1, 2, 0, 2, 3]) positions.push(...corners[k]!);
    for (const spoke of [p, q, q, p, q, p]) normals.push(...spoke);
  }
}
function addCage(lines: number[], a: Spot, b: Spot, radii: readonly number[]): void {
  const around = spokes(a, b, 4);
  for (const spoke of around) lines.push(...out(a, spoke, radii[0]!), ...out(b, spoke, radii[1]!));
}

export function rootMeshes(system: Pick<RootSystem, "stem" | "ground" | "pieces">): RootMeshes {
  const place = placer(system);
  const [positions, normals, lines, severed]: number[][] = [[], [], [], []];
  let reach = 1;
  for (const piece of system.pieces) {
    const [a, b] = endsOf(piece, place);
    const radii = piece.thickness_m.map((one) => one / 2);
    const thick = Math.max(...piece.thickness_m) >= THIN;
    reach = Math.max(reach, Math.hypot(b[0], b[2]));
    if (piece.severed && thick) addCage(severed!, a, b, radii);
    else if (piece.severed) severed!.push(...a, ...b);
    else {
      lines!.push(...a, ...b);
      if (thick) addTube(positions!, normals!, a, b, radii);
    }
  }
  return {
    tubes: { positions: new Float32Array(positions!), normals: new Float32Array(normals!) },
    lines: new Float32Array(lines!),
    severed: new Float32Array(severed!),
    reach,
  };
}
type Place = ReturnType<typeof placer>;
const endsOf = (piece: RootPiece, place: Place): [Spot, Spot] => [
  place(piece.from[0]!, piece.from[1]!, piece.from[2]!),
  place(piece.to[0]!, piece.to[1]!, piece.to[2]!),
];

// Edges of what a work or a barrier takes: both outlines and the uprights between them.
export function blockEdges(block: Block, place: Place): Float32Array {
  const made: number[] = [];
  for (const ring of block.areas.flat() as number[][][]) {
    ring.forEach((corner, i) => {
      const next = ring[(i + 1) % ring.length]!;
      const at = (p: number[], depth: number) => place(p[0]!, p[1]!, depth);
      made.push(...at(corner, block.top_m), ...at(next, block.top_m));
      made.push(...at(corner, block.bottom_m), ...at(next, block.bottom_m));
      made.push(...at(corner, block.top_m), ...at(corner, block.bottom_m));
    });
  }
  return new Float32Array(made);
}
// Its upright sides, as triangles.
export function blockSides(block: Block, place: Place): Float32Array {
  const made: number[] = [];
  for (const ring of block.areas.flat() as number[][][]) {
    ring.forEach((corner, i) => {
      const next = ring[(i + 1) % ring.length]!;
      const at = (p: number[], depth: number) => place(p[0]!, p[1]!, depth);
      const [a, b] = [at(corner, block.top_m), at(next, block.top_m)];
      const [c, d] = [at(next, block.bottom_m), at(corner, block.bottom_m)];
      made.push(...a, ...b, ...c, ...a, ...c, ...d);
    });
  }
  return new Float32Array(made);
}

// The soil surface as a net whose meshes are one metre wide.
export function surfaceNet(system: Pick<RootSystem, "stem" | "ground">, reach: number, mesh = 1): Float32Array {
  const place = placer(system);
  const [ox, oy] = [system.stem.at[0]!, system.stem.at[1]!];
  const half = Math.ceil((reach + 0.5) / mesh);
  const made: number[] = [];
  const at = (i: number, k: number) => place(ox + i * mesh, oy + k * mesh, 0);
  for (let i = -half; i <= half; i += 1)
    for (let k = -half; k < half; k += 1) {
      made.push(...at(i, k), ...at(i, k + 1));
      made.push(...at(k, i), ...at(k + 1, i));
    }
  return new Float32Array(made);
}
