// A section line of one's own, without drawing it: through a stem, by its bearing.
import type { Line, Position } from "../api/names";

export function lineThrough([x, y]: Position, bearingDeg: number, reach: number): Line {
  const angle = (bearingDeg * Math.PI) / 180; // clockwise from grid north
  const [dx, dy] = [Math.sin(angle) * reach, Math.cos(angle) * reach];
  return [
    [x - dx, y - dy],
    [x + dx, y + dy],
  ];
}
