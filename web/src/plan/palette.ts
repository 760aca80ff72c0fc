// Colours of the drawing come from the style sheet, so that light and dark are written once.
const NAMES = ["paper", "ink", "faint", "wood", "leaf", "zone", "work", "choice"] as const;
export type Palette = Record<(typeof NAMES)[number], string>;

export function readPalette(): Palette {
  const style = getComputedStyle(document.documentElement);
  const entries = NAMES.map((name) => [name, style.getPropertyValue(`--${name}`).trim() || "#888"]);
  return Object.fromEntries(entries) as Palette;
}

export function onPaletteChange(react: () => void): () => void {
  const dark = matchMedia("(prefers-color-scheme: dark)");
  dark.addEventListener("change", react);
  return () => dark.removeEventListener("change", react);
}
