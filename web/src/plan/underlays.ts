// Pictures and drawings that lie under the plan: nothing of them is measured by the program.
import Feature from "ol/Feature";
import LineString from "ol/geom/LineString";
import ImageLayer from "ol/layer/Image";
import VectorLayer from "ol/layer/Vector";
import ImageCanvasSource from "ol/source/ImageCanvas";
import VectorSource from "ol/source/Vector";
import Stroke from "ol/style/Stroke";
import Style from "ol/style/Style";
import type { Position } from "../api/names";
import type { Sheet } from "../model/easel.svelte";
import type { Palette } from "./palette";

type Extent = number[];

function colourWith(opacity: number, palette: Palette): string {
  const hex = Math.round(255 * opacity)
    .toString(16)
    .padStart(2, "0");
  return `${palette.ink}${hex}`;
}

export class Underlays {
  readonly layers: [ImageLayer<ImageCanvasSource>, VectorLayer];
  readonly #pictures: ImageCanvasSource;
  readonly #lines = new VectorSource();
  readonly #loaded = new Map<string, HTMLImageElement>();
  #sheets: readonly Sheet[] = [];

  constructor(palette: () => Palette) {
    this.#pictures = new ImageCanvasSource({
      canvasFunction: (extent, resolution, ratio, size) =>
        this.#draw(extent, resolution / ratio, size as [number, number]),
      ratio: 1,
    });
    const style = (feature: { get(key: string): unknown }) =>
      new Style({ stroke: new Stroke({ color: colourWith(feature.get("opacity") as number, palette()), width: 1 }) });
    this.layers = [new ImageLayer({ source: this.#pictures }), new VectorLayer({ source: this.#lines, style })];
  }
  show(sheets: readonly Sheet[]): void {
    this.#sheets = sheets;
    for (const sheet of sheets) this.#load(sheet);
    this.#lines.clear(true);
    this.#lines.addFeatures(
      sheets
        .filter((sheet) => sheet.shown)
        .flatMap((sheet) =>
          sheet.lines
            .filter((line) => line.length > 1)
            .map((line) => new Feature({ geometry: new LineString(line), opacity: sheet.opacity })),
        ),
    );
    this.#pictures.changed();
  }
  #load(sheet: Sheet): void {
    const address = sheet.image?.address;
    if (!address || this.#loaded.has(address)) return;
    const image = new Image();
    image.onload = () => this.#pictures.changed();
    image.src = address;
    this.#loaded.set(address, image);
  }
  #draw(extent: Extent, metresPerPixel: number, [width, height]: [number, number]): HTMLCanvasElement {
    const canvas = document.createElement("canvas");
    canvas.width = width;
    canvas.height = height;
    const pen = canvas.getContext("2d");
    const onCanvas = ([x, y]: Position): Position => [
      (x - extent[0]!) / metresPerPixel,
      (extent[3]! - y) / metresPerPixel,
    ];
    for (const { shown, image, opacity } of this.#sheets) {
      const picture = image && this.#loaded.get(image.address);
      if (!pen || !shown || !image || !picture?.complete || picture.naturalWidth === 0) continue;
      const [o, right, down] = image.corners.map(onCanvas) as [Position, Position, Position];
      const [w, h] = [picture.naturalWidth, picture.naturalHeight];
      pen.globalAlpha = opacity;
      pen.setTransform((right[0] - o[0]) / w, (right[1] - o[1]) / w, (down[0] - o[0]) / h, (down[1] - o[1]) / h, ...o);
      pen.drawImage(picture, 0, 0);
    }
    return canvas;
  }
}
