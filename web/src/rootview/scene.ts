// The drawing in space. Fetched only when it is looked at; draws only when something changed.
import {
  AmbientLight,
  BufferAttribute,
  BufferGeometry,
  Color,
  CylinderGeometry,
  DirectionalLight,
  DoubleSide,
  Group,
  LineBasicMaterial,
  LineDashedMaterial,
  LineSegments,
  Mesh,
  MeshBasicMaterial,
  MeshLambertMaterial,
  PerspectiveCamera,
  Scene,
  ShapeUtils,
  Vector2,
  WebGLRenderer,
  type Material,
} from "three";
import type { Block, RootSystem } from "../api/looking";
import type { Palette } from "../plan/palette";
import { blockEdges, blockSides, placer, rootMeshes, surfaceNet } from "./meshes";
import { standing, upward, type Orbit } from "./orbit";

function geometry(positions: Float32Array, normals?: Float32Array): BufferGeometry {
  const made = new BufferGeometry();
  made.setAttribute("position", new BufferAttribute(positions, 3));
  if (normals) made.setAttribute("normal", new BufferAttribute(normals, 3));
  return made;
}
function segments(positions: Float32Array, material: Material): LineSegments {
  const made = new LineSegments(geometry(positions), material);
  if (material instanceof LineDashedMaterial) made.computeLineDistances();
  return made;
}
const solid = (color: string, opacity = 1) =>
  new LineBasicMaterial({ color: new Color(color), opacity, transparent: opacity < 1 });
const broken = (color: string, dash: number, gap: number) =>
  new LineDashedMaterial({ color: new Color(color), dashSize: dash, gapSize: gap });

// Floor of a block, holes cut out.
function floor(block: Block, place: ReturnType<typeof placer>): Float32Array {
  const made: number[] = [];
  for (const area of block.areas as number[][][][]) {
    const rings = area.map((ring) => ring.map((p) => new Vector2(p[0], p[1])));
    const corners = rings.flat();
    for (const face of ShapeUtils.triangulateShape(rings[0] ?? [], rings.slice(1)))
      for (const k of face) made.push(...place(corners[k]!.x, corners[k]!.y, block.bottom_m));
  }
  return new Float32Array(made);
}

export class RootScene {
  readonly #renderer: WebGLRenderer;
  readonly #scene = new Scene();
  readonly #camera = new PerspectiveCamera(38, 1, 0.05, 2000);
  #drawn = new Group();
  #orbit: Orbit | null = null;
  #due = 0;

  constructor(canvas: HTMLCanvasElement) {
    this.#renderer = new WebGLRenderer({ canvas, antialias: true });
    this.#renderer.setPixelRatio(Math.min(2, devicePixelRatio));
    const sun = new DirectionalLight(0xffffff, 2);
    sun.position.set(-3, 6, -2);
    this.#scene.add(new AmbientLight(0xffffff, 1.4), sun, this.#drawn);
  }

  // Returns how far the roots reach, in metres.
  show(system: RootSystem, palette: Palette): number {
    this.#clear();
    const roots = rootMeshes(system);
    const place = placer(system);
    this.#scene.background = new Color(palette.paper);
    this.#drawn.add(
      new Mesh(
        geometry(roots.tubes.positions, roots.tubes.normals),
        new MeshLambertMaterial({ color: new Color(palette.wood), side: DoubleSide }),
      ),
      segments(roots.lines, solid(palette.wood)),
      segments(roots.severed, broken(palette.ink, 0.09, 0.06)),
      segments(surfaceNet(system, roots.reach), solid(palette.leaf, 0.45)),
      this.#stem(system, palette),
    );
    for (const block of system.works) this.#block(block, place, palette.work, solid(palette.work));
    for (const block of system.barriers) this.#block(block, place, palette.ink, broken(palette.ink, 0.25, 0.1));
    this.#later();
    return roots.reach;
  }
  look(orbit: Orbit): void {
    this.#orbit = orbit;
    this.#later();
  }
  size(width: number, height: number): void {
    if (width < 1 || height < 1) return;
    this.#renderer.setSize(width, height, false);
    this.#camera.aspect = width / height;
    this.#camera.updateProjectionMatrix();
    this.#draw(); // at once: a canvas that changes its size is blank until it is drawn
  }
  destroy(): void {
    cancelAnimationFrame(this.#due);
    this.#clear();
    this.#renderer.dispose();
  }

  #stem(system: RootSystem, palette: Palette): Mesh {
    const radius = Math.max(0.03, system.stem.diameter_m / 2);
    const mesh = new Mesh(
      new CylinderGeometry(radius * 0.9, radius, 1.5, 20, 1, true),
      new MeshLambertMaterial({ color: new Color(palette.wood), side: DoubleSide }),
    );
    mesh.position.set(0, 0.75, 0);
    return mesh;
  }
  #block(block: Block, place: ReturnType<typeof placer>, color: string, edge: Material): void {
    const skin = new MeshBasicMaterial({
      color: new Color(color),
      opacity: 0.16,
      transparent: true,
      depthWrite: false, // roots behind and inside stay to be seen
      side: DoubleSide,
    });
    this.#drawn.add(
      new Mesh(geometry(blockSides(block, place)), skin),
      new Mesh(geometry(floor(block, place)), skin),
      segments(blockEdges(block, place), edge),
    );
  }
  #clear(): void {
    this.#drawn.traverse((one) => {
      if (!(one instanceof Mesh || one instanceof LineSegments)) return;
      one.geometry.dispose();
      (one.material as Material).dispose();
    });
    this.#scene.remove(this.#drawn);
    this.#drawn = new Group();
    this.#scene.add(this.#drawn);
  }
  #later(): void {
    cancelAnimationFrame(this.#due);
    this.#due = requestAnimationFrame(() => this.#draw());
  }
  #draw(): void {
    if (!this.#orbit) return;
    this.#camera.position.set(...standing(this.#orbit));
    this.#camera.up.set(...upward(this.#orbit));
    this.#camera.lookAt(0, 0, 0);
    this.#renderer.render(this.#scene, this.#camera);
  }
}
