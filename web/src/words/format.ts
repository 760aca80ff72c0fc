// How figures are shown. Everything inside is metric; only what is read changes.
export type Units = "metric" | "us";
export const FOOT = 0.3048;

function number(value: number, digits: number, language: string): string {
  return new Intl.NumberFormat(language, { maximumFractionDigits: digits, minimumFractionDigits: digits }).format(
    value,
  );
}

// A share as per cent, without the sign: one decimal below ten, none above, so that a range does
// not claim more than it knows.
export function percentNumber(share: number, language: string): string {
  const percent = 100 * share;
  const digits = percent > 0 && percent < 9.95 ? 1 : 0;
  return number(percent, digits, language);
}
export function percent(share: number, language: string): string {
  return `${percentNumber(share, language)}\u00a0%`;
}

export function length(metres: number, units: Units, language: string): string {
  if (units === "us") return `${number(metres / FOOT, 1, language)}\u00a0ft`;
  return `${number(metres, 2, language)}\u00a0m`;
}

export function stem(metres: number, units: Units, language: string): string {
  if (units === "us") return `${number((metres / FOOT) * 12, 1, language)}\u00a0in`;
  return `${number(metres * 1000, 0, language)}\u00a0mm`;
}

export function area(squareMetres: number, units: Units, language: string): string {
  if (units === "us") return `${number(squareMetres / (FOOT * FOOT), 0, language)}\u00a0ft²`;
  return `${number(squareMetres, squareMetres < 1000 ? 1 : 0, language)}\u00a0m²`;
}
export const unitName = (units: Units): string => (units === "us" ? "ft" : "m");
export const toMetres = (value: number, units: Units): number => (units === "us" ? value * FOOT : value);
export const fromMetres = (metres: number, units: Units): number =>
  units === "us" ? Math.round((metres / FOOT) * 1000) / 1000 : metres;

// The longest round length (1, 2 or 5 times a power of ten) that fits.
export function roundLength(most: number): number {
  const power = 10 ** Math.floor(Math.log10(most));
  const step = [5, 2, 1].find((factor) => factor * power <= most) ?? 1;
  return step * power;
}

// The shortest round length that is not below.
export function roundAbove(least: number): number {
  const power = 10 ** Math.floor(Math.log10(least) + 1e-9);
  const step = [1, 2, 5].find((factor) => factor * power >= least * (1 - 1e-9)) ?? 10;
  return step * power;
}

export interface ScaleBar {
  pixels: number;
  label: string;
  ratio: number; // 1 : ratio, at the nominal 96 pixels an inch
}

export function scaleBar(metresPerPixel: number, units: Units, language: string, widest = 140): ScaleBar {
  const unit = units === "us" ? FOOT : 1;
  const round = roundLength((widest * metresPerPixel) / unit);
  const digits = round < 1 ? Math.ceil(-Math.log10(round)) : 0;
  const ratio = metresPerPixel / (0.0254 / 96);
  return {
    pixels: (round * unit) / metresPerPixel,
    label: `${number(round, digits, language)}\u00a0${unitName(units)}`,
    ratio: Number(ratio.toPrecision(2)),
  };
}
