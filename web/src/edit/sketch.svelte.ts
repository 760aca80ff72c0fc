// The one thing that is being added or changed: its fields as texts, its corners, what it was.
import type { Change, Sort, Thing } from "../api/editing";
import type { Position, Shape } from "../api/names";
import { cornersOf, noShape, withCornerAfter, withCornerAt, withoutCorner, type Drawn } from "../model/corners";
import { sameShape } from "../model/shape";
import { rebased, type Clash } from "./merge";

// How a kind of work is usually drawn; any other way may be chosen (docs/formats/column-map.md).
const DRAWN_AS: Record<string, Drawn> = { trench: "line", bore: "line", "root cut": "line", "fence posts": "line" };
export const drawnAs = (kind: string): Drawn => DRAWN_AS[kind.replaceAll(/[_-]/g, " ")] ?? "area";

export class Sketch {
  readonly isNew: boolean;
  fields = $state.raw<Readonly<Record<string, string>>>({});
  shape = $state.raw<Shape>(noShape);
  drawn = $state<Drawn>("line");
  corner = $state(-1); // new corners come after this one
  clashes = $state.raw<readonly Clash[]>([]);
  #base: Thing;

  constructor(
    readonly sort: Sort,
    readonly id: string,
    stored: Thing | null,
  ) {
    this.isNew = stored === null;
    this.#base = stored ?? { sort, id, fields: {}, shape: null };
    this.fields = this.#base.fields;
    this.shape = this.#base.shape ?? noShape;
    this.drawn = sort === "tree" ? "point" : (cornersOf(this.shape)[0]?.kind ?? "line");
    this.corner = cornersOf(this.shape).length - 1;
  }

  setField(name: string, value: string): void {
    const { [name]: _, ...others } = this.fields;
    this.fields = value === "" ? others : { ...others, [name]: value };
    if (name === "kind" && this.sort === "work" && cornersOf(this.shape).length === 0) this.drawn = drawnAs(value);
  }
  // A tree stands in one place: a second one takes the place of the first.
  put(at: Position): void {
    if (this.sort === "tree") {
      this.shape = { ...noShape, points: [at] };
      this.corner = 0;
      return;
    }
    const last = cornersOf(this.shape)[this.corner]?.at;
    if (last && last[0] === at[0] && last[1] === at[1]) return; // a double click is one corner
    this.shape = withCornerAfter(this.shape, this.corner, at, this.drawn);
    this.corner += 1;
  }
  setCorner(n: number, at: Position): void {
    this.shape = withCornerAt(this.shape, n, at);
  }
  removeCorner(n: number): void {
    this.shape = withoutCorner(this.shape, n);
    const count = cornersOf(this.shape).length;
    this.corner = Math.min(this.corner >= n ? this.corner - 1 : this.corner, count - 1);
    if (this.corner < 0 && count > 0) this.corner = 0;
  }

  get last(): Position | null {
    return cornersOf(this.shape)[this.corner]?.at ?? null;
  }
  get touched(): boolean {
    const [was, is] = [this.#base.fields, this.fields];
    const keys = new Set([...Object.keys(was), ...Object.keys(is)]);
    return (
      [...keys].some((key) => (was[key] ?? "") !== (is[key] ?? "")) ||
      !sameShape(this.#base.shape ?? noShape, this.shape)
    );
  }
  change(): Change {
    const nowhere = cornersOf(this.shape).length === 0;
    const { sort, id, fields, shape } = this;
    return { put: { sort, id, fields: { ...fields }, shape: nowhere ? null : shape } };
  }
  // `theirs` is what is stored now; called whenever the project has another version.
  follow(theirs: Thing): void {
    const next = rebased(this.#base, { fields: { ...this.fields }, shape: this.shape }, theirs);
    this.#base = theirs;
    this.fields = next.fields;
    this.shape = next.shape;
    this.corner = Math.min(this.corner, cornersOf(this.shape).length - 1);
    this.clashes = [...this.clashes, ...next.clashes];
  }
  takeTheirs(clash: Clash): void {
    if (clash.field === null) this.shape = this.#base.shape ?? noShape;
    else this.setField(clash.field, this.#base.fields[clash.field] ?? "");
    this.clashes = this.clashes.filter((one) => one !== clash);
  }
  keepMine(clash: Clash): void {
    this.clashes = this.clashes.filter((one) => one !== clash);
  }
}
