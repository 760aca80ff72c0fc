// Meaning is carried by pattern and line type; colour only helps. A pattern is a path in a square
// tile, used on the plan (canvas) and in the key (SVG) alike.
export interface Pattern {
  tile: number; // pixels
  path: string;
}

const plain: Pattern = { tile: 10, path: "M0 5H10" };
const patterns: Record<string, Pattern> = {
  trench: { tile: 8, path: "M-2 10L10 -2M-2 2L2 -2M6 10L10 6" },
  pit: { tile: 10, path: "M0 0L10 10M10 0L0 10" },
  cut: { tile: 10, path: "M0 5H10M5 5V9" },
  fill: { tile: 10, path: "M0 5H10M5 5V1" },
  paving: { tile: 12, path: "M0 0H12M0 6H12M3 0V6M9 6V12" },
  traffic: { tile: 12, path: "M0 2.5H6M0 5.5H6M6 8.5H12M6 11.5H12" },
  building: { tile: 6, path: "M-1 -1L7 7M5 -1L7 1M-1 5L1 7" },
  "fence posts": { tile: 6, path: "M0 3H6M3 0V6" },
  bore: { tile: 12, path: "M3 6A3 3 0 1 0 9 6A3 3 0 1 0 3 6" },
  "root cut": { tile: 4, path: "M0 2H4" },
};
const room: Pattern = { tile: 9, path: "M2 2h1.2M6.5 6.5h1.2" };

export const kindOf = (said: string): string => said.replaceAll(/[_-]/g, " ");
export const patternOf = (kind: string): Pattern => patterns[kindOf(kind)] ?? plain;
export const roomPattern: Pattern = room;

// Outline of a work by what it does: lines that dig are whole, those that press are broken.
export function outlineOf(kind: string): number[] {
  const dashes: Record<string, number[]> = { traffic: [9, 4], fill: [9, 4], paving: [14, 3], bore: [12, 3, 2, 3] };
  return dashes[kindOf(kind)] ?? [];
}
export const ROOM_DASH = [2, 4];
export const BARRIER_DASH: number[] = [];

// One line type a rule, in the order in which the rules are met.
const LINE_TYPES: readonly number[][] = [
  [],
  [10, 5],
  [2, 4],
  [12, 4, 2, 4],
  [18, 6],
  [12, 4, 2, 4, 2, 4],
  [5, 5],
  [18, 4, 6, 4],
];
export function lineTypes(rules: readonly string[]): Map<string, number[]> {
  return new Map(rules.map((rule, i) => [rule, LINE_TYPES[i % LINE_TYPES.length] ?? []]));
}

const made = new Map<string, CanvasPattern | null>();
export function canvasPattern(pattern: Pattern, colour: string): CanvasPattern | null {
  const key = `${pattern.path} ${colour}`;
  if (!made.has(key)) made.set(key, draw(pattern, colour));
  return made.get(key) ?? null;
}

function draw({ tile, path }: Pattern, colour: string): CanvasPattern | null {
  const canvas = document.createElement("canvas");
  canvas.width = tile;
  canvas.height = tile;
  const pen = canvas.getContext("2d");
  if (!pen) return null;
  pen.strokeStyle = colour;
  pen.lineWidth = 1;
  pen.stroke(new Path2D(path));
  return pen.createPattern(canvas, "repeat");
}
