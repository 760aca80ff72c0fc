// How each role is drawn. Styles are made when drawn, so that a change of palette needs no more
// than a redraw.
import type { FeatureLike } from "ol/Feature";
import MultiPoint from "ol/geom/MultiPoint";
import type Geometry from "ol/geom/Geometry";
import LineString from "ol/geom/LineString";
import Point from "ol/geom/Point";
import Polygon from "ol/geom/Polygon";
import CircleStyle from "ol/style/Circle";
import Fill from "ol/style/Fill";
import RegularShape from "ol/style/RegularShape";
import Stroke from "ol/style/Stroke";
import Style from "ol/style/Style";
import Text from "ol/style/Text";
import type { Palette } from "./palette";
import { canvasPattern, outlineOf, patternOf, ROOM_DASH, roomPattern, type Pattern } from "./patterns";

export interface Look {
  palette: Palette;
  rules: Map<string, number[]>;
  tree: string | null;
  work: string | null;
}

const FONT = "600 12px system-ui, sans-serif";

function label(text: string, look: Look, dx: number, dy: number, heavy: boolean): Text {
  return new Text({
    text,
    font: heavy ? FONT.replace("600 12px", "700 14px") : FONT,
    textAlign: "left",
    offsetX: dx,
    offsetY: dy,
    overflow: true,
    declutterMode: heavy ? "obstacle" : "declutter", // the chosen one is always named, others give way
    fill: new Fill({ color: look.palette.ink }),
    stroke: new Stroke({ color: look.palette.paper, width: 3 }),
  });
}
const tiled = (pattern: Pattern, colour: string) =>
  new Fill({ color: canvasPattern(pattern, colour) ?? "transparent" });

// The tick stands for the stem where the scale makes it too small to see; palms have another one.
function tick(palm: boolean, look: Look, chosen: boolean): RegularShape {
  const stroke = new Stroke({ color: chosen ? look.palette.choice : look.palette.ink, width: chosen ? 2.5 : 1.5 });
  return new RegularShape({ points: palm ? 5 : 4, radius: chosen ? 8 : 5, radius2: 0, stroke, declutterMode: "none" });
}
function treeStyle(feature: FeatureLike, look: Look): Style[] {
  const chosen = feature.get("of") === look.tree;
  const marked = new Style({
    image: tick(feature.get("palm"), look, chosen),
    text: label(feature.get("label"), look, 9, -9, chosen),
    zIndex: chosen ? 60 : 50,
  });
  if (!chosen) return [marked];
  const ring = new CircleStyle({
    radius: 13,
    stroke: new Stroke({ color: look.palette.choice, width: 2.5 }),
    declutterMode: "none",
  });
  return [new Style({ image: ring, zIndex: 59 }), marked];
}

function zoneStyle(feature: FeatureLike, look: Look): Style {
  const chosen = feature.get("of") === look.tree;
  const lineDash = look.rules.get(feature.get("rule")) ?? [];
  return new Style({
    stroke: new Stroke({
      color: chosen ? look.palette.choice : look.palette.zone,
      width: chosen ? 2.5 : 1.25,
      lineDash,
    }),
  });
}

function footprintStyle(feature: FeatureLike, look: Look): Style {
  const chosen = feature.get("of") === look.work;
  const color = chosen ? look.palette.choice : look.palette.work;
  const kind: string = feature.get("kind");
  return new Style({
    fill: tiled(patternOf(kind), color),
    stroke: new Stroke({ color, width: chosen ? 2.5 : 1.5, lineDash: outlineOf(kind) }),
    zIndex: chosen ? 30 : 20,
  });
}
function roomStyle(_feature: FeatureLike, look: Look): Style {
  return new Style({
    fill: tiled(roomPattern, look.palette.work),
    stroke: new Stroke({ color: look.palette.work, width: 1, lineDash: ROOM_DASH }),
  });
}

// Corners that can be dragged are shown on the chosen work only.
function handleStyle(feature: FeatureLike, look: Look): Style[] {
  const chosen = feature.get("of") === look.work;
  const color = chosen ? look.palette.choice : look.palette.work;
  const line = new Style({ stroke: new Stroke({ color, width: 1, lineDash: [1, 3] }), zIndex: 31 });
  const named = new Style({
    text: label(feature.get("label"), look, 6, 12, chosen),
    geometry: (f) => middle(f.getGeometry() as Geometry),
  });
  if (!chosen || !feature.get("movable")) return [line, named];
  const square = new RegularShape({
    points: 4,
    radius: 7,
    angle: Math.PI / 4,
    fill: new Fill({ color: look.palette.paper }),
    stroke: new Stroke({ color, width: 2 }),
    declutterMode: "none",
  });
  return [line, named, new Style({ image: square, geometry: (f) => corners(f.getGeometry() as Geometry), zIndex: 40 })];
}
function middle(part: Geometry): Geometry {
  if (part instanceof LineString) return new Point(part.getCoordinateAt(0.25));
  return part instanceof Polygon ? part.getInteriorPoint() : part;
}
export function corners(part: Geometry): Geometry {
  if (part instanceof LineString) return new MultiPoint(part.getCoordinates());
  if (part instanceof Polygon) return new MultiPoint(part.getCoordinates().flat());
  return part;
}

// A barrier: a heavy line with a light core, as a wall is seen from above.
function barrierStyle(_feature: FeatureLike, look: Look): Style[] {
  const { ink, paper } = look.palette;
  return [
    new Style({ stroke: new Stroke({ color: ink, width: 5, lineCap: "butt" }) }),
    new Style({ stroke: new Stroke({ color: paper, width: 2, lineCap: "butt", lineDash: [6, 3] }) }),
  ];
}

export function styleOf(feature: FeatureLike, look: Look): Style | Style[] {
  switch (feature.get("role")) {
    case "tree":
      return treeStyle(feature, look);
    case "stem":
      return new Style({ fill: new Fill({ color: look.palette.wood }), zIndex: 45 });
    case "crown":
      return new Style({
        stroke: new Stroke({ color: look.palette.leaf, width: 1 }),
        fill: new Fill({ color: look.palette.faint }),
      });
    case "zone":
      return zoneStyle(feature, look);
    case "footprint":
      return footprintStyle(feature, look);
    case "room":
      return roomStyle(feature, look);
    case "handle":
      return handleStyle(feature, look);
    default:
      return barrierStyle(feature, look);
  }
}
