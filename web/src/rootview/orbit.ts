// Where one stands while looking at the stem: a bearing, a height angle and a distance. East is +x,
// up is +y, north is -z.
export interface Orbit {
  bearing: number; // degrees clockwise from north, of the place one looks from
  tilt: number; // degrees; 90 looks straight down, below 0 up from under the roots
  distance: number; // metres
}
export type Spot = readonly [number, number, number];

export const LOWEST = -40;
const clamp = (value: number, least: number, most: number) => Math.min(most, Math.max(least, value));

export function turned(orbit: Orbit, bearing: number, tilt: number): Orbit {
  return {
    ...orbit,
    bearing: (((orbit.bearing + bearing) % 360) + 360) % 360,
    tilt: clamp(orbit.tilt + tilt, LOWEST, 90),
  };
}
export const nearer = (orbit: Orbit, factor: number): Orbit => ({
  ...orbit,
  distance: clamp(orbit.distance / factor, 0.5, 500),
});

const rad = (degrees: number) => (degrees * Math.PI) / 180;
export function standing({ bearing, tilt, distance }: Orbit): Spot {
  const flat = Math.cos(rad(tilt)) * distance;
  return [flat * Math.sin(rad(bearing)), Math.sin(rad(tilt)) * distance, -flat * Math.cos(rad(bearing))];
}
// What is up on the screen; well defined straight from above too.
export function upward({ bearing, tilt }: Orbit): Spot {
  const back = -Math.sin(rad(tilt));
  return [back * Math.sin(rad(bearing)), Math.cos(rad(tilt)), -back * Math.cos(rad(bearing))];
}

export const VIEWS = ["slant", "top", "south", "east"] as const;
export type Named = (typeof VIEWS)[number];
export function named(view: Named, distance: number): Orbit {
  if (view === "top") return { bearing: 180, tilt: 90, distance };
  if (view === "south") return { bearing: 180, tilt: 0, distance };
  if (view === "east") return { bearing: 90, tilt: 0, distance };
  return { bearing: 215, tilt: 28, distance };
}

// What a key does; undefined where it is none of the view's.
export function byKey(orbit: Orbit, key: string, home: number): Orbit | undefined {
  switch (key) {
    case "ArrowLeft":
      return turned(orbit, 10, 0);
    case "ArrowRight":
      return turned(orbit, -10, 0);
    case "ArrowUp":
      return turned(orbit, 0, 10);
    case "ArrowDown":
      return turned(orbit, 0, -10);
    case "+":
    case "=":
      return nearer(orbit, 1.25);
    case "-":
      return nearer(orbit, 0.8);
    case "Home":
      return named("slant", home);
    default:
      return undefined;
  }
}
