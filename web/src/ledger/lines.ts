// The ledger as plain rows: what a line shows, how lines are sorted and filtered.
import type { Range, TreeAnswer, TreeOnPlan } from "../api/names";

export interface LedgerLine {
  id: string;
  label: string;
  species: string;
  loss: Range | null; // fine roots lost: health
  kept: Range | null; // anchorage kept: stability
  largeLoss: number | null; // where each begins to count as large
  largeReduction: number | null;
  vitality: string;
  stability: string;
  verdict: string;
  worst: string; // name of the work that takes most fine roots, empty of none
  worstShare: number;
  works: readonly string[]; // ids of all that take something
}
export type Column = "label" | "species" | "loss" | "kept" | "verdict" | "worst";
export interface Order {
  column: Column;
  down: boolean;
}

// The work with the largest best loss, proposed or not yet built; what stands already is no news.
export function worstWork(answer: TreeAnswer): { work: string; share: number } | null {
  let worst: { work: string; share: number } | null = null;
  for (const { work, existing, absorbing_loss } of answer.by_work) {
    const share = absorbing_loss?.best ?? 0;
    if (!existing && share > (worst?.share ?? 0)) worst = { work, share };
  }
  return worst;
}

type Part = TreeAnswer["by_work"][number];
const takes = (part: Part) => part.affected_m2 > 0 || (part.absorbing_loss?.best ?? 0) > 0;

export function ledgerLine(
  tree: TreeOnPlan,
  answer: TreeAnswer | undefined,
  nameOf: (work: string) => string,
): LedgerLine {
  const worst = answer ? worstWork(answer) : null;
  return {
    id: tree.id,
    label: tree.label,
    species: tree.species,
    loss: answer?.absorbing_loss ?? null,
    kept: answer?.anchorage_kept ?? null,
    largeLoss: answer?.large_loss?.share ?? null,
    largeReduction: answer?.large_reduction?.share ?? null,
    vitality: answer?.vitality ?? "unknown",
    stability: answer?.stability ?? "unknown",
    verdict: answer?.verdict ?? "undecided",
    worst: worst ? nameOf(worst.work) : "",
    worstShare: worst?.share ?? 0,
    works: answer?.by_work.filter(takes).map((part) => part.work) ?? [],
  };
}

// From the mildest to the most severe action, so that sorting by verdict means something.
const ACTIONS = ["keep", "keep with measures", "assess further", "transplant", "remove", "undecided"];

function compare(a: LedgerLine, b: LedgerLine, column: Column, words: Intl.Collator): number {
  switch (column) {
    case "loss":
    case "kept":
      return (a[column]?.best ?? -1) - (b[column]?.best ?? -1);
    case "verdict":
      return ACTIONS.indexOf(a.verdict) - ACTIONS.indexOf(b.verdict);
    case "worst":
      return a.worstShare - b.worstShare;
    default:
      return words.compare(a[column], b[column]);
  }
}

export function sorted(lines: readonly LedgerLine[], order: Order, language: string): LedgerLine[] {
  const sign = order.down ? -1 : 1;
  const words = new Intl.Collator(language, { numeric: true });
  return [...lines].sort((a, b) => sign * compare(a, b, order.column, words) || compare(a, b, "label", words));
}

// Each word of the wish must occur somewhere in the line.
export function filtered(
  lines: readonly LedgerLine[],
  wish: string,
  shown: (line: LedgerLine) => string,
): LedgerLine[] {
  const words = wish.toLowerCase().split(/\s+/).filter(Boolean);
  return lines.filter((line) => words.every((word) => shown(line).toLowerCase().includes(word)));
}
