// A stand-in for the server, with INVENTED answers: nearer works take more. It never reaches dist.
import type { IncomingMessage, ServerResponse } from "node:http";
import type { Plugin } from "vite";
import type { Position, Range, Shape, Site, TreeAnswer, TreeOnPlan, WorkOnPlan } from "../src/api/names";
import { seen } from "./seeing";
import { asks, type Held } from "./mockEdit";
import { laid, site as start } from "./site";

const POLICY =
  "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; connect-src 'self'; font-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

let site: Site = structuredClone(start);

const range = (best: number): Range => ({ low: best * 0.6, best, high: Math.min(1, best * 1.5) });

function toSegment([x, y]: Position, a: Position, b: Position): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const along = Math.max(0, Math.min(1, ((x - a[0]) * dx + (y - a[1]) * dy) / (dx * dx + dy * dy || 1)));
  return Math.hypot(x - a[0] - along * dx, y - a[1] - along * dy);
}
function distance(point: Position, shape: Shape): number {
  const runs = [...shape.lines, ...shape.areas.flat(), ...shape.points.map((p) => [p, p])];
  return Math.min(...runs.flatMap((run) => run.slice(1).map((b, i) => toSegment(point, run[i]!, b))));
}
function taken(tree: TreeOnPlan, work: WorkOnPlan): number {
  if (!tree.at || work.state === "existing") return 0;
  return 0.3 * Math.exp(-distance(tree.at as Position, work.shape as Shape) / 4);
}

function answer(tree: TreeOnPlan, works: readonly WorkOnPlan[]): TreeAnswer {
  const parts = works.map((work) => ({ work: work.id, share: taken(tree, work), existing: work.state === "existing" }));
  const loss = Math.min(
    1,
    parts.reduce((sum, part) => sum + part.share, 0),
  );
  const degree = loss < 0.05 ? "none" : loss < 0.15 ? "small" : loss < 0.3 ? "material" : "large";
  return {
    id: tree.id,
    label: tree.label,
    zones: [
      {
        rule: "invented-a",
        zone: "root zone",
        radius_m: 12 * (tree.stem_diameter_m ?? 0),
        affected_share: loss / 2,
        verdict: "within the limits",
        limits: [],
      },
    ],
    absorbing_loss: tree.at ? range(loss) : null,
    large_loss: tree.at ? { share: 0.4, from: "invented" } : null,
    large_reduction: tree.at ? { share: 0.7, from: "invented" } : null,
    anchorage_kept: tree.at ? { low: 1 - loss, best: 1 - 0.7 * loss, high: 1 - 0.4 * loss } : null,
    verdict: tree.at ? (loss > 0.3 ? "assess further" : loss > 0.1 ? "keep with measures" : "keep") : "undecided",
    vitality: degree,
    stability: degree,
    reasons: [{ about: "data", text: "An invented reason of the mock.", work: "" }],
    by_work: parts
      .filter((part) => part.share > 0.005)
      .map((part) => ({ work: part.work, existing: part.existing, affected_m2: 1, absorbing_loss: range(part.share) })),
  };
}
function answers(works: readonly WorkOnPlan[], work: WorkOnPlan, draws: number) {
  const near = site.trees.filter(
    (tree) =>
      Math.abs(
        taken(tree, work) -
          taken(
            tree,
            site.works.find((w) => w.id === work.id)!,
          ),
      ) > 1e-6,
  );
  return { version: site.version, draws, work, trees: near.map((tree) => answer(tree, works)) };
}

export async function body<T = { shape: Shape; version?: string }>(request: IncomingMessage): Promise<T> {
  let text = "";
  for await (const chunk of request) text += chunk;
  return JSON.parse(text);
}
export function reply(response: ServerResponse, status: number, value: unknown): void {
  response.writeHead(status, { "Content-Type": "application/json" });
  response.end(JSON.stringify(value));
}

async function change(request: IncomingMessage, response: ServerResponse, id: string): Promise<void> {
  const { shape, version } = await body(request);
  const old = site.works.find((work) => work.id === id);
  if (!old) return reply(response, 404, { error: `There is no work ${id}; load the site again.` });
  const work = laid(old, shape);
  const works = site.works.map((one) => (one.id === id ? work : one));
  if (request.method === "POST") return reply(response, 200, answers(works, work, 60));
  if (version !== site.version)
    return reply(response, 409, {
      error: "Someone else saved this project meanwhile; look at it again before moving works.",
    });
  const said = answers(works, work, 1000);
  site = { ...site, version: String(Number(site.version) + 1), works };
  reply(response, 200, { ...said, version: site.version });
}

const held: Held = {
  site: () => site,
  take: (next) => void (site = { ...next, version: String(Number(site.version) + 1) }),
  answers: (works) => site.trees.map((tree) => answer(tree, works)),
};

async function handle(request: IncomingMessage, response: ServerResponse, next: () => void): Promise<void> {
  const work = /^\/api\/works\/([^/]+)\/(trial|shape)$/.exec(request.url ?? "");
  if (work) return change(request, response, decodeURIComponent(work[1]!));
  if (request.url === "/api/opening") return reply(response, 200, { done: 0, all: 0, ready: true });
  if (request.url === "/api/site") return reply(response, 200, site);
  if (request.url === "/api/mock/other") {
    site = { ...site, version: `${site.version}9` }; // as if someone else had saved
    return reply(response, 200, {});
  }
  const looked = await seen(site, request.url ?? "", () => body(request));
  if (looked !== undefined) return reply(response, 200, looked);
  if (await asks(held, request, response)) return;
  if (request.url !== "/api/assessment") return next();
  const trees = site.trees.map((tree) => answer(tree, site.works));
  reply(response, 200, { version: site.version, trees, cautions: site.cautions, seed: 1, draws: 1000 });
}

type Middlewares = { use(handler: (q: IncomingMessage, s: ServerResponse, next: () => void) => void): unknown };
export function mock(): Plugin {
  const add = (middlewares: Middlewares) => middlewares.use((q, s, next) => void handle(q, s, next));
  return {
    name: "rootstead-mock",
    configureServer: (server) => void add(server.middlewares),
    configurePreviewServer: (server) => {
      // The built page is looked at under the policy that the real server sends.
      server.middlewares.use((_q, s, next) => {
        s.setHeader("Content-Security-Policy", POLICY);
        next();
      });
      add(server.middlewares);
    },
  };
}
