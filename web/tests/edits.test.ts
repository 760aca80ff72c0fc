import { expect, test } from "vitest";
import { Trouble, type Server } from "../src/api/client";
import type { Change, Edited, Editing, Thing } from "../src/api/editing";
import type { Assessment, Shape, Site, WorkOnPlan } from "../src/api/names";
import { changedThings, freeId, worksAfter } from "../src/model/edits";
import { Workbench } from "../src/model/workbench.svelte";

const at = (x: number): Shape => ({ lines: [], areas: [], points: [[x, 0]] });
const work = (id: string, x: number, depth = 1) =>
  ({ id, name: id, kind: "pit", movable: true, depth_m: depth, shape: at(x) }) as unknown as WorkOnPlan;
const thing = (id: string, x: number, depth: string): Thing => ({ sort: "work", id, fields: { depth }, shape: at(x) });

// A server in memory that knows works, and trees by their ids only.
class Memory {
  version = 1;
  things = new Map([["W1", thing("W1", 0, "1 m")], ["W2", thing("W2", 50, "1 m")]]); // prettier-ignore
  trees: string[] = ["T1"];
  refuse: Trouble | null = null;
  loadsFail = false;

  works = () =>
    [...this.things.values()].map((one) =>
      work(one.id, one.shape!.points[0]![0], Number.parseFloat(one.fields.depth!)),
    );
  site = (): Site =>
    ({
      version: String(this.version),
      works: this.works(),
      trees: this.trees.map((id) => ({ id, label: id, at: [0, 0], crown: null })),
      barriers: [],
      cautions: [],
    }) as unknown as Site;
  apply(change: Change): Change {
    const [sort, id] = "put" in change ? [change.put.sort, change.put.id] : [change.remove.sort, change.remove.id];
    const remove: Change = { remove: { sort, id } };
    if (sort === "tree") {
      this.trees = "put" in change ? [...this.trees, id] : this.trees.filter((tree) => tree !== id);
      return "put" in change ? remove : { put: { sort, id, fields: {}, shape: null } };
    }
    const old = this.things.get(id);
    if ("put" in change) this.things.set(id, change.put);
    else this.things.delete(id);
    return old ? { put: old } : remove;
  }
  server = {
    site: async () => {
      if (this.loadsFail) throw new Trouble("unreachable", "");
      return this.site();
    },
    assessment: async () => ({ trees: [], draws: 1000, cautions: [] }) as unknown as Assessment,
  } as unknown as Server;
  editing = {
    edit: async (version: string, changes: readonly Change[]): Promise<Edited> => {
      if (this.refuse) throw this.refuse;
      if (version !== String(this.version)) throw new Trouble("conflict", "Someone was first.");
      this.version += 1;
      const inverse = changes.map((change) => this.apply(change)).reverse();
      const whole = changes.some((change) => ("put" in change ? change.put : change.remove).sort !== "work");
      const ids = changes.flatMap((change) => ("put" in change ? [change.put.id] : []));
      const works = this.works().filter((one) => ids.includes(one.id));
      return { version: String(this.version), draws: 1000, inverse, works, whole, trees: [] };
    },
    add: async () => {
      this.version += 1;
      this.trees = [...this.trees, "T2", "T3"];
      return { version: String(this.version), told: ["2 trees"] };
    },
  } as unknown as Editing;
}
async function opened() {
  const memory = new Memory();
  const bench = new Workbench(memory.server, memory.editing);
  await bench.load();
  return { memory, bench };
}
const ids = (bench: Workbench) => bench.site!.works.map((one) => one.id);

test("adding, changing, splitting and taking away are each one step, back and forth", async () => {
  const { bench } = await opened();
  const start = JSON.stringify(bench.site!.works);
  await bench.edit("add", [{ put: thing("W3", 9, "2 m") }]);
  await bench.edit("deeper", [{ put: thing("W1", 0, "3 m") }]);
  await bench.edit("split", [{ put: thing("W2", 50, "1 m") }, { put: thing("W4", 60, "1 m") }]);
  await bench.edit("away", [{ remove: { sort: "work", id: "W3" } }]);
  const end = JSON.stringify(bench.site!.works);
  expect(ids(bench)).toEqual(["W1", "W2", "W4"]);
  for (let i = 0; i < 4; i += 1) await bench.undo();
  expect(JSON.stringify(bench.site!.works)).toBe(start);
  for (let i = 0; i < 4; i += 1) await bench.redo();
  expect(JSON.stringify(bench.site!.works)).toBe(end);
  expect(bench.history.done).toHaveLength(4);
});
test("what is refused stays out of the history and says why", async () => {
  const { memory, bench } = await opened();
  memory.refuse = new Trouble("refused", "The depth must be above zero.");
  expect(await bench.edit("x", [{ put: thing("W1", 0, "0 m") }])).toEqual({
    ok: false,
    kind: "refused",
    sentence: "The depth must be above zero.",
  });
  expect(bench.history.done).toEqual([]);
});
test("a conflict shows what is saved now and drops only steps of what others changed", async () => {
  const { memory, bench } = await opened();
  await bench.edit("a", [{ put: thing("W1", 1, "1 m") }]);
  await bench.edit("b", [{ put: thing("W2", 51, "1 m") }]);
  memory.version += 1;
  memory.things.set("W2", thing("W2", 70, "1 m"));
  expect(await bench.edit("c", [{ put: thing("W1", 2, "1 m") }])).toMatchObject({ ok: false, kind: "conflict" });
  expect(bench.said).toMatchObject({ key: "trouble", kind: "conflict", dropped: 1 });
  expect(bench.history.done).toHaveLength(1);
  expect((await bench.edit("c", [{ put: thing("W1", 2, "1 m") }])).ok).toBe(true);
});
test("a tree that is added is loaded and its step stays", async () => {
  const { bench } = await opened();
  await bench.edit("tree", [{ put: { sort: "tree", id: "T2", fields: {}, shape: null } }]);
  expect([bench.site!.trees.length, bench.history.done.length]).toEqual([2, 1]);
  await bench.undo();
  expect([bench.site!.trees.length, bench.history.undone.length]).toEqual([1, 1]);
  await bench.redo();
  expect(bench.site!.trees).toHaveLength(2);
});
test("what is saved counts as saved even where it cannot be loaded again", async () => {
  const { memory, bench } = await opened();
  memory.loadsFail = true;
  const outcome = await bench.edit("tree", [{ put: { sort: "tree", id: "T2", fields: {}, shape: null } }]);
  expect([outcome.ok, bench.history.done.length, bench.said.key]).toEqual([true, 1, "trouble"]);
  memory.loadsFail = false;
  expect((await bench.edit("a", [{ put: thing("W1", 1, "1 m") }])).ok).toBe(true); // the version went along
});
test("a file that is added is one step: what it brought is taken away again", async () => {
  const { bench } = await opened();
  const { told } = await bench.addImport("file", { file: { name: "a.csv", base64: "" } });
  expect([told, bench.site!.trees.length]).toEqual([["2 trees"], 3]);
  await bench.undo();
  expect(bench.site!.trees).toHaveLength(1);
  await bench.redo();
  expect(bench.site!.trees).toHaveLength(3);
});
test("a file that was added while someone else saved is not taken back by guess", async () => {
  const { memory, bench } = await opened();
  const add = memory.editing.add;
  memory.editing.add = async (...asked) => {
    const added = await add(...asked);
    memory.version += 1; // someone else, before the page loads again
    memory.trees = [...memory.trees, "theirs"];
    return added;
  };
  await bench.addImport("file", { file: { name: "a.csv", base64: "" } });
  expect([bench.site!.trees.length, bench.history.done.length]).toEqual([4, 0]);
});
test("which things differ, by all that can be changed", () => {
  const site = (works: WorkOnPlan[]) => ({ works, trees: [], barriers: [] }) as unknown as Site;
  expect(changedThings(site([work("A", 0), work("B", 0)]), site([work("A", 0, 2), work("C", 0)]))).toEqual(
    new Set(["work A", "work B", "work C"]),
  );
});
test("works are exchanged, added and taken away in place", () => {
  const edited = { works: [work("B", 9), work("C", 1)] } as unknown as Edited;
  const gone: Change[] = [{ remove: { sort: "work", id: "A" } }];
  const after = worksAfter([work("A", 0), work("B", 0), work("D", 0)], gone, edited);
  expect(after.map((one) => `${one.id} ${one.shape.points[0]![0]}`)).toEqual(["B 9", "D 0", "C 1"]);
});
test("a free id follows the greatest number", () => {
  expect(freeId("W", ["W1", "W7", "Wx", "T9"])).toBe("W8");
  expect(freeId("W", [])).toBe("W1");
});
