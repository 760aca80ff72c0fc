// What is looked at beside the plan: which view is open, and what each of them shows. Only what is
// in sight is asked of the server.
import { looking as real, type Figure, type Looking, type SectionAsked } from "../api/looking";
import type { Offsets, Protection, RootProfiles, RootSystem, RootTint, SectionView, TreeSheet } from "../api/looking";
import type { Line, Position, Shape } from "../api/names";
import type { Workbench } from "../model/workbench.svelte";
import { lineAcross } from "../section/line";
import { Asked } from "./asked.svelte";

export const TABS = ["sheet", "section", "roots", "charts"] as const;
export type Tab = (typeof TABS)[number];
export const LAYERS = ["tint", "protection", "evidence"] as const;
export type Layer = (typeof LAYERS)[number];

export class Views {
  tab = $state<Tab>("sheet");
  large = $state(false);
  layers = $state<Record<Layer, boolean>>({ tint: true, protection: false, evidence: true });
  line = $state.raw<Line | null>(null); // a section line of one's own; null: along the chosen work
  drawing = $state(false); // the next two points set on the plan are the section line
  trail = $state.raw<Figure | null>(null);

  readonly sheet = new Asked<TreeSheet>();
  readonly roots = new Asked<RootSystem>();
  readonly tint = new Asked<RootTint>();
  readonly profiles = new Asked<RootProfiles>();
  readonly section = new Asked<SectionView>();
  readonly offsets = new Asked<Offsets>();
  readonly protection = new Asked<Protection>();

  constructor(
    readonly bench: Workbench,
    private readonly server: Looking = real,
  ) {}

  get version(): string {
    return this.bench.site?.version ?? "";
  }
  // The tree that the open view tells of: a palm or a tree without a place is one as well.
  get tree() {
    return this.bench.site?.trees.find((one) => one.id === this.bench.tree);
  }

  // A tree chosen opens its sheet unless a view is open that tells of one tree itself; a work
  // chosen opens the section where no tree is looked at.
  treeChosen(id: string | null): void {
    if (id && this.tab === "section") this.tab = "sheet";
  }
  workChosen(id: string | null): void {
    this.line = null;
    if (id && this.tab === "sheet" && !this.bench.tree) this.tab = "section";
  }

  askSheet = (): void => this.#ofTree(this.sheet, (id) => this.server.tree(id));
  askRoots = (): void => this.#ofTree(this.roots, (id) => this.server.roots(id));
  askTint = (): void => this.#ofTree(this.tint, (id) => this.server.tint(id));
  askProfiles = (): void => this.#ofTree(this.profiles, (id) => this.server.profiles(id));
  askOffsets = (): void => {
    const { tree, work } = this.bench;
    if (!tree || !work) return this.offsets.clear();
    this.offsets.ask({ about: `${work}\n${tree}`, version: this.version }, () => this.server.offsets(work, tree));
  };
  askProtection = (): void =>
    this.protection.ask({ about: "site", version: this.version }, () => this.server.protection());
  askSection = (): void => {
    const asked = this.#sectionAsked();
    if (!asked) return this.section.clear();
    this.section.ask({ about: JSON.stringify(asked), version: this.version }, () => this.server.section(asked));
  };

  // Along the line of one's own or of the work; works without a line are cut across.
  #sectionAsked(): SectionAsked | null {
    if (this.line) return { line: this.line };
    const work = this.bench.workById(this.bench.work);
    if (!work) return null;
    const shape = work.shape as Shape;
    if (shape.lines.length > 0) return { work: work.id };
    const line = lineAcross(shape, (this.tree?.at as Position | null | undefined) ?? null);
    return line && { line };
  }

  takeLine(line: Line): void {
    this.drawing = false;
    if (!sameplace(line[0], line.at(-1))) this.line = line;
  }

  #ofTree<A>(asked: Asked<A>, send: (id: string) => Promise<A>): void {
    const id = this.bench.tree;
    if (!id) return asked.clear();
    asked.ask({ about: id, version: this.version }, () => send(id));
  }
}

function sameplace(a: Position | undefined, b: Position | undefined): boolean {
  return !a || !b || Math.hypot(a[0] - b[0], a[1] - b[1]) < 0.05;
}
