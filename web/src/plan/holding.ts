// Taking hold of the chosen work on the plan: the whole of it, or one of its corners.
import Collection from "ol/Collection";
import type Feature from "ol/Feature";
import type Map from "ol/Map";
import type MapBrowserEvent from "ol/MapBrowserEvent";
import { primaryAction } from "ol/events/condition";
import type Interaction from "ol/interaction/Interaction";
import Modify from "ol/interaction/Modify";
import Snap from "ol/interaction/Snap";
import Translate from "ol/interaction/Translate";
import type MultiPoint from "ol/geom/MultiPoint";
import type Point from "ol/geom/Point";
import type { Shape } from "../api/names";
import type { Switches } from "../model/snap";
import { shapeOf } from "./features";
import { corners } from "./styles";

export interface Hands {
  dragged(shape: Shape): void;
  released(): void;
}

const GRASP = 12; // pixels around a corner, so that a finger finds it

function nearCorner(event: MapBrowserEvent, handles: readonly Feature[]): boolean {
  return handles.some((handle) => {
    const part = handle.getGeometry();
    if (!part) return false;
    const at = (corners(part) as MultiPoint | Point).getClosestPoint(event.coordinate);
    const pixel = event.map.getPixelFromCoordinate(at);
    return Math.hypot(pixel[0]! - event.pixel[0]!, pixel[1]! - event.pixel[1]!) <= GRASP;
  });
}

function snaps(edges: Feature[], stems: Feature[], on: Switches): Snap[] {
  const drawn = { features: new Collection(edges), vertex: on.corners, edge: on.lines, pixelTolerance: 8 };
  return [
    ...(on.corners || on.lines ? [new Snap(drawn)] : []),
    ...(on.stems ? [new Snap({ features: new Collection(stems), pixelTolerance: 8 })] : []),
  ];
}

export class Holding {
  #interactions: Interaction[] = [];
  #listening: (() => void)[] = [];
  #held: "whole" | "corner" | null = null;

  constructor(
    private readonly map: Map,
    private readonly hands: Hands,
  ) {}

  get held(): "whole" | "corner" | null {
    return this.#held;
  }

  // `all` moves along while the whole work is dragged; `handles` are its shape; `edges` attract.
  attach(all: Feature[], handles: Feature[], edges: Feature[], stems: Feature[], on: Switches): void {
    this.detach();
    const whole = this.#whole(all, handles);
    const corner = this.#corner(handles);
    // The map asks the last interaction first; Snap must see the pointer before the others.
    this.#interactions = [whole, corner, ...snaps(edges, stems, on)];
    for (const interaction of this.#interactions) this.map.addInteraction(interaction);
  }

  // Also lets go of a drag under way: a fresh interaction knows of no pressed button.
  detach(): void {
    for (const stop of this.#listening) stop();
    for (const interaction of this.#interactions) this.map.removeInteraction(interaction);
    this.#listening = [];
    this.#interactions = [];
    this.#held = null;
  }

  #whole(all: Feature[], handles: Feature[]): Translate {
    const translate = new Translate({ features: new Collection(all), hitTolerance: 8 });
    translate.on("translatestart", () => void (this.#held = "whole"));
    translate.on("translating", () => this.hands.dragged(shapeOf(handles)));
    translate.on("translateend", () => this.#release());
    return translate;
  }
  #corner(handles: Feature[]): Modify {
    const modify = new Modify({
      features: new Collection(handles),
      pixelTolerance: GRASP,
      condition: (event) => primaryAction(event) && nearCorner(event, handles),
      insertVertexCondition: () => false,
      deleteCondition: () => false,
      style: () => undefined,
    });
    modify.on("modifystart", () => void (this.#held = "corner"));
    modify.on("modifyend", () => this.#release());
    this.#listen(handles);
    return modify;
  }
  #listen(handles: Feature[]): void {
    const changed = () => this.#held === "corner" && this.hands.dragged(shapeOf(handles));
    for (const handle of handles) {
      handle.on("change", changed);
      this.#listening.push(() => handle.un("change", changed));
    }
  }
  #release(): void {
    this.#held = null;
    this.hands.released();
  }
}
