// A scanned plan laid on the site by two known points: turned, scaled and moved, nothing bent.
// Pixels count right and down from the upper left; places are metres, x east and y north.
import type { Position } from "../api/names";

// x = a px + b py + x0, y = b px - a py + y0
export interface Placing {
  a: number;
  b: number;
  x0: number;
  y0: number;
}

export function placedBy(pixels: [Position, Position], places: [Position, Position]): Placing | null {
  const [dx, dy] = [pixels[1][0] - pixels[0][0], pixels[1][1] - pixels[0][1]];
  const [ex, ey] = [places[1][0] - places[0][0], places[1][1] - places[0][1]];
  const square = dx * dx + dy * dy;
  if (square === 0 || (ex === 0 && ey === 0)) return null;
  const [a, b] = [(ex * dx - ey * dy) / square, (ex * dy + ey * dx) / square];
  const [px, py] = pixels[0];
  return { a, b, x0: places[0][0] - a * px - b * py, y0: places[0][1] - b * px + a * py };
}
export function placeOf({ a, b, x0, y0 }: Placing, [px, py]: Position): Position {
  return [a * px + b * py + x0, b * px - a * py + y0];
}
export const metresPerPixel = ({ a, b }: Placing): number => Math.hypot(a, b);

export interface Misfit {
  scanned: number; // metres, as the placing has it
  by: number; // scanned less measured
  share: number; // of the measured
}
export function misfit(placing: Placing, pixels: [Position, Position], measured: number): Misfit | null {
  const run = Math.hypot(pixels[1][0] - pixels[0][0], pixels[1][1] - pixels[0][1]);
  if (!(measured > 0) || run === 0) return null;
  const scanned = run * metresPerPixel(placing);
  return { scanned, by: scanned - measured, share: (scanned - measured) / measured };
}
