import { expect, test } from "vitest";
import { Trouble } from "../src/api/client";
import type { Looking, SectionAsked } from "../src/api/looking";
import type { Site } from "../src/api/names";
import type { Workbench } from "../src/model/workbench.svelte";
import { Asked } from "../src/views/asked.svelte";
import { nextTab } from "../src/views/tabs";
import { Views } from "../src/views/views.svelte";

const settled = () => new Promise((resolve) => setTimeout(resolve));

test("another version keeps the old answer in sight, another subject takes it away", async () => {
  const asked = new Asked<string>();
  asked.ask({ about: "T1", version: "1" }, async () => "one");
  await settled();
  expect(asked.value).toBe("one");
  asked.ask({ about: "T1", version: "2" }, async () => "two");
  expect([asked.value, asked.waiting]).toEqual(["one", true]);
  await settled();
  expect([asked.value, asked.waiting]).toEqual(["two", false]);
  asked.ask({ about: "T2", version: "2" }, async () => "three");
  expect(asked.value).toBeNull();
});
test("the same question is asked once; a late answer to an older one is dropped", async () => {
  const asked = new Asked<string>();
  let answer: (said: string) => void = () => undefined;
  let times = 0;
  const slow = () => ((times += 1), new Promise<string>((resolve) => (answer = resolve)));
  asked.ask({ about: "T1", version: "1" }, slow);
  asked.ask({ about: "T1", version: "1" }, slow);
  expect(times).toBe(1);
  asked.ask({ about: "T2", version: "1" }, async () => "newer");
  await settled();
  answer("older");
  await settled();
  expect(asked.value).toBe("newer");
});
test("a trouble is told, and the question can be put again", async () => {
  const asked = new Asked<string>();
  let down = true;
  const send = async () => {
    if (down) throw new Trouble("refused", "No such tree.");
    return "there";
  };
  asked.ask({ about: "T1", version: "1" }, send);
  await settled();
  expect([asked.value, asked.waiting, asked.trouble]).toEqual([
    null,
    false,
    { kind: "refused", sentence: "No such tree." },
  ]);
  down = false;
  asked.again();
  await settled();
  expect([asked.value, asked.trouble]).toEqual(["there", null]);
});

function opened() {
  const works: Record<string, object> = {
    W1: { id: "W1", shape: { lines: [[]], areas: [], points: [] } },
    P1: {
      id: "P1",
      shape: {
        lines: [],
        areas: [],
        points: [
          [5, 5],
          [7, 5],
        ],
      },
    },
  };
  const workById = (id: string | null) => works[id ?? ""];
  const bench = { tree: null, work: null, workById, site: { version: "1", trees: [] } as unknown as Site };
  const calls: unknown[] = [];
  const told =
    (name: string) =>
    async (...given: unknown[]) => (calls.push([name, ...given]), {});
  const server = Object.fromEntries(
    ["tree", "roots", "tint", "profiles", "section", "offsets", "protection"].map((name) => [name, told(name)]),
  ) as unknown as Looking;
  return {
    bench: bench as { tree: string | null; work: string | null },
    calls,
    views: new Views(bench as unknown as Workbench, server),
  };
}
test("nothing is asked until something is chosen", () => {
  const { views, calls } = opened();
  for (const ask of [views.askSheet, views.askRoots, views.askTint, views.askOffsets, views.askSection]) ask();
  expect(calls).toEqual([]);
});
test("the section goes along the chosen work until a line is drawn, and a work chosen takes it back", () => {
  const { views, bench, calls } = opened();
  bench.work = "W1";
  views.askSection();
  views.takeLine([
    [0, 0],
    [9, 0],
  ]);
  views.askSection();
  views.workChosen("W1");
  views.askSection();
  expect(calls.map((call) => (call as [string, SectionAsked])[1])).toEqual([
    { work: "W1" },
    {
      line: [
        [0, 0],
        [9, 0],
      ],
    },
    { work: "W1" },
  ]);
});
test("a work without a line is cut across", () => {
  const { views, bench, calls } = opened();
  bench.work = "P1";
  views.askSection();
  expect(calls).toEqual([
    [
      "section",
      {
        line: [
          [4, 5],
          [8, 5],
        ],
      },
    ],
  ]);
});
test("two points at one place are no line", () => {
  const { views } = opened();
  views.drawing = true;
  views.takeLine([
    [5, 5],
    [5, 5.01],
  ]);
  expect([views.line, views.drawing]).toEqual([null, false]);
});
test("a tree chosen opens its sheet unless the open view tells of a tree", () => {
  const { views, bench } = opened();
  views.workChosen("W1");
  expect(views.tab).toBe("section");
  bench.tree = "T1";
  views.treeChosen("T1");
  expect(views.tab).toBe("sheet");
  views.tab = "roots";
  views.treeChosen("T1");
  views.workChosen("W2");
  expect(views.tab).toBe("roots");
});
test("arrow keys go round the tabs", () => {
  expect([nextTab("sheet", "ArrowRight"), nextTab("charts", "ArrowRight"), nextTab("sheet", "ArrowLeft")]).toEqual([
    "section",
    "sheet",
    "charts",
  ]);
  expect([nextTab("roots", "Home"), nextTab("roots", "End"), nextTab("roots", "x")]).toEqual([
    "sheet",
    "charts",
    undefined,
  ]);
});
