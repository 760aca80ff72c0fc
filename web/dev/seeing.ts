// The views' answers of the mock: INVENTED, to look at the page while no server runs.
import type { OpeningOnPlan, Protection, RootPiece, RootSystem, SectionView } from "../src/api/looking";
import type { Line, Position, Range, Shape, Site, TreeOnPlan, WorkOnPlan } from "../src/api/names";

const range = (best: number): Range => ({ low: best * 0.7, best, high: Math.min(1, best * 1.35) });
const NOTE = "Invented by the mock; no figure means anything.";
const at = (tree: TreeOnPlan): Position => (tree.at as Position | null) ?? [480_000, 4_880_000];

// A fixed lot: the same numbers each time.
function lot(seed: number): () => number {
  let state = seed * 2_654_435_761;
  return () => {
    state = (Math.imul(state ^ (state >>> 15), 2_246_822_519) + 3_266_489_917) | 0;
    return (state >>> 0) / 2 ** 32;
  };
}
function pieces(tree: TreeOnPlan): RootPiece[] {
  const next = lot(Number(tree.id.replace(/\D/g, "")) + 1);
  const made: RootPiece[] = [];
  const [x, y] = at(tree);
  const grow = (
    from: number[],
    bearing: number,
    dip: number,
    thickness: number,
    parent: number,
    left: number,
  ): void => {
    if (left === 0 || thickness < 0.001) return;
    const run = 0.35 + next() * 0.4;
    const to = [
      from[0]! + Math.sin(bearing) * run,
      from[1]! + Math.cos(bearing) * run,
      Math.max(0.03, from[2]! + Math.sin(dip) * run),
    ];
    const severed = to[1]! - y > 3.5;
    made.push({ from, to, thickness_m: [thickness, thickness * 0.86], parent, kind: "lateral", severed });
    const here = made.length - 1;
    grow(to, bearing + (next() - 0.5) * 0.6, dip * 0.8 + (next() - 0.5) * 0.2, thickness * 0.86, here, left - 1);
    if (next() < 0.35) grow(to, bearing + (next() - 0.5) * 2, (next() - 0.3) * 0.6, thickness * 0.5, here, left - 2);
  };
  for (let i = 0; i < 14; i += 1) {
    const bearing = (i / 14) * 2 * Math.PI + next() * 0.3;
    grow([x + Math.sin(bearing) * 0.2, y + Math.cos(bearing) * 0.2, 0.12], bearing, 0.25, 0.05 + next() * 0.06, -1, 18);
  }
  return made;
}
const box = (x: number, y: number, w: number, h: number): Line[] => [
  [
    [x, y],
    [x + w, y],
    [x + w, y + h],
    [x, y + h],
  ],
];
export function roots(tree: TreeOnPlan): RootSystem {
  const [x, y] = at(tree);
  return {
    tree: tree.id,
    label: tree.label,
    seed: 1,
    each_stands_for: tree.palm ? 40 : 1,
    stem: { at: [x, y], diameter_m: tree.stem_diameter_m ?? 0.3 },
    pieces: pieces(tree),
    ground: null,
    works: [
      { id: "W1", name: "Water main", kind: "trench", areas: [box(x - 7, y + 3.4, 14, 0.6)], top_m: 0, bottom_m: 1.2 },
    ],
    barriers: [
      { id: "B1", name: "Garden wall", kind: "wall", areas: [box(x - 6, y - 4, 12, 0.3)], top_m: -1, bottom_m: 0.6 },
    ],
    note: NOTE,
  };
}
export function tint(tree: TreeOnPlan) {
  const [x, y] = at(tree);
  const [cell, half] = [0.5, 24];
  const side = 2 * half;
  const share = Array.from({ length: side * side }, (_, i) => {
    const [dx, dy] = [((i % side) - half + 0.5) * cell, (Math.floor(i / side) - half + 0.5) * cell];
    const far = Math.hypot(dx, dy * 1.2);
    return far > 11 || dy < -7 ? 0 : Math.exp(-far / 3.4) * 0.02;
  });
  return {
    tree: tree.id,
    at: [x - half * cell, y - half * cell],
    cell_m: cell,
    columns: side,
    rows: side,
    share_per_m2: share,
    status: "our assumption",
  };
}
export function profiles(tree: TreeOnPlan) {
  const points = (to: number, decay: number) =>
    Array.from({ length: 16 }, (_, i) => {
      const m = (i / 15) * to;
      const best = 1 - Math.exp(-m / decay);
      return { m, share: { low: best * 0.8, best, high: Math.min(1, best * 1.15) } };
    });
  return { tree: tree.id, by_depth: points(1.6, 0.3), by_distance: points(14, 4), note: NOTE };
}
export function offsets(work: string, tree: string) {
  const points = Array.from({ length: 24 }, (_, i) => {
    const offset_m = i * 0.75;
    const loss = 0.5 * Math.exp(-offset_m / 4);
    return {
      offset_m,
      absorbing_loss: range(loss),
      anchorage_kept: { low: 1 - loss, best: 1 - 0.6 * loss, high: 1 - 0.3 * loss },
      verdict: loss > 0.3 ? "assess further" : loss > 0.08 ? "keep with measures" : "keep",
    };
  });
  return { work, tree, now_m: 3.2, points };
}
function lineOf(work: WorkOnPlan): Line {
  const shape = work.shape as Shape;
  return shape.lines[0] ?? shape.areas[0]?.[0] ?? [...shape.points, [shape.points[0]![0] + 10, shape.points[0]![1]]];
}
export function section(site: Site, asked: { work?: string; line?: Line }): SectionView {
  const work = site.works.find((one) => one.id === asked.work);
  const line = asked.line ?? (work ? lineOf(work) : [[0, 0] as Position, [10, 0] as Position]);
  const length = line.slice(1).reduce((sum, b, i) => sum + Math.hypot(b[0] - line[i]![0], b[1] - line[i]![1]), 0);
  const next = lot(7);
  const stems = site.trees.slice(0, 3).map((tree, i) => ({
    tree: tree.id,
    label: tree.label,
    along_m: (length * (i + 1)) / 4,
    aside_m: i * 1.4,
    diameter_m: tree.stem_diameter_m,
  }));
  return {
    line,
    length_m: length,
    ground: Array.from({ length: 21 }, (_, i) => ({
      along_m: (length * i) / 20,
      existing_m: 100 + 0.4 * Math.sin(i / 3),
      proposed_m: i > 12 ? 99.9 + 0.02 * i : null,
    })),
    pieces: [
      {
        id: "W1",
        name: "Water main",
        kind: "trench",
        sort: "work",
        from_m: 0,
        to_m: length * 0.7,
        top_m: 0,
        bottom_m: 1.2,
        pipe_m: 0.3,
      },
      {
        id: "W6",
        name: "Gas crossing",
        kind: "bore",
        sort: "work",
        from_m: length * 0.8,
        to_m: length * 0.8 + 0.3,
        top_m: 1.4,
        bottom_m: 1.7,
        pipe_m: 0.3,
      },
      {
        id: "B1",
        name: "Garden wall",
        kind: "wall",
        sort: "barrier",
        from_m: length * 0.9,
        to_m: length * 0.9 + 0.4,
        top_m: -0.8,
        bottom_m: 0.7,
        pipe_m: null,
      },
    ],
    zones: stems.flatMap((stem) => [
      {
        tree: stem.tree,
        rule: "invented-a",
        zone: "root zone",
        from_m: Math.max(0, stem.along_m - 6),
        to_m: Math.min(length, stem.along_m + 6),
      },
      {
        tree: stem.tree,
        rule: "invented-b",
        zone: "inner zone",
        from_m: Math.max(0, stem.along_m - 2),
        to_m: Math.min(length, stem.along_m + 2),
      },
    ]),
    stems,
    predicted: stems.flatMap((stem) =>
      Array.from({ length: 240 }, () => {
        const along = Math.min(length - 0.3, Math.max(0.3, stem.along_m + (next() - 0.5) * 12));
        const depth = 0.05 + next() * 0.9;
        return {
          tree: stem.tree,
          along_m: [along - 0.25, along + 0.25],
          depth_m: [depth, depth + (next() - 0.4) * 0.15],
          thickness_m: 0.002 + 0.07 * next() ** 4,
          severed: along < length * 0.7 && depth < 1.2,
        };
      }),
    ),
    found: [
      { tree: "T1", along_m: length * 0.3, depth_m: 0.35, diameter_m: 0.04, alive: true },
      { tree: "T1", along_m: length * 0.32, depth_m: 0.5, diameter_m: 0.02, alive: false },
    ],
    note: NOTE,
  };
}
export function protection(site: Site): Protection {
  const works = site.works;
  const line = (id: string) => lineOf(works.find((work) => work.id === id)!);
  const beside = (by: number): Line => line("W1").map(([x, y]) => [x, y + by]);
  const [x, y] = at(site.trees[0]!);
  return {
    version: site.version,
    fences: [{ id: "F1", name: "Fence 1", line: beside(4), text: "Invented fence" }],
    grounds: [
      { id: "G1", name: "Ground 1", kind: "plates", areas: [box(x + 4, y + 2, 9, 4)], text: "Invented plates" },
    ],
    cut_lines: [{ id: "C1", name: "Cut 1", line: beside(1.2), text: "Invented cut" }],
    digging: [{ id: "H1", name: "By hand 1", work: "W1", line: line("W1"), text: "Invented digging" }],
    gates: [[x + 20, y + 25]],
    guards: [],
    signs: [[x + 10, y + 25]],
    clashes: ["F1 stands in W3 (invented)."],
  };
}
export const evidence = (site: Pick<Site, "trees">): OpeningOnPlan[] => {
  const [x, y] = at(site.trees[0]!);
  return [
    {
      id: "P1",
      tree: site.trees[0]!.id,
      kind: "pit",
      shape: { lines: [], areas: [box(x + 2, y - 3, 2, 1)], points: [] },
      depth_m: 0.8,
      roots: [
        { at: [x + 2.5, y - 2.5], depth_m: 0.3, diameter_m: 0.05, alive: true },
        { at: [x + 3.4, y - 2.6], depth_m: 0.4, diameter_m: 0.02, alive: false },
      ],
    },
  ];
};
export function sheet(site: Site, tree: TreeOnPlan) {
  const figure = (figure: string, value: number, unit: string, status: string, more = {}) => ({
    name: figure,
    value,
    unit,
    inputs: { D: `${Math.round(1000 * (tree.stem_diameter_m ?? 0))} mm` },
    formula: "r = 12 D (invented)",
    source: "The mock, invented",
    status,
    ...more,
  });
  return {
    version: site.version,
    id: tree.id,
    label: tree.label,
    measured: [
      { name: "stem", text: `${tree.stem_diameter_m ?? "?"} m` },
      { name: "crown", text: "4 m N, 5 m E" },
    ],
    derived: [{ name: "invented-a.root zone.radius", text: "12 times the stem" }],
    figures: [
      figure("invented-a.root zone.radius", 12 * (tree.stem_diameter_m ?? 0), "m", "published"),
      figure("invented-a.root zone.affected-share", 0.12, "", "common practice"),
      figure("roots.absorbing-loss", 0.2, "", "our assumption", { low: 0.1, high: 0.3 }),
      figure("anchorage.kept", 0.9, "", "from memory", { low: 0.8, high: 1 }),
      figure("roots.absorbing-loss.W1", 0.12, "", "our assumption", { low: 0.1, high: 0.3 }),
    ],
    narrows: [{ name: "Pit 1", text: "1 m x 0.5 m at 2 m north-east of the stem (invented)" }],
    remedies: [
      {
        work: "W1",
        text: "Bore under the roots instead (invented).",
        before: range(0.2),
        after: range(0.05),
        removes_verdict: true,
      },
    ],
    advice: [{ name: "root cut", text: "Cut cleanly with a saw (invented)." }],
  };
}

// What the views ask; undefined where the address is none of theirs.
export function seen(site: Site, url: string, body: () => Promise<unknown>): unknown {
  const tree = /^\/api\/trees\/([^/]+)(?:\/(\w+))?$/.exec(url);
  const of = /^\/api\/works\/([^/]+)\/offsets\?tree=(.+)$/.exec(url);
  if (of) return offsets(decodeURIComponent(of[1]!), decodeURIComponent(of[2]!));
  if (url === "/api/section") return body().then((asked) => section(site, asked as { work?: string; line?: Line }));
  if (url === "/api/protection") return protection(site);
  const one = tree && site.trees.find((each) => each.id === decodeURIComponent(tree[1]!));
  if (!tree || !one) return undefined;
  if (tree[2] === "roots") return roots(one);
  if (tree[2] === "tint") return tint(one);
  if (tree[2] === "profiles") return profiles(one);
  return sheet(site, one);
}
