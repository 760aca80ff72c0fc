// The calls of the interface that the page begins with. A call either answers or throws a Trouble with a kind the page
// can act on and, where the server gave one, its own sentence.
import type { Answers, Assessment, Opening, Shape, Site } from "./names";

export type TroubleKind = "unreachable" | "conflict" | "refused" | "broken";

export class Trouble extends Error {
  constructor(
    readonly kind: TroubleKind,
    readonly sentence: string,
  ) {
    super(sentence);
  }
}

async function sentenceOf(response: Response): Promise<string> {
  const body: unknown = await response.json().catch(() => null);
  const said = (body as { error?: unknown } | null)?.error;
  return typeof said === "string" ? said : "";
}

async function troubleOf(response: Response): Promise<Trouble> {
  const sentence = await sentenceOf(response);
  if (response.status === 409) return new Trouble("conflict", sentence);
  if (sentence !== "") return new Trouble("refused", sentence);
  return new Trouble("broken", `HTTP ${response.status}`);
}

export async function call<T>(path: string, init?: RequestInit): Promise<T> {
  const response = await fetch(path, init).catch(() => {
    throw new Trouble("unreachable", "");
  });
  if (!response.ok) throw await troubleOf(response);
  return response.json().catch(() => {
    throw new Trouble("broken", "JSON");
  }) as Promise<T>;
}

export function sending(method: string, body: unknown): RequestInit {
  return { method, headers: { "Content-Type": "application/json" }, body: JSON.stringify(body) };
}

const ofWork = (id: string) => `/api/works/${encodeURIComponent(id)}`;

// How far the first assessment is; the site can be asked for once it is ready.
export const opening = () => call<Opening>("/api/opening");

export const server = {
  site: () => call<Site>("/api/site"),
  assessment: () => call<Assessment>("/api/assessment"),
  trial: (work: string, shape: Shape) => call<Answers>(`${ofWork(work)}/trial`, sending("POST", { shape })),
  save: (work: string, version: string, shape: Shape) =>
    call<Answers>(`${ofWork(work)}/shape`, sending("PUT", { version, shape })),
};
export type Server = typeof server;
