// Lengths as a person writes them into a field, with the unit beside. What is written stays as
// written; only a bare number gets the unit of the chosen system. Feet are international, 0.3048 m.
import type { Units } from "../words/format";

const METRES: Record<string, number> = { m: 1, cm: 0.01, mm: 0.001, ft: 0.3048, in: 0.0254 };
const US: Record<string, string> = { m: "ft", cm: "in", mm: "in", ft: "ft", in: "in" };
const METRIC: Record<string, string> = { ft: "m", in: "mm", m: "m", cm: "cm", mm: "mm" };
const LENGTH = /^\s*([-+]?\d+(?:[.,]\d+)?)\s*(mm|cm|m|ft|in)\s*$/;

export function metresOf(text: string): number | null {
  const found = LENGTH.exec(text);
  return found ? Number(found[1]!.replace(",", ".")) * METRES[found[2]!]! : null;
}
// The unit that a field with this example takes in this system; null where it is no length.
export function unitFor(example: string, units: Units): string | null {
  const unit = LENGTH.exec(example)?.[2];
  return unit ? (units === "us" ? US : METRIC)[unit]! : null;
}
export function withUnit(text: string, example: string, units: Units): string {
  const unit = unitFor(example, units);
  const bare = /^\s*[-+]?\d+([.,]\d+)?\s*$/.test(text);
  return unit && bare ? `${text.trim()} ${unit}` : text.trim();
}
// The same length in the chosen system, where it is written in the other one; else null.
export function saidOtherwise(text: string, units: Units): string | null {
  const unit = LENGTH.exec(text)?.[2];
  const metres = metresOf(text);
  if (!unit || metres === null) return null;
  const other = (units === "us" ? US : METRIC)[unit]!;
  if (other === unit) return null;
  const value = metres / METRES[other]!;
  return `${value.toFixed(other === "mm" ? 0 : 2)} ${other}`;
}
