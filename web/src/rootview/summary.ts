// The root system in words and figures, for those who cannot see the drawing, and the drawing as
// flat lines for those whose browser cannot turn it.
import type { RootSystem } from "../api/looking";
import { CLASSES, classOf } from "../section/frame";
import { placer } from "./meshes";

export interface ClassSum {
  least: number; // metres
  pieces: number;
  length: number; // metres
  severed: number; // metres of it
  deepest: number;
}
const lengthOf = (a: readonly number[], b: readonly number[]) =>
  Math.hypot(b[0]! - a[0]!, b[1]! - a[1]!, b[2]! - a[2]!);

export function summary(pieces: RootSystem["pieces"]): ClassSum[] {
  const sums = CLASSES.map(({ least }) => ({ least, pieces: 0, length: 0, severed: 0, deepest: 0 }));
  for (const piece of pieces) {
    const sum = sums[Math.max(0, classOf(Math.max(...piece.thickness_m)))]!;
    const length = lengthOf(piece.from, piece.to);
    sum.pieces += 1;
    sum.length += length;
    if (piece.severed) sum.severed += length;
    sum.deepest = Math.max(sum.deepest, piece.from[2]!, piece.to[2]!);
  }
  return sums.filter((sum) => sum.pieces > 0);
}

export interface FlatPath {
  pixels: number;
  severed: boolean;
  path: string;
}
type Facing = "plan" | "elevation";
export function flatPaths(system: RootSystem, facing: Facing, perMetre: number): FlatPath[] {
  const place = placer(system);
  const made = CLASSES.flatMap(({ pixels }) => [false, true].map((severed) => ({ pixels, severed, path: "" })));
  const point = (p: readonly number[]) => {
    const [x, up, south] = place(p[0]!, p[1]!, p[2]!);
    return `${(x * perMetre).toFixed(1)} ${((facing === "plan" ? south : -up) * perMetre).toFixed(1)}`;
  };
  for (const piece of system.pieces) {
    const at = 2 * Math.max(0, classOf(Math.max(...piece.thickness_m))) + (piece.severed ? 1 : 0);
    made[at]!.path += `M${point(piece.from)}L${point(piece.to)}`;
  }
  return made.filter((one) => one.path !== "");
}
// Outlines of works and barriers, seen the same way.
export function flatBlocks(system: RootSystem, facing: Facing, perMetre: number): { name: string; path: string }[] {
  const place = placer(system);
  const n = (value: number) => (value * perMetre).toFixed(1);
  return [...system.works, ...system.barriers].map((block) => {
    const rings = block.areas.flat() as number[][][];
    if (facing === "plan") {
      const ring = (one: number[][]) => one.map((p) => place(p[0]!, p[1]!, 0)).map((p) => `${n(p[0])} ${n(p[2])}`);
      return { name: block.name || block.id, path: rings.map((one) => `M${ring(one).join("L")}Z`).join("") };
    }
    const path = rings
      .map((one) => {
        const xs = one.map((p) => place(p[0]!, p[1]!, 0)[0]);
        const [a, b] = [n(Math.min(...xs)), n(Math.max(...xs))];
        return `M${a} ${n(block.top_m)}H${b}V${n(block.bottom_m)}H${a}Z`;
      })
      .join("");
    return { name: block.name || block.id, path };
  });
}
