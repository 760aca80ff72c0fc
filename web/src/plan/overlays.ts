// What may be laid over the plan and taken off again: root tint, protection, evidence, and the line
// of the section. Each has a pattern or line type of its own; tiles and dashes are shared with the key.
import Feature, { type FeatureLike } from "ol/Feature";
import type OlMap from "ol/Map";
import type Geometry from "ol/geom/Geometry";
import LineString from "ol/geom/LineString";
import MultiLineString from "ol/geom/MultiLineString";
import MultiPolygon from "ol/geom/MultiPolygon";
import Point from "ol/geom/Point";
import Polygon from "ol/geom/Polygon";
import Draw from "ol/interaction/Draw";
import VectorLayer from "ol/layer/Vector";
import VectorSource from "ol/source/Vector";
import CircleStyle from "ol/style/Circle";
import Fill from "ol/style/Fill";
import RegularShape from "ol/style/RegularShape";
import Stroke from "ol/style/Stroke";
import Style from "ol/style/Style";
import Text from "ol/style/Text";
import type { OpeningOnPlan, Protection, RootTint } from "../api/looking";
import type { Line, Polygon as Area, Position, Shape, Site } from "../api/names";
import { closed } from "../model/shape";
import { marksAlong } from "./along";
import { tintSteps } from "./contours";
import { readPalette, type Palette } from "./palette";
import { canvasPattern, type Pattern } from "./patterns";

// Denser dots where more roots are.
export const tintPatterns: readonly Pattern[] = [
  { tile: 5, path: "M1 1.5h1.4M3.5 4h1.4" },
  { tile: 8, path: "M2 2.5h1.4M6 6.5h1.4" },
  { tile: 14, path: "M3 3.5h1.4M10 10.5h1.4" },
];
export const tintWidths = [2.25, 1.5, 0.9] as const;
export const groundPattern: Pattern = { tile: 10, path: "M0 2.5H10M0 7.5H10M5 2.5V7.5M0 -2.5V2.5M0 7.5V12M10 7.5V12" };
export const mulchPattern: Pattern = { tile: 12, path: "M1 3l3 2M7 8l3 -2M6 1l1 3M2 10l2 -1" };
export const openingPattern: Pattern = { tile: 7, path: "M0 0L7 7M0 3.5H3.5" };
export const BOUNDARY_DASH = [16, 4, 3, 4, 3, 4];
export const CUT_DASH = [14, 3, 3, 3];
export const HAND_DASH = [3, 3];

const feature = (role: string, geometry: Geometry, more: Record<string, unknown> = {}) =>
  new Feature({ geometry, role, ...more });
const areas = (list: readonly Area[]) => new MultiPolygon(list.map((area) => area.map(closed)));

function tintFeatures(tint: RootTint): Feature[] {
  return tintSteps(tint).flatMap((step, i) => [
    feature(
      "tint",
      new MultiPolygon(
        step.boxes.map(([w, s, e, n]) => [
          [
            [w, s],
            [e, s],
            [e, n],
            [w, n],
            [w, s],
          ],
        ]),
      ),
      { step: i },
    ),
    feature("contour", new MultiLineString(step.lines), { step: i, text: `${Math.round(step.part * 100)} %` }),
  ]);
}

function protectionFeatures(protection: Protection): Feature[] {
  const { fences, grounds, cut_lines, digging, gates, signs } = protection;
  const role = (kind: string) => (kind === "mulch" ? "mulch" : "ground");
  return [
    ...grounds.map((one) => feature(role(one.kind), areas(one.areas as Area[]), { text: one.id })),
    ...digging.map((one) => feature("digging", new LineString(one.line as Line), { text: one.id })),
    ...cut_lines.map((one) => feature("cut-line", new LineString(one.line as Line), { text: one.id })),
    ...fences.map((one) => feature("fence", new LineString(one.line as Line), { text: one.id })),
    ...gates.map((one) => feature("gate", new Point(one as Position))),
    ...signs.map((one) => feature("sign", new Point(one as Position))),
  ];
}

function openingFeatures(opening: OpeningOnPlan): Feature[] {
  const shape = opening.shape as Shape;
  const made = [
    ...shape.lines.map((line) => feature("opening", new LineString(line), { text: opening.id })),
    ...shape.areas.map((area) => feature("opening", new Polygon(area.map(closed)), { text: opening.id })),
    ...shape.points.map((point) => feature("opening", new Point(point), { text: opening.id })),
  ];
  const roots = opening.roots.flatMap((root) =>
    root.at
      ? [feature("found", new Point(root.at as Position), { alive: root.alive, size: root.diameter_m ?? 0 })]
      : [],
  );
  return [...made, ...roots];
}
const siteFeatures = (site: Site) =>
  (site.boundary ?? []).length > 0 ? [feature("boundary", areas(site.boundary as Area[]))] : [];

type Sheet = "tint" | "site" | "protection" | "evidence" | "section";

export class Overlays {
  readonly #sources: Record<Sheet, VectorSource> = {
    tint: new VectorSource(),
    site: new VectorSource(),
    protection: new VectorSource(),
    evidence: new VectorSource(),
    section: new VectorSource(),
  };
  readonly #layers: VectorLayer[];
  #palette: Palette = readPalette();
  #draw: Draw | null = null;

  constructor(private readonly map: OlMap) {
    const under = new Set(["tint", "site"]); // the rest lies over works and trees
    this.#layers = Object.entries(this.#sources).map(
      ([name, source]) =>
        new VectorLayer({
          source,
          style: (one, resolution) => overlayStyle(one, this.#palette, resolution),
          zIndex: under.has(name) ? -1 : 5,
          // What was found is named among the trees, so that no name hides another.
          declutter: name === "evidence" ? "names" : `over-${name}`,
          updateWhileAnimating: true,
          updateWhileInteracting: true,
        }),
    );
    for (const layer of this.#layers) map.addLayer(layer);
  }
  get drawing(): boolean {
    return this.#draw !== null;
  }
  relook(): void {
    this.#palette = readPalette();
    for (const layer of this.#layers) layer.changed();
  }

  showSite(site: Site): void {
    this.#fill("site", siteFeatures(site));
  }
  showTint(tint: RootTint | null): void {
    this.#fill("tint", tint ? tintFeatures(tint) : []);
  }
  showProtection(protection: Protection | null): void {
    this.#fill("protection", protection ? protectionFeatures(protection) : []);
  }
  showEvidence(openings: readonly OpeningOnPlan[]): void {
    this.#fill("evidence", openings.flatMap(openingFeatures));
  }
  showSection(line: Line | null): void {
    this.#fill("section", line ? [feature("section", new LineString(line))] : []);
  }
  // Two points set on the plan are a line.
  drawLine(done: ((line: Line) => void) | null): void {
    if (this.#draw) this.map.removeInteraction(this.#draw);
    this.#draw = null;
    if (!done) return;
    const draw = new Draw({
      type: "LineString",
      maxPoints: 2,
      style: new Style({ stroke: new Stroke({ color: this.#palette.choice, width: 2, lineDash: [8, 4] }) }),
    });
    draw.on("drawend", (event) => done((event.feature.getGeometry() as LineString).getCoordinates() as Line));
    this.#draw = draw;
    this.map.addInteraction(draw);
  }

  #fill(name: Sheet, features: Feature[]): void {
    this.#sources[name].clear(true);
    this.#sources[name].addFeatures(features);
  }
}

const NEAR = 0.1; // metres a pixel
const PROTECTS = new Set(["ground", "digging", "cut-line", "fence"]);

const stroke = (color: string, width: number, lineDash: number[] = []) => new Stroke({ color, width, lineDash });
const tiled = (pattern: Pattern, color: string) => new Fill({ color: canvasPattern(pattern, color) ?? "transparent" });
function words(text: string, { ink, paper }: Palette, more: Partial<ConstructorParameters<typeof Text>[0]> = {}): Text {
  return new Text({
    text,
    font: "600 11px system-ui, sans-serif",
    fill: new Fill({ color: ink }),
    stroke: new Stroke({ color: paper, width: 3 }),
    overflow: true,
    ...more,
  });
}

// Short strokes across a line, so many pixels apart.
function teeth(one: FeatureLike, resolution: number, apart: number, image: (angle: number) => RegularShape): Style[] {
  const line = (one.getGeometry() as LineString).getCoordinates() as Line;
  return marksAlong(line, apart * resolution).map(
    ({ at, angle }) => new Style({ geometry: new Point(at), image: image(angle) }),
  );
}
const bar = (color: string, radius: number, angle: number) =>
  new RegularShape({ points: 2, radius, rotation: -angle, stroke: stroke(color, 1.75), declutterMode: "none" });
const cross = (color: string) => (angle: number) =>
  new RegularShape({
    points: 4,
    radius: 5,
    radius2: 0,
    angle: Math.PI / 4,
    rotation: -angle,
    stroke: stroke(color, 1.75),
    declutterMode: "none",
  });

const sign = (palette: Palette) =>
  new RegularShape({
    points: 3,
    radius: 7,
    rotation: Math.PI,
    fill: new Fill({ color: palette.paper }),
    stroke: stroke(palette.ink, 1.75),
    declutterMode: "none",
  });

function overlayStyle(one: FeatureLike, palette: Palette, resolution: number): Style[] {
  const role: string = one.get("role");
  // Names of what protects are read from near; from far they would hide the plan.
  const text: string = resolution < NEAR || !PROTECTS.has(role) ? (one.get("text") ?? "") : "";
  switch (role) {
    case "tint":
      return [new Style({ fill: tiled(tintPatterns[one.get("step") as number]!, palette.leaf) })];
    case "contour":
      return [
        new Style({
          stroke: stroke(palette.leaf, tintWidths[one.get("step") as 0 | 1 | 2]),
          text: words(text, palette, { placement: "line", maxAngle: Math.PI }),
        }),
      ];
    case "boundary":
      return [new Style({ stroke: stroke(palette.ink, 1.5, BOUNDARY_DASH) })];
    case "ground":
      return [
        new Style({
          fill: tiled(groundPattern, palette.ink),
          stroke: stroke(palette.ink, 1),
          text: words(text, palette),
        }),
      ];
    case "mulch":
      return [new Style({ fill: tiled(mulchPattern, palette.ink) })];
    case "sign":
      return resolution < NEAR ? [new Style({ image: sign(palette) })] : []; // from far they hide the fence
    case "digging":
      return [
        new Style({ stroke: stroke(palette.ink, 6, HAND_DASH) }),
        new Style({ stroke: stroke(palette.paper, 3), text: words(text, palette, { placement: "line", offsetY: 9 }) }),
      ];
    case "cut-line":
      return [
        new Style({
          stroke: stroke(palette.ink, 2, CUT_DASH),
          text: words(text, palette, { placement: "line", offsetY: -9 }),
        }),
        ...teeth(one, resolution, 18, (angle) => bar(palette.ink, 5, angle)),
      ];
    case "fence":
      return [
        new Style({
          stroke: stroke(palette.ink, 2),
          text: words(text, palette, { placement: "line", offsetY: -10 }),
        }),
        ...teeth(one, resolution, 22, cross(palette.ink)),
      ];
    case "gate":
      return [
        new Style({
          image: new RegularShape({
            points: 4,
            radius: 8,
            angle: Math.PI / 4,
            fill: new Fill({ color: palette.paper }),
            stroke: stroke(palette.ink, 2),
          }),
          text: words("G", palette),
        }),
      ];
    case "section":
      return sectionStyle(one, palette);
    case "found":
      return foundStyle(one, palette, resolution);
    default:
      return openingStyle(one, text, palette);
  }
}
function openingStyle(one: FeatureLike, text: string, palette: Palette): Style[] {
  const named = words(text, palette, { offsetY: 12 });
  if (one.getGeometry() instanceof Point) {
    const image = new RegularShape({
      points: 3,
      radius: 7,
      fill: new Fill({ color: palette.paper }),
      stroke: stroke(palette.choice, 2),
      declutterMode: "none",
    });
    return [new Style({ image, text: named })];
  }
  return [
    new Style({
      fill: tiled(openingPattern, palette.choice),
      stroke: stroke(palette.choice, 2, [1, 3]),
      text: named,
    }),
  ];
}
// A ring where a root was found; crossed where it was dead.
function foundStyle(one: FeatureLike, palette: Palette, resolution: number): Style[] {
  const radius = Math.max(3.5, (one.get("size") as number) / 2 / resolution);
  const ring = new CircleStyle({
    radius,
    fill: new Fill({ color: palette.paper }),
    stroke: stroke(palette.choice, 2),
    declutterMode: "none",
  });
  const made = [new Style({ image: ring })];
  if (!one.get("alive")) made.push(new Style({ image: cross(palette.ink)(0) }));
  return made;
}
function sectionStyle(one: FeatureLike, palette: Palette): Style[] {
  const line = (one.getGeometry() as LineString).getCoordinates() as Line;
  const end = (at: Position, text: string) =>
    new Style({
      geometry: new Point(at),
      image: new CircleStyle({
        radius: 9,
        fill: new Fill({ color: palette.paper }),
        stroke: stroke(palette.ink, 1.5),
        declutterMode: "none",
      }),
      text: words(text, palette, { declutterMode: "none" }),
      zIndex: 70,
    });
  return [new Style({ stroke: stroke(palette.ink, 1.5, [12, 4, 2, 4]) }), end(line[0]!, "A"), end(line.at(-1)!, "B")];
}
