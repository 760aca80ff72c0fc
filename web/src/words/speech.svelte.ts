// Language and units of the page, and the sentences in that language.
import en from "../messages/en.json";
import de from "../messages/de.json";
import type { Units } from "./format";

export type Key = keyof typeof en;
export type Language = "en" | "de";
const files: Record<Language, Record<Key, string>> = { en, de };

function kept(name: string): string | null {
  try {
    return localStorage.getItem(name);
  } catch {
    return null; // storage may be shut off; the page works without
  }
}
function keep(name: string, value: string): void {
  try {
    localStorage.setItem(name, value);
  } catch {
    // as above
  }
}

function firstLanguage(): Language {
  const wish = kept("rootstead.language") ?? navigator.language;
  return wish.startsWith("de") ? "de" : "en";
}

class Speech {
  language = $state<Language>(firstLanguage());
  units = $state<Units>("metric");

  speak(language: Language): void {
    this.language = language;
    document.documentElement.lang = language;
    keep("rootstead.language", language);
  }
  measureIn(units: Units): void {
    this.units = units;
    keep("rootstead.units", units);
  }
  // The project's own units unless this reader has chosen others.
  startWith(units: Units): void {
    const wish = kept("rootstead.units");
    this.units = wish === "metric" || wish === "us" ? wish : units;
  }
}
export const speech = new Speech();

export function t(key: Key, values: Record<string, string | number> = {}): string {
  return files[speech.language][key].replace(/\{(\w+)\}/g, (whole, name: string) => String(values[name] ?? whole));
}

// Words that come from the server and have a fixed list (kinds, verdicts); others stay as they are.
export function word(list: string, said: string): string {
  const key = `${list}.${said.replaceAll(/[_-]/g, " ")}` as Key;
  return files[speech.language][key] ?? said;
}

// A field of the interface by its name there: in the page's words where it has them.
export function fieldName(field: string): string {
  const key = `field.${field}` as Key;
  return files[speech.language][key] ?? field.replaceAll("_", " ");
}
