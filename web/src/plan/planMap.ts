// The drawing: a map in the plain metres of the site, without any background from elsewhere.
import type Feature from "ol/Feature";
import OlMap from "ol/Map";
import type MapBrowserEvent from "ol/MapBrowserEvent";
import View from "ol/View";
import DoubleClickZoom from "ol/interaction/DoubleClickZoom";
import { defaults as interactions } from "ol/interaction/defaults";
import VectorLayer from "ol/layer/Vector";
import VectorImageLayer from "ol/layer/VectorImage";
import Projection from "ol/proj/Projection";
import VectorSource from "ol/source/Vector";
import type { Position, Shape, Site, WorkOnPlan } from "../api/names";
import type { Mark, Sheet } from "../model/easel.svelte";
import type { Snapped, Switches } from "../model/snap";
import { boxOf, positionsOf } from "../model/shape";
import { barrierFeatures, setShape, treeFeatures, workFeatures, zoneFeature } from "./features";
import { Holding, type Hands } from "./holding";
import { Overlays } from "./overlays";
import { onPaletteChange, readPalette } from "./palette";
import { Marks } from "./marks";
import { lineTypes } from "./patterns";
import { styleOf, type Look } from "./styles";
import { Underlays } from "./underlays";

export interface PlanEvents extends Hands {
  tree(id: string): void;
  work(id: string): void;
  viewed(metresPerPixel: number, centre: Position): void;
  // While places are asked for: `reach` is how far, in metres, a place may be drawn to another.
  aimed(at: Position, reach: number): Snapped | null;
  taken(at: Position, reach: number): void;
  finished(): void;
}
const REACH = 12; // pixels
const MANY = 1000; // trees; more are drawn into a picture, which is what moves until the plan is let go

type Box = [number, number, number, number];
const grown = ([w, s, e, n]: Box, by: number): Box => [w - by, s - by, e + by, n + by];

function boxOfSite(site: Site): Box {
  const trees = site.trees.flatMap((tree) => (tree.at ? [tree.at as Position] : []));
  const zones = site.zones.flatMap((zone) => zone.areas.flat(2) as Position[]);
  const works = site.works.flatMap((work) => [
    ...positionsOf(work.shape as Shape),
    ...(work.footprint.flat(2) as Position[]),
  ]);
  return boxOf([...trees, ...zones, ...works]) ?? [0, 0, 100, 100];
}

export class PlanMap {
  readonly #map: OlMap;
  readonly #trees = new VectorSource();
  readonly #works = new VectorSource();
  readonly #still = new VectorSource(); // zones, crowns, barriers: nothing of it is taken hold of
  readonly #layers: (VectorLayer | VectorImageLayer)[];
  readonly #holding: Holding;
  readonly overlays: Overlays;
  readonly #marks: Marks;
  readonly #underlays: Underlays;
  readonly #stop: () => void;
  #look: Look = { palette: readPalette(), rules: new Map(), tree: null, work: null };
  #box: Box | null = null;
  #taking = false;
  #snap: Switches = { corners: true, lines: true, stems: true };
  #takenOn: [number, number] = [-99, -99]; // pixels
  #twice = false;
  #takenAt = -Infinity; // milliseconds; the slow single click that follows is not another one
  #untouched = true; // until then the whole site stays in view, however the page is laid out

  constructor(
    target: HTMLElement,
    private readonly events: PlanEvents,
  ) {
    this.#layers = [this.#still, this.#works, this.#trees].map((source) => this.#drawn(source));
    this.#marks = new Marks(() => this.#look.palette);
    this.#underlays = new Underlays(() => this.#look.palette);
    this.#map = new OlMap({
      target,
      layers: [...this.#underlays.layers, ...this.#layers, this.#marks.layer],
      controls: [],
      interactions: interactions({ altShiftDragRotate: false, pinchRotate: false, zoomDuration: 0 }),
    });
    this.#holding = new Holding(this.#map, events);
    this.overlays = new Overlays(this.#map);
    this.#map.on("singleclick", (event) => this.#clicked(event));
    this.#map.on("click", (event) => this.#taking && this.#take(event));
    this.#map.on("dblclick", () => void (this.#taking && this.#twice && events.finished()));
    this.#map.on("pointermove", (event) => this.#aim(event));
    this.#map.on("change:size", () => this.#untouched && this.whole());
    for (const kind of ["pointerdown", "wheel", "keydown"]) {
      target.addEventListener(kind, () => void (this.#untouched = false), { passive: true });
    }
    this.#stop = onPaletteChange(() => this.#relook({ palette: readPalette() }));
  }
  destroy(): void {
    this.#stop();
    this.#map.setTarget(undefined);
  }

  showGround(site: Site): void {
    this.#look.rules = lineTypes([...new Set(site.zones.map((zone) => zone.rule))]);
    const trees = site.trees.flatMap(treeFeatures);
    const crowns = trees.filter((feature) => feature.get("role") === "crown");
    this.overlays.showSite(site);
    this.#refill(this.#still, [...crowns, ...site.zones.map(zoneFeature), ...site.barriers.flatMap(barrierFeatures)]);
    this.#refill(
      this.#trees,
      trees.filter((feature) => feature.get("role") !== "crown"),
    );
    if (this.#box) return;
    if (site.trees.length > MANY) this.#drawAsPictures();
    this.#open(boxOfSite(site));
  }
  showWorks(works: readonly WorkOnPlan[]): void {
    if (this.#holding.held !== null) return; // drawn again on release
    this.#refill(this.#works, works.flatMap(workFeatures));
    this.#grasp();
  }
  choose(tree: string | null, work: string | null): void {
    const other = work !== this.#look.work;
    this.#relook({ tree, work });
    if (other) this.#grasp();
  }
  // The drawing follows the move under way: `work` is as it was last answered, `shape` is newer.
  // What the pointer moves itself is left to it: all of a work dragged whole, else its shape.
  follow(work: WorkOnPlan, shape: Shape): void {
    if (this.#holding.held === "whole") return;
    if (this.#holding.held === null) setShape(this.#of(work.id, "handle"), shape);
    const fresh = workFeatures(work);
    for (const role of ["footprint", "room"]) {
      const geometry = fresh.find((feature) => feature.get("role") === role)?.getGeometry();
      this.#of(work.id, role)[0]?.setGeometry(geometry);
    }
  }
  letGo(): void {
    this.#grasp();
  }

  showMarks(marks: readonly Mark[]): void {
    this.#marks.show(marks);
  }
  showSheets(sheets: readonly Sheet[]): void {
    this.#underlays.show(sheets);
  }
  // While places are asked for nothing is taken hold of, so that a click does not move a work.
  take(on: boolean): void {
    if (on === this.#taking) return;
    this.#taking = on;
    for (const one of this.#map.getInteractions().getArray()) if (one instanceof DoubleClickZoom) one.setActive(!on);
    this.#map.getTargetElement()?.classList.toggle("taking", on);
    if (!on) this.#marks.aim(null);
    this.#grasp();
  }
  snapTo(on: Switches): void {
    this.#snap = on;
    this.#grasp();
  }
  bring(box: Box): void {
    this.#untouched = false;
    this.#map.getView().fit(box, { padding: [60, 60, 80, 60], minResolution: 0.01 });
  }

  zoom(by: number): void {
    this.#untouched = false;
    const view = this.#map.getView();
    view.setZoom((view.getZoom() ?? 0) + by);
  }
  whole(): void {
    if (this.#box) this.#map.getView().fit(this.#box, { padding: [40, 40, 60, 40] });
  }
  // Brings what was chosen elsewhere into sight without moving what is in sight already.
  reveal(what: "tree" | "work", id: string): void {
    const source = what === "tree" ? this.#trees : this.#works;
    const feature = source.getFeatures().find((one) => one.get("of") === id && one.get("role") !== "room");
    const extent = feature?.getGeometry()?.getExtent();
    const view = this.#map.getView();
    const [w, s, e, n] = view.calculateExtent();
    if (!extent || !feature) return;
    const [x, y] = [(extent[0]! + extent[2]!) / 2, (extent[1]! + extent[3]!) / 2];
    if (Number.isFinite(x) && (x < w! || x > e! || y < s! || y > n!)) view.setCenter([x, y]);
  }

  #drawn(source: VectorSource): VectorLayer {
    const style = (feature: Parameters<typeof styleOf>[0]) => styleOf(feature, this.#look);
    return new VectorLayer({
      source,
      style,
      declutter: "names",
      updateWhileAnimating: true,
      updateWhileInteracting: true,
    });
  }
  #drawAsPictures(): void {
    const style = (feature: Parameters<typeof styleOf>[0]) => styleOf(feature, this.#look);
    const layers = this.#map.getLayers();
    for (const [at, source] of [
      [0, this.#still],
      [2, this.#trees],
    ] as const) {
      const picture = new VectorImageLayer({ source, style, declutter: "names", imageRatio: 2 });
      layers.setAt(layers.getArray().indexOf(this.#layers[at]!), picture);
      this.#layers[at] = picture;
    }
  }
  #open(box: Box): void {
    this.#box = box;
    const size = Math.max(box[2] - box[0], box[3] - box[1], 1);
    const projection = new Projection({ code: "site", units: "m", extent: grown(box, 2 * size) });
    this.#map.setView(
      new View({
        projection,
        center: [(box[0] + box[2]) / 2, (box[1] + box[3]) / 2],
        resolution: 1,
        minResolution: 0.002,
        maxResolution: size / 100,
        enableRotation: false,
        showFullExtent: true,
      }),
    );
    this.#map.getView().on("change", () => this.#viewed());
    this.whole();
    this.#viewed();
  }
  #viewed(): void {
    const [resolution, centre] = [this.#map.getView().getResolution(), this.#map.getView().getCenter()];
    if (resolution && centre) this.events.viewed(resolution, centre as Position);
  }
  #reach(): number {
    return REACH * (this.#map.getView().getResolution() ?? 1);
  }
  #take(event: MapBrowserEvent): void {
    // The map calls any two quick clicks a double one; only those on one spot are meant.
    const [x, y] = event.pixel as [number, number];
    this.#twice = Math.hypot(x - this.#takenOn[0], y - this.#takenOn[1]) < 6;
    this.#takenOn = [x, y];
    this.#takenAt = performance.now();
    this.events.taken(event.coordinate as Position, this.#reach());
  }
  #aim(event: MapBrowserEvent): void {
    if (this.#taking && !event.dragging)
      this.#marks.aim(this.events.aimed(event.coordinate as Position, this.#reach()));
  }
  #clicked(event: MapBrowserEvent): void {
    if (this.overlays.drawing) return;
    if (this.#taking || performance.now() - this.#takenAt < 400) return;
    const hits = this.#map.getFeaturesAtPixel(event.pixel, { hitTolerance: 8 });
    const hit = (roles: string[]) => hits.find((feature) => roles.includes(feature.get("role")))?.get("of");
    const [tree, work] = [hit(["tree", "stem"]), hit(["handle", "footprint"])];
    if (tree) this.events.tree(tree);
    else if (work) this.events.work(work);
  }

  #of(id: string | null, role?: string): Feature[] {
    return this.#works.getFeatures().filter((one) => one.get("of") === id && (!role || one.get("role") === role));
  }
  #grasp(): void {
    const handles = this.#of(this.#look.work, "handle");
    this.#holding.detach();
    if (this.#taking) return;
    if (handles.length === 0 || !handles.every((handle) => handle.get("movable"))) return;
    const others = this.#works
      .getFeatures()
      .filter((one) => one.get("role") === "handle" && one.get("of") !== this.#look.work);
    const barriers = this.#still.getFeatures().filter((one) => one.get("role") === "barrier");
    const stems = this.#trees.getFeatures().filter((one) => one.get("role") === "tree");
    this.#holding.attach(this.#of(this.#look.work), handles, [...others, ...barriers], stems, this.#snap);
  }
  #refill(source: VectorSource, features: Feature[]): void {
    source.clear(true);
    source.addFeatures(features);
  }
  #relook(change: Partial<Look>): void {
    Object.assign(this.#look, change);
    if (change.palette) this.overlays.relook();
    for (const layer of [...this.#layers, ...this.#underlays.layers, this.#marks.layer]) layer.changed();
  }
}
