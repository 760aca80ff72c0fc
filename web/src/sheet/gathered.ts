// Lines of one name put together, in the order in which the names are met; a line told twice is kept once.
import type { Named } from "../api/looking";

export interface Gathered {
  name: string;
  texts: string[];
}
export function gathered(lines: readonly Named[]): Gathered[] {
  const made = new Map<string, Set<string>>();
  for (const { name, text } of lines) made.set(name, (made.get(name) ?? new Set()).add(text));
  return [...made].map(([name, texts]) => ({ name, texts: [...texts] }));
}
