// INVENTED DATA for looking at the page while no server runs. No figure here is computed by the
// engine or means anything.
import type { Line, Polygon, Position, Shape, Site, TreeOnPlan, WorkOnPlan } from "../src/api/names";

import { evidence } from "./seeing";

const EAST = 480_000;
const NORTH = 4_880_000;
const at = (x: number, y: number): Position => [EAST + x, NORTH + y];
const species = ["Quercus robur", "Tilia cordata", "Fagus sylvatica", "Acer platanoides", "Phoenix canariensis"];

function tree(i: number): TreeOnPlan {
  const palm = i % 5 === 4;
  const place = at(8 + (i % 5) * 13 + (i % 3), 10 + Math.floor(i / 5) * 17 + (i % 4));
  const reach = 3 + (i % 4);
  return {
    id: `T${i + 1}`,
    label: String(i + 1),
    species: species[i % 5]!,
    at: i === 13 ? null : place,
    palm,
    stem_diameter_m: i === 12 ? null : 0.3 + 0.07 * (i % 7),
    crown: palm ? null : [reach, reach + 1, reach - 0.5, reach + 0.4],
  };
}
// MOCK_TREES=5000 shows how the page bears a large site.
export const trees: TreeOnPlan[] = Array.from({ length: Number(process.env.MOCK_TREES ?? 15) }, (_, i) => tree(i));

function circle([x, y]: Position, radius: number): Polygon {
  const ring = Array.from({ length: 48 }, (_, k): Position => {
    const angle = (k / 48) * 2 * Math.PI;
    return [x + radius * Math.cos(angle), y + radius * Math.sin(angle)];
  });
  return [ring];
}
const zones = trees.flatMap((one) =>
  one.at && one.stem_diameter_m
    ? [
        {
          tree: one.id,
          rule: "invented-a",
          zone: "root zone",
          areas: [circle(one.at as Position, 12 * one.stem_diameter_m)],
        },
        {
          tree: one.id,
          rule: "invented-b",
          zone: "inner zone",
          areas: [circle(one.at as Position, 5 * one.stem_diameter_m)],
        },
      ]
    : [],
);

// A corridor of the line, one box a leg: enough for a picture.
function corridor(line: Line, half: number): Polygon[] {
  return line.slice(1).map((b, i): Polygon => {
    const a = line[i]!;
    const run = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
    const [nx, ny] = [(-(b[1] - a[1]) / run) * half, ((b[0] - a[0]) / run) * half];
    return [
      [
        [a[0] + nx, a[1] + ny],
        [b[0] + nx, b[1] + ny],
        [b[0] - nx, b[1] - ny],
        [a[0] - nx, a[1] - ny],
      ],
    ];
  });
}
export function laid(work: Omit<WorkOnPlan, "footprint" | "working_room">, shape: Shape): WorkOnPlan {
  const wide = (extra: number) => [
    ...shape.lines.flatMap((line) => corridor(line, work.width_m / 2 + extra)),
    ...shape.areas,
    ...shape.points.map((point) => circle(point, 0.3 + extra)),
  ];
  return { ...work, shape, footprint: wide(0), working_room: work.kind === "trench" ? wide(0.8) : [] };
}
const none: Shape = { lines: [], areas: [], points: [] };
function work(
  id: string,
  name: string,
  kind: string,
  shape: Partial<Shape>,
  more: Partial<WorkOnPlan> = {},
): WorkOnPlan {
  return laid(
    {
      id,
      name,
      kind,
      state: "proposed",
      method: "machine",
      movable: true,
      width_m: 0.6,
      depth_m: 1.2,
      shape: none,
      ...more,
    },
    { ...none, ...shape },
  );
}
const box = (x: number, y: number, w: number, h: number): Polygon => [
  [at(x, y), at(x + w, y), at(x + w, y + h), at(x, y + h)],
];

const works = [
  work("W1", "Water main", "trench", { lines: [[at(2, 16), at(30, 18), at(66, 14)]] }),
  work("W2", "New house", "building", { areas: [box(30, 32, 14, 9)] }, { width_m: 0 }),
  work("W3", "Site road", "traffic", { areas: [box(4, 34, 22, 4)] }, { width_m: 4, depth_m: 0.3 }),
  work("W4", "Fence", "fence posts", { points: [at(50, 40), at(53, 40), at(56, 40), at(59, 40)] }, { method: "hand" }),
  work("W5", "Old sewer", "trench", { lines: [[at(2, 52), at(66, 54)]] }, { state: "existing", movable: false }),
  work("W6", "Gas crossing", "bore", { lines: [[at(52, 8), at(54, 50)]] }),
  work("W7", "Forecourt", "paving", { areas: [box(46, 22, 10, 7)] }),
];

export const site: Site = {
  version: "1",
  title: "Mock site",
  demo: true,
  system: { code: "none", name: "Invented metres" },
  units: "metric",
  trees,
  zones,
  works,
  barriers: [{ id: "B1", name: "Garden wall", kind: "wall", shape: { ...none, lines: [[at(0, 28), at(24, 29)]] } }],
  evidence: evidence({ trees }),
  boundary: [box(-2, 0, 72, 60)],
  gates: [at(0, 30)],
  cautions: ["Invented for looking at the page; no figure means anything.", "A real project prints its cautions here."],
};
