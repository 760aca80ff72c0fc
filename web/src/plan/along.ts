// Marks at even distances along a line, each with the direction of the line there.
import type { Line } from "../api/names";

export interface Mark {
  at: [number, number];
  angle: number; // radians, anticlockwise from east
}
export function marksAlong(line: Line, apart: number, most = 2000): Mark[] {
  const made: Mark[] = [];
  let left = apart / 2; // to the next mark
  for (let i = 1; i < line.length; i += 1) {
    const [a, b] = [line[i - 1]!, line[i]!];
    const run = Math.hypot(b[0] - a[0], b[1] - a[1]);
    const angle = Math.atan2(b[1] - a[1], b[0] - a[0]);
    let gone = left;
    for (; gone <= run && made.length < most; gone += apart) {
      const part = gone / run;
      made.push({ at: [a[0] + part * (b[0] - a[0]), a[1] + part * (b[1] - a[1])], angle });
    }
    left = gone - run;
  }
  return made;
}
