// What is drawn, measured or looked over for a while, above everything else. Line types tell it
// from what is saved: what comes in from a file is broken, what is measured is dotted.
import Feature, { type FeatureLike } from "ol/Feature";
import type Geometry from "ol/geom/Geometry";
import LineString from "ol/geom/LineString";
import Point from "ol/geom/Point";
import Polygon from "ol/geom/Polygon";
import VectorLayer from "ol/layer/Vector";
import VectorSource from "ol/source/Vector";
import Fill from "ol/style/Fill";
import RegularShape from "ol/style/RegularShape";
import Stroke from "ol/style/Stroke";
import Style from "ol/style/Style";
import Text from "ol/style/Text";
import type { Mark, MarkLook } from "../model/easel.svelte";
import { closed } from "../model/shape";
import type { Snapped } from "../model/snap";
import type { Palette } from "./palette";

const DASH: Partial<Record<MarkLook, number[]>> = { measured: [2, 4], incoming: [8, 5], "incoming-tree": [8, 5] };
const WIDTH: Partial<Record<MarkLook, number>> = { drawn: 3, measured: 2.5 };

function image(look: MarkLook | "aim", color: string, paper: string): RegularShape {
  const stroke = new Stroke({ color, width: 2 });
  const fill = new Fill({ color: look === "chosen-corner" ? color : paper });
  const declutterMode = "none"; // only names give way
  switch (look) {
    case "chosen-corner":
      return new RegularShape({ points: 4, radius: 9, angle: Math.PI / 4, fill, stroke, declutterMode });
    case "measured":
      return new RegularShape({ points: 4, radius: 7, radius2: 0, angle: Math.PI / 4, stroke, declutterMode });
    case "told":
      return new RegularShape({ points: 4, radius: 9, fill, stroke, declutterMode });
    case "incoming-tree":
      return new RegularShape({ points: 3, radius: 9, fill, stroke, declutterMode });
    case "incoming":
      return new RegularShape({ points: 6, radius: 7, fill, stroke, declutterMode });
    default:
      return new RegularShape({ points: 4, radius: 7, angle: Math.PI / 4, fill, stroke, declutterMode });
  }
}
function styleOf(feature: FeatureLike, palette: Palette): Style {
  const look = feature.get("look") as MarkLook;
  const color = look === "measured" ? palette.ink : look.startsWith("incoming") ? palette.work : palette.choice;
  const label = feature.get("label") as string | undefined;
  return new Style({
    stroke: new Stroke({ color, width: WIDTH[look] ?? 2, lineDash: DASH[look] ?? [] }),
    fill: new Fill({ color: palette.faint }),
    image: image(look, color, palette.paper),
    ...(label && {
      text: new Text({
        text: label,
        font: "700 13px system-ui, sans-serif",
        offsetY: -13,
        overflow: true,
        fill: new Fill({ color: palette.ink }),
        stroke: new Stroke({ color: palette.paper, width: 4 }),
      }),
    }),
  });
}
function parts({ shape }: Mark): Geometry[] {
  return [
    ...shape.areas.map((area) => new Polygon(area.map(closed))),
    ...shape.lines.map((line) => new LineString(line)),
    ...shape.points.map((point) => new Point(point)),
  ];
}

export class Marks {
  readonly #source = new VectorSource();
  readonly #aim = new Feature();
  readonly layer: VectorLayer;

  constructor(palette: () => Palette) {
    this.layer = new VectorLayer({
      source: this.#source,
      style: (feature) => styleOf(feature, palette()),
      zIndex: 9,
      declutter: "names",
    });
    this.#aim.set("look", "corner");
    this.#source.addFeature(this.#aim);
  }
  show(marks: readonly Mark[]): void {
    const features = marks.flatMap((mark) =>
      parts(mark).map((geometry, i) => new Feature({ geometry, look: mark.look, label: i === 0 ? mark.label : "" })),
    );
    this.#source.clear(true);
    this.#source.addFeatures([...features, this.#aim]);
  }
  // Where a click would put a place; shown where something draws it.
  aim(snapped: Snapped | null): void {
    const drawn = snapped?.to ? snapped : null;
    this.#aim.set("look", drawn?.to === "lines" ? "told" : "chosen-corner");
    this.#aim.setGeometry(drawn ? new Point(drawn.at) : undefined);
  }
}
