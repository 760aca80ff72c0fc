// Which lines of a long list are drawn: those in sight, a few beyond, and those that must stay (the
// one with the focus). Gaps stand for the rest, so that the scroll bar tells the truth.
export type Part = { gap: number; after: number } | { row: number };

export interface Wanted {
  count: number;
  heightOf(row: number): number; // measured, or a guess
  top: number; // pixels scrolled
  room: number; // pixels in sight
  beyond: number; // pixels drawn above and below
  keep: readonly number[]; // rows that stay drawn
}

export function partsOf({ count, heightOf, top, room, beyond, keep }: Wanted): Part[] {
  const parts: Part[] = [];
  const kept = new Set(keep);
  const [from, to] = [top - beyond, top + room + beyond];
  let gap = 0;
  let y = 0;
  for (let row = 0; row < count; row += 1) {
    const height = heightOf(row);
    if ((y + height > from && y < to) || kept.has(row)) {
      if (gap > 0) parts.push({ gap, after: row });
      gap = 0;
      parts.push({ row });
    } else gap += height;
    y += height;
  }
  if (gap > 0) parts.push({ gap, after: count });
  return parts;
}

export function topOf(row: number, heightOf: (row: number) => number): number {
  let y = 0;
  for (let i = 0; i < row; i += 1) y += heightOf(i);
  return y;
}

// The least scrolling that brings a row into sight.
export function scrolledTo(row: number, { heightOf, top, room }: Pick<Wanted, "heightOf" | "top" | "room">): number {
  const start = topOf(row, heightOf);
  const end = start + heightOf(row);
  if (start < top) return start;
  return end > top + room ? end - room : top;
}

// Measured heights; what was not measured is taken to be as high as the others on average.
export class Heights {
  readonly #known = new Map<string, number>();
  #sum = 0;
  constructor(private readonly guess: number) {}

  of(key: string): number {
    return this.#known.get(key) ?? this.average;
  }
  get average(): number {
    return this.#known.size > 0 ? this.#sum / this.#known.size : this.guess;
  }
  // Whether anything changed that is worth drawing again.
  take(key: string, height: number): boolean {
    const was = this.#known.get(key);
    if (was !== undefined && Math.abs(was - height) < 0.5) return false;
    this.#sum += height - (was ?? 0);
    this.#known.set(key, height);
    return true;
  }
  forget(): void {
    this.#known.clear();
    this.#sum = 0;
  }
}
