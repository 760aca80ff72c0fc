// Arrow keys as directions: east, north.
export type Direction = readonly [number, number];

const DIRECTIONS: Record<string, Direction> = {
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
  ArrowRight: [1, 0],
  ArrowLeft: [-1, 0],
};

export function directionOf(
  event: Pick<KeyboardEvent, "key" | "ctrlKey" | "altKey" | "metaKey">,
): Direction | undefined {
  if (event.ctrlKey || event.altKey || event.metaKey) return undefined; // the browser's own
  return DIRECTIONS[event.key];
}
