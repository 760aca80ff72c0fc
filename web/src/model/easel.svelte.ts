// What lies on the plan for a while: marks of what is being drawn, measured or looked over before
// it is added, pictures underneath, and who is waiting for the next place pointed out.
import { untrack } from "svelte";
import type { Position, Shape } from "../api/names";
import { snapped, targetsOf, type Snapped, type SnapTo, type Switches, type Targets } from "./snap";
import type { Site } from "../api/names";

export type MarkLook = "drawn" | "corner" | "chosen-corner" | "measured" | "told" | "incoming" | "incoming-tree";
export interface Mark {
  look: MarkLook;
  shape: Shape;
  label?: string;
}
export interface Sheet {
  id: string;
  name: string;
  opacity: number; // 0 to 1
  shown: boolean;
  image: { address: string; corners: [Position, Position, Position] } | null; // upper left, upper right, lower left
  lines: Position[][];
  fit: { misfit: number; over: number } | null; // metres, of a scan that was checked; null: was not
  assumed?: boolean; // the file names no system: it was taken to be on the project's grid
  scan: boolean; // placed by hand, not by its own coordinates
}
export interface Taker {
  take(at: Position): void;
  finish?(): void;
}

export class Easel {
  marks = $state.raw<Readonly<Record<string, readonly Mark[]>>>({}); // by who put them there
  sheets = $state.raw<readonly Sheet[]>([]);
  keeps = $state(true); // false: this browser keeps no sheets
  taker = $state.raw<Taker | null>(null);
  snap = $state.raw<Switches>({ corners: true, lines: true, stems: true });
  pointed = $state.raw<Snapped | null>(null);
  wish = $state.raw<{ box: [number, number, number, number] } | null>(null); // to be brought into sight
  #targets: Targets = { corners: [], stems: [], legs: [] };
  #site: Site | null = null;

  // Effects put their marks here: they must not wait for what they write themselves.
  put(who: string, marks: readonly Mark[]): void {
    const others = untrack(() => this.marks);
    this.marks = { ...others, [who]: marks };
  }
  clear(who: string): void {
    const { [who]: gone, ...others } = untrack(() => this.marks);
    if (gone) this.marks = others;
  }
  switchSnap(to: SnapTo, on: boolean): void {
    this.snap = { ...this.snap, [to]: on };
  }
  // `reach` in metres; `site` is what there is to be drawn to.
  aim(at: Position, reach: number, site: Site | null): Snapped {
    if (site !== this.#site) {
      this.#site = site;
      this.#targets = site ? targetsOf(site) : { corners: [], stems: [], legs: [] };
    }
    return snapped(at, this.#targets, reach, this.snap);
  }
}
