// Plane geometry of what is drawn. Metres, x east and y north.
import type { Line, Position, Shape } from "../api/names";

export function movedLine(line: Line, dx: number, dy: number): Line {
  return line.map(([x, y]): Position => [x + dx, y + dy]);
}

export function moved(shape: Shape, dx: number, dy: number): Shape {
  return {
    lines: shape.lines.map((line) => movedLine(line, dx, dy)),
    areas: shape.areas.map((area) => area.map((ring) => movedLine(ring, dx, dy))),
    points: movedLine(shape.points, dx, dy),
  };
}

// Only the nth corner moves, counted through lines, areas and points.
export function movedCorner(shape: Shape, n: number, dx: number, dy: number): Shape {
  let i = 0;
  const one = ([x, y]: Position): Position => (i++ === n ? [x + dx, y + dy] : [x, y]);
  return {
    lines: shape.lines.map((line) => line.map(one)),
    areas: shape.areas.map((area) => area.map((ring) => ring.map(one))),
    points: shape.points.map(one),
  };
}

export function sameShape(a: Shape, b: Shape): boolean {
  return JSON.stringify([a.lines, a.areas, a.points]) === JSON.stringify([b.lines, b.areas, b.points]);
}

export function positionsOf(shape: Shape): Position[] {
  return [...shape.lines.flat(), ...shape.areas.flat(2), ...shape.points];
}

// Outline of a crown known by its radii to north, east, south and west: a quarter of an ellipse
// between each two.
export function crownOutline(at: Position, radii: readonly number[], perQuarter = 12): Line {
  const [north = 0, east = 0, south = 0, west = 0] = radii;
  const outline: Line = [];
  for (let i = 0; i < 4 * perQuarter; i += 1) {
    const angle = (i / (4 * perQuarter)) * 2 * Math.PI; // clockwise from north
    const [s, c] = [Math.sin(angle), Math.cos(angle)];
    outline.push([at[0] + s * (s >= 0 ? east : west), at[1] + c * (c >= 0 ? north : south)]);
  }
  return outline;
}

// The smallest box around positions: west, south, east, north; null of none.
export function boxOf(positions: readonly Position[]): [number, number, number, number] | null {
  if (positions.length === 0) return null;
  let box: [number, number, number, number] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of positions) {
    box = [Math.min(box[0], x), Math.min(box[1], y), Math.max(box[2], x), Math.max(box[3], y)];
  }
  return box;
}

// Rings are closed on the screen and open in the interface.
export const closed = (ring: Line): Line => (ring[0] ? [...ring, ring[0]] : ring);
export function opened(ring: Line): Line {
  const [first, last] = [ring[0], ring.at(-1)];
  const repeats = first && last && ring.length > 1 && first[0] === last[0] && first[1] === last[1];
  return repeats ? ring.slice(0, -1) : ring;
}
