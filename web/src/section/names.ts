// Which work or barrier is which in the drawing: the small lie over the large, each has its number,
// and neither numbers nor the labels of stems stand on one another.
interface Piece {
  id: string;
  from_m: number;
  to_m: number;
  top_m: number;
  bottom_m: number;
}
const area = (one: Piece) => (one.to_m - one.from_m) * (one.bottom_m - one.top_m);

export const largestFirst = <P extends Piece>(pieces: readonly P[]): P[] =>
  [...pieces].sort((a, b) => area(b) - area(a));

// Counted along the line; several pieces of one work share its number.
export function numbers(pieces: readonly Piece[]): Map<string, number> {
  const along = [...pieces].sort((a, b) => a.from_m - b.from_m || a.id.localeCompare(b.id));
  const ids = [...new Set(along.map((one) => one.id))];
  return new Map(ids.map((id, i) => [id, i + 1]));
}

interface Place {
  x: number;
  y: number;
}
const APART = 18; // pixels

// In the lower left corner of each piece, farther right where another number stands there.
export function tagPlaces(pieces: readonly { left: number; right: number; foot: number }[]): Place[] {
  const placed: Place[] = [];
  for (const { left, right, foot } of pieces) {
    const y = foot - 11;
    let x = right - left < APART ? (left + right) / 2 : left + 11;
    const meets = (one: Place) => Math.abs(one.x - x) < APART && Math.abs(one.y - y) < APART;
    for (let tries = 0; tries < 40 && placed.some(meets); tries += 1) x += APART;
    placed.push({ x, y });
  }
  return placed;
}

// Heights of labels: one that would stand on those before it goes above them.
export function staggered(labels: readonly { x: number; y: number; wide: number }[]): number[] {
  const placed: { x: number; y: number; wide: number }[] = [];
  for (const label of labels) {
    let y = label.y;
    const meets = (one: (typeof placed)[number]) =>
      Math.abs(one.x - label.x) < (one.wide + label.wide) / 2 && Math.abs(one.y - y) < 13;
    for (let tries = 0; tries < 6 && placed.some(meets); tries += 1) y -= 13;
    placed.push({ ...label, y });
  }
  return placed.map((one) => one.y);
}
