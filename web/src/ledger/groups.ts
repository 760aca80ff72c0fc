// Lines in order, each under the works that take something from its tree where that is wished.
import type { LedgerLine } from "./lines";

export interface Choice {
  verdict: string; // empty: any
  vitality: string;
  stability: string;
}
export const anything: Choice = { verdict: "", vitality: "", stability: "" };

export function matching(lines: readonly LedgerLine[], choice: Choice): LedgerLine[] {
  const fits = (wish: string, said: string) => wish === "" || wish === said;
  return lines.filter(
    (line) =>
      fits(choice.verdict, line.verdict) &&
      fits(choice.vitality, line.vitality) &&
      fits(choice.stability, line.stability),
  );
}

export type Item =
  | { kind: "group"; key: string; work: string; count: number } // work empty: of those that no work touches
  | { kind: "line"; key: string; line: LedgerLine };

export const plain = (lines: readonly LedgerLine[]): Item[] =>
  lines.map((line) => ({ kind: "line", key: line.id, line }));

// A tree stands under each work that takes something from it, so its line may come several times.
export function byWork(lines: readonly LedgerLine[], works: readonly string[]): Item[] {
  const group = (work: string, members: LedgerLine[]): Item[] =>
    members.length === 0
      ? []
      : [
          { kind: "group", key: `work ${work}`, work, count: members.length },
          ...members.map((line): Item => ({ kind: "line", key: `${work}\n${line.id}`, line })),
        ];
  return [
    ...works.flatMap((work) =>
      group(
        work,
        lines.filter((line) => line.works.includes(work)),
      ),
    ),
    ...group(
      "",
      lines.filter((line) => line.works.length === 0),
    ),
  ];
}

// The next line from `at` in steps of `by`; heads of groups are passed over.
export function lineFrom(items: readonly Item[], at: number, by: number): number {
  const way = Math.sign(by);
  let [found, left] = [at, Math.abs(by)];
  for (let i = at + way; i >= 0 && i < items.length && left > 0; i += way) {
    if (items[i]!.kind !== "line") continue;
    found = i;
    left -= 1;
  }
  return found;
}
