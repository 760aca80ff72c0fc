// Between the interface's shapes and the map's features. A feature knows what it is by `role`.
import Feature from "ol/Feature";
import type Geometry from "ol/geom/Geometry";
import Circle from "ol/geom/Circle";
import LineString from "ol/geom/LineString";
import MultiPolygon from "ol/geom/MultiPolygon";
import Point from "ol/geom/Point";
import Polygon from "ol/geom/Polygon";
import type {
  BarrierOnPlan,
  Line,
  Polygon as Area,
  Position,
  Shape,
  TreeOnPlan,
  WorkOnPlan,
  ZoneOnPlan,
} from "../api/names";
import { closed, crownOutline, opened } from "../model/shape";

export type Role = "crown" | "stem" | "tree" | "zone" | "footprint" | "room" | "handle" | "barrier";

function feature(role: Role, id: string, geometry: Geometry, more: Record<string, unknown> = {}): Feature {
  const made = new Feature({ geometry, role, of: id, ...more });
  return made;
}
const areas = (list: readonly Area[]) => new MultiPolygon(list.map((area) => area.map(closed)));

export function treeFeatures(tree: TreeOnPlan): Feature[] {
  if (!tree.at) return [];
  const at = tree.at as Position;
  const made = [feature("tree", tree.id, new Point(at), { label: tree.label, palm: tree.palm })];
  if (tree.stem_diameter_m) made.push(feature("stem", tree.id, new Circle(at, tree.stem_diameter_m / 2)));
  if (tree.crown) made.push(feature("crown", tree.id, new Polygon([closed(crownOutline(at, tree.crown))])));
  return made;
}

export const zoneFeature = (zone: ZoneOnPlan): Feature =>
  feature("zone", zone.tree, areas(zone.areas as Area[]), { rule: zone.rule });

// What can be taken hold of: one feature for each line, area and point of the shape.
function parts(shape: Shape): Geometry[] {
  return [
    ...shape.lines.map((line) => new LineString(line)),
    ...shape.areas.map((area) => new Polygon(area.map(closed))),
    ...shape.points.map((point) => new Point(point)),
  ];
}

export function barrierFeatures(barrier: BarrierOnPlan): Feature[] {
  return parts(barrier.shape as Shape).map((part) => feature("barrier", barrier.id, part, { kind: barrier.kind }));
}

export function workFeatures(work: WorkOnPlan): Feature[] {
  const { kind, movable } = work;
  return [
    feature("room", work.id, areas(work.working_room as Area[]), { kind }),
    feature("footprint", work.id, areas(work.footprint as Area[]), { kind }),
    ...parts(work.shape as Shape).map((part, i) =>
      feature("handle", work.id, part, { kind, movable, label: i === 0 ? work.name || work.id : "" }),
    ),
  ];
}

export function shapeOf(handles: readonly Feature[]): Shape {
  const shape: Shape = { lines: [], areas: [], points: [] };
  for (const handle of handles) {
    const part = handle.getGeometry();
    if (part instanceof LineString) shape.lines.push(part.getCoordinates() as Line);
    if (part instanceof Polygon) shape.areas.push((part.getCoordinates() as Line[]).map(opened));
    if (part instanceof Point) shape.points.push(part.getCoordinates() as Position);
  }
  return shape;
}

export function setShape(handles: readonly Feature[], shape: Shape): void {
  parts(shape).forEach((part, i) => handles[i]?.setGeometry(part));
}
