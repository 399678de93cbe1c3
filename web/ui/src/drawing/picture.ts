// Picture keeps one scene as live SVG, patched by id outside React.

import type { Prim, Scene } from "../api.gen";
import type { Rect } from "./viewport";

const ns = "http://www.w3.org/2000/svg";

const onPaper = /^(axle-load:|added-mass|stretches|remarks)/;

interface Kept {
  prim: Prim;
  node: SVGElement;
}

export class Picture {
  readonly root: SVGGElement;
  private kept = new Map<string, Kept>();
  private leftOut = new Set<string>();
  extent: Rect = { x0: 0, y0: 0, x1: 0, y1: 0 };
  scale = 20;

  constructor(
    readonly view: string,
    /** without dimensions, where several views share the paper */
    private readonly plain: boolean,
  ) {
    this.root = document.createElementNS(ns, "g");
    this.root.setAttribute("class", `scene v-${view}`);
  }

  /** bounds is the extent of what is drawn here, which is less than what is drawn on paper. */
  bounds(): Rect {
    const box = this.root.getBBox();
    if (!(box.width > 0 && box.height > 0)) return this.extent;
    return { x0: box.x, y0: box.y, x1: box.x + box.width, y1: box.y + box.height };
  }

  /** show replaces the scene; what is equal is left alone. */
  show(scene: Scene): void {
    this.extent = { ...scene.extent };
    this.scale = scene.scale;
    const prims = (scene.prims ?? []).filter((prim) => this.onScreen(prim));
    const here = new Set<string>();
    for (const prim of prims) here.add(prim.id);
    for (const [id, kept] of this.kept)
      if (!here.has(id)) {
        kept.node.remove();
        this.kept.delete(id);
      }
    for (const prim of prims) this.put(prim);
    this.order();
  }

  /** patch changes only what a preview names. */
  patch(changed: readonly Prim[], gone: readonly string[]): void {
    for (const id of gone) {
      this.kept.get(id)?.node.remove();
      this.kept.delete(id);
    }
    for (const prim of changed) if (this.onScreen(prim)) this.put(prim);
  }

  node(id: string): SVGElement | undefined {
    return this.kept.get(id)?.node;
  }

  prim(id: string): Prim | undefined {
    return this.kept.get(id)?.prim;
  }

  *prims(): Iterable<Prim> {
    for (const kept of this.kept.values()) yield kept.prim;
  }

  /** box is the extent of a node in scene millimetres, without its line. */
  box(id: string): Rect | null {
    const node = this.kept.get(id)?.node;
    if (!(node instanceof SVGGraphicsElement)) return null;
    const box = node.getBBox();
    return { x0: box.x, y0: box.y, x1: box.x + box.width, y1: box.y + box.height };
  }

  /** What the strip and the notes say on the screen is left to paper. */
  private onScreen(prim: Prim): boolean {
    const out =
      onPaper.test(prim.id) ||
      prim.role === "stretch" ||
      (this.plain && prim.role === "dimension") ||
      this.leftOut.has(prim.in ?? "");
    if (out && prim.kind === "group") this.leftOut.add(prim.id);
    return !out;
  }

  private put(prim: Prim): void {
    const before = this.kept.get(prim.id);
    if (before !== undefined && same(before.prim, prim)) return;
    const node =
      before !== undefined && before.prim.kind === prim.kind ? before.node : this.make(prim, before?.node);
    dress(node, prim);
    this.kept.set(prim.id, { prim, node });
    const home =
      prim.in === undefined || prim.in === "" ? this.root : (this.kept.get(prim.in)?.node ?? this.root);
    if (node.parentNode !== home) home.append(node);
  }

  private make(prim: Prim, old: SVGElement | undefined): SVGElement {
    old?.remove();
    return document.createElementNS(ns, prim.kind === "group" ? "g" : prim.kind);
  }

  /** order paints the groups in rising depth, and in the order sent where depth is equal. */
  private order(): void {
    const focused = this.root.contains(document.activeElement) ? document.activeElement : null;
    const tops = [...this.kept.values()].filter(({ prim }) => prim.in === undefined || prim.in === "");
    const sorted = tops
      .map((kept, nth) => ({ ...kept, nth }))
      .sort((a, b) => (a.prim.depth ?? 0) - (b.prim.depth ?? 0) || a.nth - b.nth);
    let at: ChildNode | null = this.root.firstChild;
    for (const { node } of sorted) {
      if (node === at) at = at.nextSibling;
      else this.root.insertBefore(node, at);
    }
    if (focused instanceof SVGElement && document.activeElement !== focused)
      focused.focus({ preventScroll: true });
  }
}

function same(a: Prim, b: Prim): boolean {
  const left = a as unknown as Record<string, unknown>;
  const right = b as unknown as Record<string, unknown>;
  for (const key in right) if (left[key] !== right[key]) return false;
  for (const key in left) if (!(key in right)) return false;
  return true;
}

function dress(node: SVGElement, prim: Prim): void {
  const words = [`r-${prim.role}`];
  switch (prim.kind) {
    case "group":
      node.dataset.id = prim.id;
      if (prim.focus === true) {
        node.setAttribute("role", "img");
        node.setAttribute("aria-label", prim.title ?? "");
        node.dataset.focus = "";
        if (!node.hasAttribute("tabindex")) node.setAttribute("tabindex", "-1");
        words.push("can");
      } else {
        for (const name of ["role", "aria-label", "tabindex", "data-focus"]) node.removeAttribute(name);
      }
      break;
    case "path":
      node.setAttribute("d", prim.d ?? "");
      if (prim.fill !== undefined && (prim.fill as string) !== "") words.push(`f-${prim.fill}`);
      break;
    case "text":
      node.setAttribute("x", String(prim.x ?? 0));
      node.setAttribute("y", String(prim.y ?? 0));
      node.setAttribute("text-anchor", prim.anchor ?? "start");
      if (prim.turn !== undefined && prim.turn !== 0)
        node.setAttribute("transform", `rotate(${prim.turn} ${prim.x ?? 0} ${prim.y ?? 0})`);
      else node.removeAttribute("transform");
      node.style.fontSize =
        prim.role === "label" ? `${prim.size ?? 60}px` : `max(${prim.size ?? 60}px, var(--least, 0px))`;
      if (prim.face !== undefined && prim.face !== "regular") words.push(`w-${prim.face}`);
      node.textContent = prim.text ?? "";
      break;
  }
  node.setAttribute("class", words.join(" "));
}
