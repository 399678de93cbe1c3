// The view in space: drawn when something changed and never otherwise; coarser while it moves, whole at rest.

import * as three from "three";
import type { SolidsView } from "../api.gen";
import { around, type Eye, nearer, orbit, slide, stand } from "./camera";
import { type Inks, type Model, modelOf } from "./model";

const fov = 0.52;
const home: Eye = { x: 3200, y: 0, z: 900, round: 0.85, up: 0.5, far: 8000 };

/** how the plane of a cut lies */
export type Way = "across" | "along" | "level";

export interface Hands {
  selected(row: string): void;
}

export class SpaceStage {
  private readonly renderer: three.WebGLRenderer;
  private readonly scene = new three.Scene();
  private readonly camera = new three.PerspectiveCamera((fov * 180) / Math.PI, 1, 50, 60_000);
  private readonly plane = new three.Plane(new three.Vector3(1, 0, 0), 0);
  private readonly face = new three.MeshBasicMaterial({
    vertexColors: true,
    side: three.DoubleSide,
    polygonOffset: true,
    polygonOffsetFactor: 1,
    polygonOffsetUnits: 1,
  });
  private readonly edge = new three.LineBasicMaterial();
  private readonly wire = new three.LineBasicMaterial();
  private readonly skin = new three.MeshBasicMaterial({
    side: three.DoubleSide,
    transparent: true,
    opacity: 0.1,
    depthWrite: false,
  });
  private readonly mark = new three.MeshBasicMaterial({ side: three.DoubleSide });
  private readonly markEdge = new three.LineBasicMaterial({ depthTest: false });
  private faces: three.Mesh | null = null;
  private shell: three.Mesh | null = null;
  private marked: three.Object3D[] = [];
  private model: Model | null = null;
  private view: SolidsView | null = null;
  private eye = home;
  private frame = 0;
  private rest = 0;
  private moving = false;
  private rows: readonly string[] = [];
  private pointers = new Map<number, [number, number]>();
  private travelled = 0;
  private readonly watch: ResizeObserver;
  /** pictures drawn so far, for tests */
  drawn = 0;

  constructor(
    private readonly box: HTMLElement,
    private readonly hands: Hands,
  ) {
    const canvas = document.createElement("canvas");
    // opaque, without smoothing, and not in step with the page: drawn by the processor alone, a picture then costs half
    const context = canvas.getContext("webgl2", {
      alpha: false,
      antialias: false,
      stencil: false,
      desynchronized: true,
    });
    if (context === null) throw new Error("no WebGL");
    this.renderer = new three.WebGLRenderer({ canvas, context });
    this.renderer.localClippingEnabled = true;
    this.camera.up.set(0, 0, 1);
    canvas.tabIndex = 0;
    canvas.setAttribute("role", "application");
    canvas.setAttribute("aria-label", "The van in space");
    box.append(canvas);
    this.watch = new ResizeObserver(() => this.resized());
    this.watch.observe(box);
    this.listen(canvas);
    canvas.addEventListener("webglcontextrestored", () => this.draw());
  }

  get canvas(): HTMLCanvasElement {
    return this.renderer.domElement;
  }

  close(): void {
    this.watch.disconnect();
    cancelAnimationFrame(this.frame);
    clearTimeout(this.rest);
    this.clear();
    this.renderer.dispose();
    this.renderer.domElement.remove();
  }

  show(view: SolidsView, inks: Inks, veiled: ReadonlySet<string>, outside: boolean): void {
    this.clear();
    this.view = view;
    const shown = outside ? view : { ...view, bodies: view.bodies.filter((one) => one.outside !== true) };
    this.model = modelOf(shown, inks, veiled);
    this.edge.color = inks.ink;
    this.wire.color = inks.faint;
    this.skin.color = inks.faint;
    this.mark.color = inks.accent.clone().lerp(inks.paper, 0.6);
    this.markEdge.color = inks.accent;
    this.renderer.setClearColor(inks.paper);
    this.faces = new three.Mesh(this.model.faces, this.face);
    const edges = new three.LineSegments(this.model.edges, this.edge);
    const van = new three.LineSegments(this.model.van, this.wire);
    this.scene.add(this.faces, edges, van);
    if (this.model.shell !== null) {
      this.shell = new three.Mesh(this.model.shell, this.skin);
      this.scene.add(this.shell);
    }
    this.choose(this.rows);
  }

  private clear(): void {
    for (const one of [...this.scene.children]) {
      this.scene.remove(one);
      if (one instanceof three.Mesh || one instanceof three.LineSegments) one.geometry.dispose();
    }
    this.marked = [];
    this.faces = null;
    this.shell = null;
  }

  /** cut takes away what is ahead of a plane, left of it, or above it; null takes nothing. */
  cut(way: Way | null, at: number): void {
    if (way === "across") this.plane.set(new three.Vector3(1, 0, 0), -at);
    else if (way === "along") this.plane.set(new three.Vector3(0, 1, 0), -at);
    else this.plane.set(new three.Vector3(0, 0, -1), at);
    const planes = way === null ? [] : [this.plane];
    for (const one of [this.face, this.edge, this.skin, this.wire, this.mark]) {
      if ((one.clippingPlanes?.length ?? 0) !== planes.length) one.needsUpdate = true;
      one.clippingPlanes = planes;
    }
    this.draw(true);
  }

  choose(rows: readonly string[]): void {
    this.rows = rows;
    for (const one of this.marked) {
      this.scene.remove(one);
      if (one instanceof three.Mesh || one instanceof three.LineSegments) one.geometry.dispose();
    }
    this.marked = [];
    const at = this.model?.faces.getAttribute("position");
    for (const part of this.model?.parts ?? []) {
      if (!rows.includes(part.solid.id) || at === undefined) continue;
      const faces = new three.BufferGeometry();
      const cut = (at.array as Float32Array).slice(part.from * 9, part.to * 9);
      faces.setAttribute("position", new three.BufferAttribute(cut, 3));
      const mesh = new three.Mesh(faces, this.mark);
      mesh.scale.setScalar(1);
      const lines = new three.LineSegments(new three.EdgesGeometry(faces, 10), this.markEdge);
      this.marked.push(mesh, lines);
      this.scene.add(mesh, lines);
    }
    this.draw();
  }

  /** look goes to rows, or back to the whole van. */
  look(rows: readonly string[]): void {
    const parts = (this.model?.parts ?? []).filter((part) => rows.includes(part.solid.id));
    if (parts.length === 0) {
      this.eye = home;
      return this.draw();
    }
    const lo: [number, number, number] = [Infinity, Infinity, Infinity];
    const hi: [number, number, number] = [-Infinity, -Infinity, -Infinity];
    for (const { solid } of parts) {
      solid.outline.forEach((v, n) => {
        const k = n % 2 === 0 ? 0 : 1;
        lo[k] = Math.min(lo[k], v);
        hi[k] = Math.max(hi[k], v);
      });
      lo[2] = Math.min(lo[2], solid.low);
      hi[2] = Math.max(hi[2], solid.high);
    }
    this.eye = around(this.eye, { lo, hi }, fov);
    this.draw();
  }

  private resized(): void {
    const { clientWidth: w, clientHeight: h } = this.box;
    if (!(w > 0 && h > 0)) return;
    this.camera.aspect = w / h;
    this.camera.updateProjectionMatrix();
    this.paint();
  }

  /** draw asks for one picture; moving pictures are coarser, and a whole one follows at rest. */
  draw(moving = false): void {
    if (moving) this.moving = true;
    clearTimeout(this.rest);
    if (this.moving)
      this.rest = window.setTimeout(() => {
        this.moving = false;
        this.draw();
      }, 160);
    if (this.frame !== 0) return;
    this.frame = requestAnimationFrame(() => {
      this.frame = 0;
      this.paint();
    });
  }

  private fine = 0;

  private paint(): void {
    const { clientWidth: w, clientHeight: h } = this.box;
    if (!(w > 0 && h > 0)) return;
    const ratio = this.moving ? 0.5 : Math.min(2, Math.max(1.5, window.devicePixelRatio));
    const key = ratio * 1e8 + w * 1e4 + h;
    if (key !== this.fine) {
      this.fine = key;
      this.renderer.setPixelRatio(ratio);
      this.renderer.setSize(w, h);
    }
    if (this.shell !== null) this.shell.visible = !this.moving;
    this.camera.position.set(...stand(this.eye));
    this.camera.lookAt(this.eye.x, this.eye.y, this.eye.z);
    this.renderer.render(this.scene, this.camera);
    this.drawn += 1;
    this.canvas.dataset.drawn = String(this.drawn);
  }

  private go(eye: Eye): void {
    this.eye = eye;
    this.draw(true);
  }

  private pick(event: PointerEvent): void {
    if (this.faces === null) return;
    const box = this.canvas.getBoundingClientRect();
    const point = new three.Vector2(
      ((event.clientX - box.left) / box.width) * 2 - 1,
      1 - ((event.clientY - box.top) / box.height) * 2,
    );
    const ray = new three.Raycaster();
    ray.setFromCamera(point, this.camera);
    const planes = this.face.clippingPlanes ?? [];
    const hit = ray
      .intersectObject(this.faces, false)
      .find((one) => planes.every((plane) => plane.distanceToPoint(one.point) >= 0));
    const nth = hit?.faceIndex ?? -1;
    const part = this.model?.parts.find((one) => nth >= one.from && nth < one.to);
    const known = part !== undefined && part.solid.path !== "";
    this.hands.selected(known ? part.solid.id : "");
  }

  private step(by: 1 | -1): void {
    const bodies = this.view?.bodies ?? [];
    if (bodies.length === 0) return;
    const at = bodies.findIndex((one) => one.id === this.rows[0]);
    const next = bodies[(at + by + bodies.length) % bodies.length];
    if (next !== undefined) this.hands.selected(next.id);
  }

  private listen(canvas: HTMLCanvasElement): void {
    canvas.addEventListener("contextmenu", (event) => event.preventDefault());
    canvas.addEventListener("pointerdown", (event) => {
      canvas.setPointerCapture(event.pointerId);
      canvas.focus({ preventScroll: true });
      if (this.pointers.size === 0) this.travelled = 0;
      this.pointers.set(event.pointerId, [event.clientX, event.clientY]);
    });
    canvas.addEventListener("pointermove", (event) => {
      const before = this.pointers.get(event.pointerId);
      if (before === undefined) return;
      const [dx, dy] = [event.clientX - before[0], event.clientY - before[1]];
      this.travelled += Math.hypot(dx, dy);
      const other = [...this.pointers].find(([id]) => id !== event.pointerId)?.[1];
      this.pointers.set(event.pointerId, [event.clientX, event.clientY]);
      const h = this.box.clientHeight;
      if (other !== undefined) {
        const was = Math.hypot(before[0] - other[0], before[1] - other[1]);
        const now = Math.hypot(event.clientX - other[0], event.clientY - other[1]);
        const slid = slide(this.eye, dx / 2, dy / 2, h, fov);
        this.go(was > 0 ? nearer(slid, now / was) : slid);
      } else if (event.buttons === 2 || event.buttons === 4 || event.shiftKey)
        this.go(slide(this.eye, dx, dy, h, fov));
      else if (this.travelled > 3) this.go(orbit(this.eye, dx, dy));
    });
    const up = (event: PointerEvent) => {
      this.pointers.delete(event.pointerId);
      if (event.type === "pointerup" && this.travelled <= 4 && event.button === 0) this.pick(event);
    };
    canvas.addEventListener("pointerup", up);
    canvas.addEventListener("pointercancel", up);
    canvas.addEventListener(
      "wheel",
      (event) => {
        event.preventDefault();
        this.go(nearer(this.eye, Math.exp(-event.deltaY * 0.0012)));
      },
      { passive: false },
    );
    canvas.addEventListener("keydown", (event) => {
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      const way = { ArrowLeft: [-24, 0], ArrowRight: [24, 0], ArrowUp: [0, -24], ArrowDown: [0, 24] }[
        event.key
      ];
      const h = this.box.clientHeight;
      if (way !== undefined) {
        const [dx = 0, dy = 0] = way;
        this.go(event.shiftKey ? slide(this.eye, -dx, -dy, h, fov) : orbit(this.eye, dx, dy));
      } else if (event.key === "+" || event.key === "=") this.go(nearer(this.eye, 1.2));
      else if (event.key === "-") this.go(nearer(this.eye, 1 / 1.2));
      else if (event.key === "0") this.look([]);
      else if (event.key === "." || event.key === ",") this.step(event.key === "." ? 1 : -1);
      else if (event.key === "Enter") this.look(this.rows);
      else return;
      event.preventDefault();
      event.stopPropagation();
    });
  }
}
