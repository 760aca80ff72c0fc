// The editing half of the stand-in: fields, edits, files and jobs, all INVENTED and small. What the
// real server checks is checked here only as far as looking at the page needs it.
import type { IncomingMessage, ServerResponse } from "node:http";
import type { Change, Field, Sort, Thing } from "../src/api/editing";
import type { Position, Shape, Site, TreeAnswer, TreeOnPlan, WorkOnPlan } from "../src/api/names";
import { body, reply } from "./mock";
import { laid } from "./site";

export interface Held {
  site(): Site;
  take(site: Site): void;
  answers(works: readonly WorkOnPlan[]): TreeAnswer[];
}
const none: Shape = { lines: [], areas: [], points: [] };
const field = (name: string, example: string, words: string[] = [], required = false): Field => ({
  name,
  meaning: `Invented meaning of ${name}`,
  example,
  words,
  required,
});
const KINDS = ["trench", "pit", "cut", "fill", "paving", "traffic", "building", "fence posts", "bore", "root cut"];
const vocabulary = {
  tree: [
    field("id", "T1"),
    field("tag", "12"),
    field("botanical_name", "Quercus robur"),
    field("form", "broadleaf", ["broadleaf", "conifer", "palm", "other monocot"]),
    field("stem_diameter", "450 mm"),
    field("height", "12 m"),
    field("notes", "leans to the road"),
  ],
  work: [
    field("id", "W1"),
    field("name", "Water main"),
    field("kind", "trench", KINDS, true),
    field("state", "proposed", ["proposed", "approved", "existing"]),
    field("method", "machine", ["machine", "hand", "air"]),
    field("width", "0.6 m"),
    field("depth", "0.9 m"),
    field("notes", "any text"),
  ],
  barrier: [field("id", "B1"), field("name", "Garden wall"), field("kind", "wall", ["wall", "kerb"], true)],
};
const extra = new Map<string, Record<string, string>>(); // fields that the plan does not show

const metres = (text: string | undefined) =>
  text ? Number.parseFloat(text) * (/ft/.test(text) ? 0.3048 : /mm/.test(text) ? 0.001 : 1) : 0;
function thingOf(site: Site, sort: Sort, id: string): Thing | null {
  const more = extra.get(`${sort} ${id}`);
  if (sort === "tree") {
    const tree = site.trees.find((one) => one.id === id);
    if (!tree) return null;
    const stem =
      tree.stem_diameter_m === null ? {} : { stem_diameter: `${Math.round(tree.stem_diameter_m * 1000)} mm` };
    const shape = tree.at ? { ...none, points: [tree.at as Position] } : null;
    return {
      sort,
      id,
      fields: (more ?? { tag: tree.label, botanical_name: tree.species, ...stem }) as Thing["fields"],
      shape,
    };
  }
  const one = sort === "work" ? site.works.find((work) => work.id === id) : site.barriers.find((b) => b.id === id);
  if (!one) return null;
  const work = one as WorkOnPlan;
  const sizes =
    sort === "work"
      ? { state: work.state, method: work.method, width: `${work.width_m} m`, depth: `${work.depth_m} m` }
      : {};
  return {
    sort,
    id,
    fields: (more ?? { name: one.name, kind: one.kind, ...sizes }) as Thing["fields"],
    shape: one.shape as Shape,
  };
}
function without(site: Site, sort: Sort, id: string): Site {
  const other = <T extends { id: string }>(list: T[]) => list.filter((one) => one.id !== id);
  if (sort === "tree")
    return { ...site, trees: other(site.trees), zones: site.zones.filter((zone) => zone.tree !== id) };
  return sort === "work" ? { ...site, works: other(site.works) } : { ...site, barriers: other(site.barriers) };
}
function withThing(site: Site, { sort, id, fields, shape }: Thing): Site {
  const rest = without(site, sort, id);
  const name = fields.name ?? "";
  if (sort === "tree") {
    const at = (shape?.points[0] ?? null) as Position | null;
    const stem = metres(fields.stem_diameter) || null;
    const tree: TreeOnPlan = {
      id,
      label: fields.tag ?? id,
      species: fields.botanical_name ?? "",
      at,
      palm: false,
      stem_diameter_m: stem,
      crown: null,
    };
    return { ...rest, trees: [...rest.trees, tree] };
  }
  const kind = fields.kind ?? "trench";
  if (sort === "barrier") return { ...rest, barriers: [...rest.barriers, { id, name, kind, shape: shape ?? none }] };
  const work = {
    id,
    name,
    kind,
    state: fields.state ?? "proposed",
    method: fields.method ?? "machine",
    movable: fields.state !== "existing",
    width_m: metres(fields.width),
    depth_m: metres(fields.depth),
    shape: none,
  };
  const was = site.works.findIndex((one) => one.id === id);
  const works = [...rest.works];
  works.splice(was < 0 ? works.length : was, 0, laid(work, shape ?? none));
  return { ...rest, works };
}
function inverseOf(site: Site, sort: Sort, id: string): Change {
  const thing = thingOf(site, sort, id);
  return thing ? { put: thing } : { remove: { sort, id } };
}

async function edit(held: Held, request: IncomingMessage, response: ServerResponse): Promise<void> {
  const { version, changes } = await body<{ version: string; changes: Change[] }>(request);
  let site = held.site();
  if (version !== site.version) return reply(response, 409, { error: "The project was changed by another program." });
  const inverse: Change[] = [];
  for (const change of changes) {
    const { sort, id } = "put" in change ? change.put : change.remove;
    if ("put" in change && sort === "work" && !(metres(change.put.fields.depth) > 0))
      return reply(response, 400, {
        error: `${id}: the depth must be above zero; write it with its unit, such as 0.9 m.`,
      });
    inverse.unshift(inverseOf(site, sort, id));
    site = "put" in change ? withThing(site, change.put) : without(site, sort, id);
    if ("put" in change) extra.set(`${sort} ${id}`, change.put.fields);
  }
  held.take(site);
  const touched = changes.map((change) => ("put" in change ? change.put : change.remove));
  const works = held.site().works.filter((work) => touched.some((one) => one.sort === "work" && one.id === work.id));
  const whole = touched.some((one) => one.sort !== "work");
  reply(response, 200, {
    version: held.site().version,
    draws: 1000,
    inverse,
    works,
    whole,
    trees: held.answers(held.site().works),
  });
}

interface Asked {
  version?: string;
  file: { name: string; base64: string };
  columns?: Record<string, { column: string; unit?: string }>;
}
function readTrees({ file, columns }: Asked) {
  const [head = "", ...rows] = Buffer.from(file.base64, "base64").toString("utf8").trim().split(/\r?\n/);
  const header = head.split(",").map((name) => name.trim());
  const map =
    columns ??
    Object.fromEntries(
      [
        ["tag", /tag|nr/i],
        ["easting", /^e|^x/i],
        ["northing", /^n$|^nor|^y/i],
        ["stem_diameter", /dbh|stem/i],
      ].flatMap(([name, like]) => {
        const column = header.find((one) => (like as RegExp).test(one));
        return column ? [[name as string, { column, ...(name === "stem_diameter" && { unit: "cm" }) }]] : [];
      }),
    );
  const trees = rows.map((row, i): TreeOnPlan => {
    const cells = row.split(",");
    const cell = (name: string) => cells[header.indexOf(map[name]?.column ?? "")]?.trim() ?? "";
    const at: Position = [Number(cell("easting")), Number(cell("northing"))];
    return {
      id: `I${i + 1}`,
      label: cell("tag"),
      species: "",
      at: at.every(Number.isFinite) && cell("easting") !== "" ? at : null,
      palm: false,
      stem_diameter_m: Number(cell("stem_diameter")) / 100 || null,
      crown: null,
    };
  });
  return { header, columns: map, trees };
}
function preview(held: Held, asked: Asked) {
  const { header, columns, trees } = readTrees(asked);
  const far = trees.some((tree) => tree.at && Math.abs(tree.at[1]! - (held.site().trees[0]!.at![1] ?? 0)) > 1e5);
  return {
    as: "trees", header, columns, crs: "none", rows: trees.length, trees, works: [], barriers: [],
    problems: trees.flatMap((tree) => (tree.stem_diameter_m ? [] : [{ blocks: false, subject: `row ${tree.label}`, message: "has no diameter", remedy: "measure it" }])),
    doubts: far ? ["All trees lie far from those of the project: x and y look exchanged."] : [],
    question: columns.easting ? null : "Which column is the easting?",
  }; // prettier-ignore
}

interface MockJob {
  id: string;
  begun: number;
  cancelled: boolean;
}
const jobs = new Map<string, MockJob>();
const STEPS = ["assessing", "drawing the plan", "writing"];
function jobOf({ id, begun, cancelled }: MockJob) {
  const done = Math.min(30, Math.floor((Date.now() - begun) / 100));
  const state = cancelled ? "cancelled" : done === 30 ? "done" : "running";
  const files = state === "done" ? [{ name: "mock.pdf", bytes: 12345 }] : [];
  return { id, state, step: STEPS[Math.floor(done / 11)]!, done, of: 30, files, error: null };
}

// Whether this was one of ours.
export async function asks(held: Held, request: IncomingMessage, response: ServerResponse): Promise<boolean> {
  const url = request.url ?? "";
  const said = (status: number, value: unknown) => (reply(response, status, value), true);
  const thing = /^\/api\/(works|survey)\/([^/]+)$/.exec(url);
  if (thing) {
    const id = decodeURIComponent(thing[2]!);
    const sorts: Sort[] = thing[1] === "works" ? ["work"] : ["tree", "barrier"];
    const found = sorts.map((sort) => thingOf(held.site(), sort, id)).find((one) => one !== null);
    return found ? said(200, found) : said(404, { error: `There is no ${id}; load the site again.` });
  }
  if (url === "/api/vocabulary") return said(200, vocabulary);
  if (url === "/api/edits") return edit(held, request, response).then(() => true);
  if (url === "/api/imports/preview") return said(200, preview(held, await body<Asked>(request)));
  if (url === "/api/imports") {
    const { trees } = readTrees(await body<Asked>(request));
    held.take({ ...held.site(), trees: [...held.site().trees, ...trees] });
    return said(200, { version: held.site().version, told: [`${trees.length} trees were added.`] });
  }
  if (url === "/api/underlays") {
    const { name } = await body<{ name: string }>(request);
    const [x, y] = held.site().trees[0]!.at as Position;
    return said(200, { name, image: null, lines: [[[x - 5, y - 5], [x + 40, y + 30]], [[x, y + 20], [x + 30, y]]] }); // prettier-ignore
  }
  if (url === "/api/jobs") {
    const job = { id: `J${jobs.size + 1}`, begun: Date.now(), cancelled: false };
    jobs.set(job.id, job);
    return said(200, jobOf(job));
  }
  const job = jobs.get(/^\/api\/jobs\/([^/]+)/.exec(url)?.[1] ?? "");
  if (!job) return false;
  if (request.method === "DELETE") job.cancelled = true;
  return said(200, jobOf(job));
}
