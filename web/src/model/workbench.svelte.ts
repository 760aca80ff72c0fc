// What the page knows and does: the site, both answers for every tree, the one move under way, and
// what can be undone. Components read its fields and call its verbs.
import { server as real, Trouble, type Server } from "../api/client";
import type { Answers, Assessment, Shape, Site, TreeAnswer, WorkOnPlan } from "../api/names";
import { afterRedo, afterUndo, noHistory, withoutWorks, withStep, type History, type Step } from "./history";
import { latestWins, type Latest } from "./latest";
import { moved, movedCorner, sameShape } from "./shape";

export interface Draft {
  work: string;
  shape: Shape;
}
export type Said =
  | { key: "loading" | "ready" | "trying" | "saving" | "given-up" | "nothing-changed" }
  | { key: "saved"; trees: number; work: string }
  | { key: "trouble"; kind: Trouble["kind"]; sentence: string; dropped: number };

const SETTLE_MS = 600; // after the last nudge; a burst of nudges is one step to undo

type After = (history: History, before: Shape) => History;
type ById = Readonly<Record<string, TreeAnswer>>;
const byId = (trees: readonly TreeAnswer[]): ById => Object.fromEntries(trees.map((tree) => [tree.id, tree]));

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

  #trials: Latest<Draft>;
  #settle: ReturnType<typeof setTimeout> | undefined;
  #queue: Promise<unknown> = Promise.resolve(); // saves go one after the other, each with the version before it
  #walks: Promise<unknown> = Promise.resolve();

  constructor(private readonly server: Server = real) {
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

  async load(): Promise<void> {
    const before = this.site;
    try {
      const [site, assessment] = await Promise.all([this.server.site(), this.server.assessment()]);
      this.#take(site, assessment);
      if (before) this.#dropStepsOfOthers(before);
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
    return this.#inTurn(() =>
      this.#walk(
        (history) => history.done.at(-1),
        (step) => step.before,
        afterUndo,
      ),
    );
  }
  redo(): Promise<boolean> {
    return this.#inTurn(() =>
      this.#walk(
        (history) => history.undone.at(-1),
        (step) => step.after,
        afterRedo,
      ),
    );
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
  async #walk(
    stepOf: (history: History) => Step | undefined,
    shapeOf: (step: Step) => Shape,
    after: After,
  ): Promise<boolean> {
    await this.keep(); // a nudge that waits is a step of its own
    await this.#queue;
    const step = stepOf(this.history);
    if (!step) return true;
    this.work = step.work;
    return this.#save({ work: step.work, shape: shapeOf(step) }, after);
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
    const was = new Map(before?.works.map((work) => [work.id, work.shape as Shape]));
    const changed = this.site?.works.filter((work) => {
      const old = was.get(work.id);
      return !old || !sameShape(old, work.shape as Shape);
    });
    const kept = withoutWorks(this.history, new Set(changed?.map((work) => work.id)));
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
