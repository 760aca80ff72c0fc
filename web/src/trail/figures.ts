// Figures as the program tells them: finding one, grouping them, writing its value.
import type { Figure } from "../api/looking";
import { FOOT, percent, percentNumber, type Units } from "../words/format";

// `why --json` calls the name "figure"; the interface promises "name". Either is read.
export function read(raw: unknown): Figure {
  const figure = raw as Figure & { figure?: string };
  return { ...figure, name: figure.name ?? figure.figure ?? "" };
}

export function find(figures: readonly Figure[], name: string, work = ""): Figure | undefined {
  return figures.find((one) => one.name === name && (work === "" || (one.work ?? "") === work));
}

export interface Topic {
  topic: string;
  figures: Figure[];
}
// By the first part of the name, in the order in which topics are met; each word of the wish must
// occur in the name, the formula, the source or the status.
export function topics(figures: readonly Figure[], wish: string): Topic[] {
  const words = wish.toLowerCase().split(/\s+/).filter(Boolean);
  const made = new Map<string, Figure[]>();
  for (const figure of figures) {
    const text = [figure.name, figure.work, figure.formula, figure.source, figure.status].join(" ").toLowerCase();
    if (!words.every((word) => text.includes(word))) continue;
    const topic = figure.name.split(".")[0] ?? "";
    made.set(topic, [...(made.get(topic) ?? []), figure]);
  }
  return [...made].map(([topic, list]) => ({ topic, figures: list }));
}

const US: Record<string, { unit: string; factor: number }> = {
  m: { unit: "ft", factor: 1 / FOOT },
  m2: { unit: "ft²", factor: 1 / FOOT ** 2 },
  mm: { unit: "in", factor: 1 / 25.4 },
};
const SIGNS: Record<string, string> = { m2: "m²", m3: "m³", deg: "°" };

// Three figures that count: more would claim what no field note knows.
function digits(value: number, language: string): string {
  return new Intl.NumberFormat(language, { maximumSignificantDigits: 3 }).format(value);
}

export function valueText(figure: Figure, units: Units, language: string): string {
  if (figure.word) return figure.word;
  if (figure.value === null || figure.value === undefined) return "–";
  if (isShare(figure)) return shareText(figure, language);
  const us = units === "us" ? US[figure.unit ?? ""] : undefined;
  const unit = us?.unit ?? SIGNS[figure.unit ?? ""] ?? figure.unit ?? "";
  const written = (value: number) => digits(value * (us?.factor ?? 1), language);
  const tail = unit === "" ? "" : `\u00a0${unit}`;
  return isRange(figure)
    ? `${written(figure.low!)}–${written(figure.value)}–${written(figure.high!)}${tail}`
    : `${written(figure.value)}${tail}`;
}

// Shares have no unit; they are read as per cent.
const isShare = ({ name, unit }: Figure): boolean =>
  !unit && /(^|[.-])(loss|share|kept|before|after)([.-]|$)/.test(name);
function shareText(figure: Figure, language: string): string {
  const said = (value: number) => percentNumber(value, language);
  return isRange(figure)
    ? `${said(figure.low!)}–${said(figure.value!)}–${percent(figure.high!, language)}`
    : percent(figure.value!, language);
}

export const isRange = (figure: Figure): boolean =>
  figure.low !== undefined && figure.high !== undefined && figure.low !== figure.high;
