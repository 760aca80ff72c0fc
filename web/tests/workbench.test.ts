import { expect, test, vi } from "vitest";
import { Trouble, type Server } from "../src/api/client";
import type { Answers, Assessment, Shape, Site, TreeAnswer, WorkOnPlan } from "../src/api/names";
import { Workbench } from "../src/model/workbench.svelte";

const at = (x: number, y = 0): Shape => ({ lines: [], areas: [], points: [[x, y]] });
const work = (id: string, shape: Shape, movable = true) =>
  ({ id, name: id, kind: "pit", movable, shape }) as unknown as WorkOnPlan;

// A server in memory: every save counts the version up; the answer tells where the work lies.
class Memory {
  version = 1;
  works = [work("W1", at(0)), work("W2", at(50)), work("old", at(9), false)];
  down = false;
  calls: string[] = [];

  answer = (x: number) => ({ id: "T1", label: "1", verdict: String(x), by_work: [] }) as unknown as TreeAnswer;
  answers = (work: WorkOnPlan, draws: number): Answers => ({
    version: String(this.version),
    draws,
    work,
    trees: [this.answer((work.shape as Shape).points[0]![0])],
  });
  check(): void {
    if (this.down) throw new Trouble("unreachable", "");
  }
  server: Server = {
    site: async () => (
      this.check(),
      { version: String(this.version), works: this.works, trees: [], cautions: [] } as unknown as Site
    ),
    assessment: async () => (
      this.check(),
      { trees: [this.answer(0)], draws: 1000, cautions: [] } as unknown as Assessment
    ),
    trial: async (id, shape) => {
      this.check();
      this.calls.push(`try ${shape.points[0]}`);
      return this.answers(work(id, shape), 60);
    },
    save: async (id, version, shape) => {
      await Promise.resolve();
      this.check();
      if (version !== String(this.version)) throw new Trouble("conflict", "Someone was first.");
      this.calls.push(`save ${id} ${shape.points[0]}`);
      this.version += 1;
      this.works = this.works.map((one) => (one.id === id ? work(id, shape) : one));
      return this.answers(work(id, shape), 1000);
    },
  };
}
async function opened() {
  const memory = new Memory();
  const bench = new Workbench(memory.server);
  await bench.load();
  bench.chooseWork("W1");
  return { memory, bench };
}
const xOf = (bench: Workbench, id = "W1") => (bench.workById(id)!.shape as Shape).points[0]![0];

test("a burst of nudges is tried and then saved as one step", async () => {
  vi.useFakeTimers();
  const { memory, bench } = await opened();
  for (let i = 0; i < 3; i += 1) bench.nudge(1, 0);
  expect(bench.draft?.shape).toEqual(at(3));
  await vi.advanceTimersByTimeAsync(50);
  expect([bench.answers("T1")?.verdict, bench.trialDraws]).toEqual(["3", 60]);
  expect(memory.calls).toEqual(["try 1,0", "try 3,0"]);
  await vi.advanceTimersByTimeAsync(2000);
  vi.useRealTimers();
  expect(memory.calls.at(-1)).toBe("save W1 3,0");
  expect([bench.history.done.length, bench.draft, xOf(bench)]).toEqual([1, null, 3]);
});
test("giving up saves nothing and takes the trial away", async () => {
  const { memory, bench } = await opened();
  bench.nudge(1, 0);
  await Promise.resolve();
  bench.giveUp();
  expect([bench.draft, bench.answers("T1")?.verdict, memory.version]).toEqual([null, "0", 1]);
});
test("quick undos and redos each take their own step", async () => {
  const { bench } = await opened();
  for (const x of [1, 2, 3]) {
    bench.move("W1", at(x));
    await bench.keep();
  }
  await Promise.all([bench.undo(), bench.undo(), bench.undo(), bench.undo()]);
  expect([xOf(bench), bench.history.undone.length]).toEqual([0, 3]);
  await Promise.all([bench.redo(), bench.redo()]);
  expect([xOf(bench), bench.history.done.length]).toEqual([2, 2]);
});
test("a move that waits is saved before it is undone", async () => {
  const { bench } = await opened();
  bench.nudge(5, 0);
  await bench.undo();
  expect([xOf(bench), bench.history.undone.length]).toEqual([0, 1]);
});
test("a conflict loads what was saved, keeps the move at hand and drops only foreign steps", async () => {
  const { memory, bench } = await opened();
  for (const [id, x] of [
    ["W1", 1],
    ["W2", 51],
  ] as const) {
    bench.move(id, at(x));
    await bench.keep();
  }
  memory.version += 1;
  memory.works = memory.works.map((one) => (one.id === "W2" ? work("W2", at(70)) : one));
  bench.move("W1", at(2));
  expect(await bench.keep()).toBe(false);
  expect(bench.said).toMatchObject({ key: "trouble", kind: "conflict", sentence: "Someone was first.", dropped: 1 });
  expect([xOf(bench), xOf(bench, "W2"), bench.unsaved?.shape]).toEqual([1, 70, at(2)]);
  await bench.saveUnsaved();
  expect([xOf(bench), bench.unsaved, bench.history.done.length]).toEqual([2, null, 2]);
});
test("an unreachable server changes nothing on the page", async () => {
  const { memory, bench } = await opened();
  memory.down = true;
  bench.move("W1", at(4));
  expect(await bench.keep()).toBe(false);
  expect([xOf(bench), bench.unsaved?.shape, bench.site?.works.length]).toEqual([0, at(4), 3]);
  expect(bench.said).toMatchObject({ key: "trouble", kind: "unreachable" });
});
test("what is not movable is not moved", async () => {
  const { memory, bench } = await opened();
  bench.chooseWork("old");
  bench.nudge(1, 0);
  expect([bench.draft, memory.calls]).toEqual([null, []]);
});
