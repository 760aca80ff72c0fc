// Steps of a grid of shares: which cells hold the densest half of the roots, and lines around them.
import type { RootTint } from "../api/looking";
import type { Line, Position } from "../api/names";

export const STEPS = [0.5, 0.8, 0.95] as const; // share of the absorbing roots inside each line

// The density at whose line so much of the whole lies inside.
export function levelFor(values: readonly number[], part: number): number {
  const falling = values.filter((value) => value > 0).sort((a, b) => b - a);
  const whole = falling.reduce((sum, value) => sum + value, 0);
  let inside = 0;
  for (const value of falling) {
    inside += value;
    if (inside >= part * whole - 1e-12) return value;
  }
  return Infinity;
}

type Grid = Pick<RootTint, "at" | "cell_m" | "columns" | "rows"> & { values: readonly number[] };
const valueAt = ({ columns, rows, values }: Grid, column: number, row: number): number =>
  column < 0 || row < 0 || column >= columns || row >= rows ? 0 : (values[row * columns + column] ?? 0);

// Boxes along each row where the value is at least `least` and below `most`: [west, south, east, north].
export function boxes(grid: Grid, least: number, most: number): [number, number, number, number][] {
  const made: [number, number, number, number][] = [];
  const [west, south] = grid.at as Position;
  for (let row = 0; row < grid.rows; row += 1) {
    let begin = -1;
    for (let column = 0; column <= grid.columns; column += 1) {
      const value = column < grid.columns ? valueAt(grid, column, row) : -1;
      const within = value >= least && value < most;
      if (within && begin < 0) begin = column;
      if (!within && begin >= 0) {
        const y = south + row * grid.cell_m;
        made.push([west + begin * grid.cell_m, y, west + column * grid.cell_m, y + grid.cell_m]);
        begin = -1;
      }
    }
  }
  return made;
}

// Pieces of the line of equal value between the middles of cells (marching squares); the grid is
// taken to be empty beyond its edge, so that every line closes.
export function contour(grid: Grid, level: number): Line[] {
  const made: Line[] = [];
  const [west, south] = grid.at as Position;
  const spot = (column: number, row: number): Position => [
    west + (column + 0.5) * grid.cell_m,
    south + (row + 0.5) * grid.cell_m,
  ];
  for (let row = -1; row < grid.rows; row += 1)
    for (let column = -1; column < grid.columns; column += 1) {
      const corners = [
        [column, row],
        [column + 1, row],
        [column + 1, row + 1],
        [column, row + 1],
      ] as const;
      const values = corners.map(([c, r]) => valueAt(grid, c, r));
      const cuts: Position[] = [];
      for (let k = 0; k < 4; k += 1) {
        const [a, b] = [values[k]!, values[(k + 1) % 4]!];
        if (a >= level === b >= level) continue;
        const [p, q] = [spot(...corners[k]!), spot(...corners[(k + 1) % 4]!)];
        const part = (level - a) / (b - a);
        cuts.push([p[0] + part * (q[0] - p[0]), p[1] + part * (q[1] - p[1])]);
      }
      for (let k = 0; k + 1 < cuts.length; k += 2)
        if (!same(cuts[k]!, cuts[k + 1]!)) made.push([cuts[k]!, cuts[k + 1]!]); // a corner at the level itself
    }
  return made;
}

const same = (a: Position, b: Position) => a[0] === b[0] && a[1] === b[1];

// Pieces that meet, joined to long lines: they are drawn and named as one.
export function joined(pieces: readonly Line[]): Line[] {
  const key = (p: Position) => `${p[0].toFixed(4)} ${p[1].toFixed(4)}`;
  const at = new Map<string, Set<number>>();
  pieces.forEach((piece, i) => {
    for (const end of [piece[0]!, piece.at(-1)!]) at.set(key(end), (at.get(key(end)) ?? new Set()).add(i));
  });
  const used = new Set<number>();
  const nextAt = (p: Position) => [...(at.get(key(p)) ?? [])].find((i) => !used.has(i));
  const made: Line[] = [];
  pieces.forEach((piece, i) => {
    if (used.has(i)) return;
    used.add(i);
    const line: Line = [...piece];
    for (let k = nextAt(line.at(-1)!); k !== undefined; k = nextAt(line.at(-1)!)) {
      used.add(k);
      const [a, b] = [pieces[k]![0]!, pieces[k]!.at(-1)!];
      line.push(key(a) === key(line.at(-1)!) ? b : a);
    }
    made.push(line);
  });
  return made;
}

export interface TintStep {
  part: number;
  boxes: [number, number, number, number][];
  lines: Line[];
}
export function tintSteps(tint: RootTint): TintStep[] {
  const grid: Grid = { ...tint, values: tint.share_per_m2 };
  let most = Infinity;
  return STEPS.map((part) => {
    const level = levelFor(tint.share_per_m2, part);
    const step = { part, boxes: boxes(grid, level, most), lines: joined(contour(grid, level)) };
    most = level;
    return step;
  });
}
