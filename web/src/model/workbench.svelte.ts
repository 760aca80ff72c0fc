// What the page knows and does: the site, both answers for every tree, the one move under way, and
// what can be undone. Components read its fields and call its verbs.
import { opening, server as real, Trouble, type Server } from "../api/client";
import {
  editing as realEditing,
  type Change,
  type Edited,
  type Editing,
  type ImportAsked,
  type Sort,
} from "../api/editing";
import type { Answers, Assessment, Shape, Site, TreeAnswer, WorkOnPlan } from "../api/names";
import type { Seen } from "./changes";
import { Easel } from "./easel.svelte";
import { changedThings, thingsOf, worksAfter } from "./edits";
import { afterRedo, afterUndo, keysOf, noHistory, withoutThings, withStep, type History } from "./history";
import { latestWins, type Latest } from "./latest";
import { opened } from "./opened";
import { moved, movedCorner, sameShape } from "./shape";

export interface Draft {
  work: string;
  shape: Shape;
}
export type Said =
  | { key: "loading" | "ready" | "trying" | "saving" | "given-up" | "nothing-changed" }
  | { key: "opening"; done: number; all: number }
  | { key: "saved"; trees: number; work: string }
  | { key: "edited"; trees: number; what: string }
  | { key: "trouble"; kind: Trouble["kind"]; sentence: string; dropped: number };

const SETTLE_MS = 600; // after the last nudge; a burst of nudges is one step to undo

type After = (history: History, before: Shape) => History;
type AfterEdit = (history: History, edited: Edited) => History;
export type Outcome = { ok: true } | { ok: false; kind: Trouble["kind"]; sentence: string };
interface EditAsked {
  what: string;
  changes: readonly Change[];
}
type ById = Readonly<Record<string, TreeAnswer>>;
const byId = (trees: readonly TreeAnswer[]): ById => Object.fromEntries(trees.map((tree) => [tree.id, tree]));

function removing(before: Site, after: Site): Change[] {
  const had = thingsOf(before);
  return [...thingsOf(after).keys()].flatMap((key) => {
    const [sort, ...id] = key.split(" ");
    return had.has(key) ? [] : [{ remove: { sort: sort as Sort, id: id.join(" ") } }];
  });
}

export class Workbench {
  site = $state.raw<Site | null>(null);
  exact = $state.raw<ById>({});
  tried = $state.raw<ById>({}); // of the move under way
  triedWork = $state.raw<WorkOnPlan | null>(null);
  exactDraws = $state(0);
  trialDraws = $state(0);
  cautions = $state.raw<readonly string[]>([]);
  tree = $state<string | null>(null);
  work = $state<string | null>(null);
  draft = $state.raw<Draft | null>(null);
  unsaved = $state.raw<Draft | null>(null); // refused or not sent; nothing a person did is dropped in silence
  history = $state.raw<History>(noHistory);
  said = $state.raw<Said>({ key: "loading" });
  saving = $state(0);
  opened = $state.raw<Seen | null>(null); // as the page was opened
  reported = $state.raw<Seen | null>(null); // as the last report was begun
  readonly easel = new Easel();

  #trials: Latest<Draft>;
  #settle: ReturnType<typeof setTimeout> | undefined;
  #queue: Promise<unknown> = Promise.resolve(); // saves go one after the other, each with the version before it
  #walks: Promise<unknown> = Promise.resolve();

  constructor(
    private readonly server: Server = real,
    readonly editing: Editing = realEditing,
  ) {
    this.#trials = latestWins(
      (draft) => this.server.trial(draft.work, draft.shape),
      (answers) => this.#showTrial(answers),
      (reason) => this.#complain(reason),
    );
  }

  answers(id: string): TreeAnswer | undefined {
    return this.tried[id] ?? this.exact[id];
  }
  workById(id: string | null): WorkOnPlan | undefined {
    return this.site?.works.find((work) => work.id === id);
  }
  shapeOf(id: string): Shape | undefined {
    return this.draft?.work === id ? this.draft.shape : (this.workById(id)?.shape as Shape | undefined);
  }

  // The first load: of a large site only once its trees are assessed.
  async open(ask: typeof opening = opening): Promise<void> {
    try {
      await opened(ask, ({ done, all }) => (this.said = { key: "opening", done, all }));
    } catch (reason) {
      return this.#complain(reason);
    }
    await this.load();
  }
  async load(): Promise<void> {
    const before = this.site;
    try {
      const [site, assessment] = await Promise.all([this.server.site(), this.server.assessment()]);
      this.#take(site, assessment);
      if (before) this.#dropStepsOfOthers(before);
      this.opened ??= this.seen();
      this.said = { key: "ready" };
    } catch (reason) {
      this.#complain(reason);
    }
  }

  chooseTree(id: string | null): void {
    this.tree = id;
  }
  chooseWork(id: string | null): void {
    if (this.draft && this.draft.work !== id) void this.keep();
    this.work = id;
  }

  // A move under way: shown and tried, not saved.
  move(work: string, shape: Shape): void {
    clearTimeout(this.#settle);
    this.draft = { work, shape };
    this.said = { key: "trying" };
    this.#trials.ask(this.draft);
  }
  nudge(dx: number, dy: number, corner: number | null = null): void {
    const work = this.workById(this.work);
    const shape = work && this.shapeOf(work.id);
    if (!work?.movable || !shape) return;
    this.move(work.id, corner === null ? moved(shape, dx, dy) : movedCorner(shape, corner, dx, dy));
    this.#settle = setTimeout(() => void this.keep(), SETTLE_MS);
  }
  giveUp(): void {
    if (!this.draft) return;
    this.#endDraft();
    this.said = { key: "given-up" };
  }
  async keep(): Promise<boolean> {
    const draft = this.draft;
    clearTimeout(this.#settle);
    if (!draft) return true;
    const before = this.workById(draft.work)?.shape as Shape | undefined;
    if (!before || sameShape(before, draft.shape)) {
      this.#endDraft();
      this.said = { key: "nothing-changed" };
      return true;
    }
    return this.#save(draft, (history, was) =>
      withStep(history, { work: draft.work, before: was, after: draft.shape }),
    );
  }

  undo(): Promise<boolean> {
    return this.#inTurn(() => this.#walk("done", afterUndo));
  }
  redo(): Promise<boolean> {
    return this.#inTurn(() => this.#walk("undone", afterRedo));
  }

  // One step to undo, whatever it holds. What is refused stays with the one who asked.
  async edit(what: string, changes: readonly Change[]): Promise<Outcome> {
    await this.keep();
    return this.#edit({ what, changes }, (history, edited) =>
      withStep(history, { edit: what, things: keysOf(changes), back: edited.inverse, forth: changes }),
    );
  }
  // A file that is added is one step too: what it brought is taken away again. `told` is null when
  // it was refused.
  async addImport(what: string, asked: ImportAsked): Promise<{ told: string[] | null; outcome: Outcome }> {
    await this.keep();
    let told: string[] | null = null;
    const outcome = await this.#turn(async () => {
      const before = this.site;
      const added = await this.editing.add(before?.version ?? "", asked);
      told = added.told;
      await this.#loadOwn();
      // Where someone saved in between, what came is not all ours: then nothing is taken back by guess.
      const ours = this.site?.version === added.version;
      const back = ours && before && this.site ? removing(before, this.site) : [];
      if (back.length > 0) this.history = withStep(this.history, { edit: what, things: keysOf(back), back, forth: [] });
      this.said = { key: "edited", trees: this.site?.trees.length ?? 0, what };
    });
    return { told, outcome };
  }
  seen(): Seen | null {
    return this.site && { site: this.site, answers: this.exact };
  }
  markReport(seen: Seen | null): void {
    this.reported = seen;
  }

  async saveUnsaved(): Promise<void> {
    const again = this.unsaved;
    if (!again) return;
    this.draft = again;
    await this.keep();
  }
  letUnsavedGo(): void {
    this.unsaved = null;
  }

  // Quick presses wait for one another: each starts from where the one before it arrived.
  #inTurn(walk: () => Promise<boolean>): Promise<boolean> {
    const turn = this.#walks.then(walk);
    this.#walks = turn;
    return turn;
  }
  async #walk(from: "done" | "undone", after: typeof afterUndo): Promise<boolean> {
    await this.keep(); // a nudge that waits is a step of its own
    await this.#queue;
    const step = this.history[from].at(-1);
    if (!step) return true;
    if ("edit" in step) {
      const changes = from === "done" ? step.back : step.forth;
      const outcome = await this.#edit({ what: step.edit, changes }, (history, { inverse }) => after(history, inverse));
      return outcome.ok;
    }
    this.work = step.work;
    const shape = from === "done" ? step.before : step.after;
    return this.#save({ work: step.work, shape }, (history) => after(history));
  }

  #edit({ what, changes }: EditAsked, after: AfterEdit): Promise<Outcome> {
    return this.#turn(async () => {
      const edited = await this.editing.edit(this.site?.version ?? "", changes);
      this.history = after(this.history, edited);
      try {
        await this.#showEdited(changes, edited);
        this.said = { key: "edited", trees: edited.trees.length, what };
      } catch (reason) {
        this.#complain(reason); // saved it is, only what is shown cannot be loaded again
      }
    });
  }
  // Saves go one after the other; what fails is told, and a conflict shows what is saved now.
  #turn(act: () => Promise<void>): Promise<Outcome> {
    this.#trials.forget();
    this.saving += 1;
    this.said = { key: "saving" };
    const turn = this.#queue.then(() =>
      act().then(
        (): Outcome => ({ ok: true }),
        (reason) => this.#notEdited(reason),
      ),
    );
    this.#queue = turn;
    return turn.finally(() => (this.saving -= 1));
  }
  async #notEdited(reason: unknown): Promise<Outcome> {
    const trouble = reason instanceof Trouble ? reason : new Trouble("broken", String(reason));
    const dropped = trouble.kind === "conflict" ? await this.#reload() : 0;
    this.#complain(trouble, dropped);
    return { ok: false, kind: trouble.kind, sentence: trouble.sentence };
  }
  async #showEdited(changes: readonly Change[], edited: Edited): Promise<void> {
    const site = this.site;
    if (!site) return;
    this.#endDraft();
    if (edited.whole) return this.#loadOwn(edited.version);
    this.exact = { ...this.exact, ...byId(edited.trees) };
    this.site = { ...site, version: edited.version, works: worksAfter(site.works, changes, edited) };
    if (!this.workById(this.work)) this.work = null;
  }
  // Loads what this page itself changed: its steps stay. Where someone saved once more in between,
  // the next save meets the version and is refused as any other.
  async #loadOwn(version?: string): Promise<void> {
    try {
      const [site, assessment] = await Promise.all([this.server.site(), this.server.assessment()]);
      this.#take(site, assessment);
    } catch (reason) {
      // Saved it is: the page must not say otherwise, only that it shows an old state.
      if (this.site && version) this.site = { ...this.site, version };
      throw reason;
    }
  }

  #save(draft: Draft, after: After): Promise<boolean> {
    this.#trials.forget();
    this.saving += 1;
    this.said = { key: "saving" };
    const turn = this.#queue.then(() => this.#put(draft, after));
    this.#queue = turn;
    return turn.finally(() => (this.saving -= 1));
  }
  async #put(draft: Draft, after: After): Promise<boolean> {
    const before = (this.workById(draft.work)?.shape as Shape | undefined) ?? draft.shape;
    try {
      const answers = await this.server.save(draft.work, this.site?.version ?? "", draft.shape);
      this.history = after(this.history, before);
      this.unsaved = null;
      this.#showSaved(answers, draft);
      return true;
    } catch (reason) {
      this.unsaved = draft;
      if (this.draft?.shape === draft.shape) this.#endDraft();
      await this.#afterRefusal(reason);
      return false;
    }
  }

  // Someone else saved first: what is saved now is shown, and the refused move can be made again.
  async #afterRefusal(reason: unknown): Promise<void> {
    const reload = reason instanceof Trouble && (reason.kind === "conflict" || reason.kind === "refused");
    const dropped = reload ? await this.#reload() : 0;
    this.#complain(reason, dropped);
  }
  async #reload(): Promise<number> {
    const before = this.site;
    try {
      const [site, assessment] = await Promise.all([this.server.site(), this.server.assessment()]);
      this.#take(site, assessment);
    } catch {
      return 0; // the first trouble is the one to tell
    }
    return this.#dropStepsOfOthers(before);
  }
  #dropStepsOfOthers(before: Site | null): number {
    const changed = before && this.site ? changedThings(before, this.site) : new Set<string>();
    const kept = withoutThings(this.history, changed);
    const steps = (history: History) => history.done.length + history.undone.length;
    const dropped = steps(this.history) - steps(kept);
    this.history = kept;
    return dropped;
  }

  #take(site: Site, assessment: Assessment): void {
    this.site = site;
    this.exact = byId(assessment.trees);
    this.exactDraws = assessment.draws;
    this.cautions = [...new Set([...site.cautions, ...assessment.cautions])];
    if (!this.workById(this.work)) this.work = null;
    if (this.tree && !site.trees.some((tree) => tree.id === this.tree)) this.tree = null;
  }
  #showTrial(answers: Answers): void {
    if (this.draft?.work !== answers.work.id) return;
    this.tried = { ...this.tried, ...byId(answers.trees) };
    this.triedWork = answers.work;
    this.trialDraws = answers.draws;
  }
  #showSaved(answers: Answers, draft: Draft): void {
    const site = this.site;
    if (!site) return;
    const works = site.works.map((work) => (work.id === answers.work.id ? answers.work : work));
    this.exact = { ...this.exact, ...byId(answers.trees) };
    // A new move may have begun while this one was saved; it goes on.
    if (!this.draft || this.draft.shape === draft.shape) this.#endDraft();
    this.site = { ...site, version: answers.version, works };
    this.said = { key: "saved", trees: answers.trees.length, work: answers.work.name || answers.work.id };
  }
  #endDraft(): void {
    clearTimeout(this.#settle);
    this.#trials.forget();
    this.draft = null;
    this.tried = {};
    this.triedWork = null;
  }
  #complain(reason: unknown, dropped = 0): void {
    const trouble = reason instanceof Trouble ? reason : new Trouble("broken", String(reason));
    this.said = { key: "trouble", kind: trouble.kind, sentence: trouble.sentence, dropped };
  }
}
