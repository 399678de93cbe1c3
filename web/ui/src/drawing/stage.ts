// Stage is the drawing on the sheet: pictures on one piece of paper, what is in sight of it, and the
// hands that move things. It lives outside React; React only gives it a place.

import type { Edit, Prim, Scene } from "../api.gen";
import { type Drag, type Input, onSheet, stride, turn } from "./drag";
import { Holding, rowOf } from "./holding";
import { type Dot, nearest, type Way } from "./nearest";
import { isFar, number } from "./numbers";
import { Picture } from "./picture";
import type { StripPlace } from "./strip";
import { after, inOrder, type Under } from "./under";
import { fit, type Port, pan, type Rect, toScreen, zoom } from "./viewport";

const ns = "http://www.w3.org/2000/svg";

export interface Hands {
  selected(row: string): void;
  /** every field of a row is asked for */
  open?(row: string): void;
  /** a row is taken to, or out of, those that are worked on together */
  more?(row: string): void;
  /** why a row may not be moved; "" when it may */
  locked(row: string): string;
  picked(view: string): void;
  moving(edits: Edit[]): void;
  put(row: string, edits: Edit[]): void;
  back(): void;
  said(words: string): void;
  /** why what was pressed stays where it is; "" when something else is done */
  refused?(why: string): void;
  seen(): void;
}

const gap = 160;

export class Stage {
  readonly svg: SVGSVGElement;
  private readonly all: SVGGElement;
  private readonly guide: SVGPathElement;
  private pictures: Picture[] = [];
  private bounds = new Map<string, Rect>();
  private offset = new Map<string, [number, number]>();
  private port: Port = { x: 0, y: 0, k: 0.1 };
  private touched = false;
  private drag: Drag = { is: "idle" };
  private holding: Holding | null = null;
  private pressedAt: [number, number] = [0, 0];
  private pointers = new Map<number, [number, number]>();
  private panning = false;
  private chosen = "";
  private current = "";
  private frame = 0;
  private size: [number, number] = [0, 0];
  private watch: ResizeObserver;

  constructor(
    private readonly box: HTMLElement,
    private readonly hands: Hands,
    private readonly still: boolean,
  ) {
    this.svg = document.createElementNS(ns, "svg");
    this.svg.setAttribute("class", "stage");
    this.svg.setAttribute("role", "group");
    this.all = document.createElementNS(ns, "g");
    this.guide = document.createElementNS(ns, "path");
    this.guide.setAttribute("class", "guide");
    this.svg.append(this.all, this.guide);
    box.append(this.svg);
    this.watch = new ResizeObserver(() => this.resized());
    this.watch.observe(box);
    this.listen();
  }

  close(): void {
    this.watch.disconnect();
    cancelAnimationFrame(this.frame);
    this.svg.remove();
  }

  /** show lays scenes one under the other on one sheet, at one scale, with x in line. */
  show(scenes: readonly Scene[]): void {
    const before = this.pictures.map((picture) => picture.view).join();
    const wanted = scenes.map((scene) => scene.id);
    if (before !== wanted.join()) {
      for (const picture of this.pictures) picture.root.remove();
      this.pictures = wanted.map(
        (view) => new Picture(view, wanted.length > 1 || this.box.clientWidth < 1000),
      );
      this.all.append(...this.pictures.map((picture) => picture.root));
      this.touched = false;
    }
    let y = 0;
    scenes.forEach((scene, nth) => {
      const picture = this.pictures[nth];
      if (picture === undefined) return;
      if (this.holding?.picture !== picture) picture.show(scene);
      const bounds = picture.bounds();
      this.bounds.set(picture.view, bounds);
      const middle = (rect: Rect) => (rect.x0 + rect.x1) / 2;
      const first = this.pictures[0] === undefined ? undefined : this.bounds.get(this.pictures[0].view);
      const aside = picture.view === "section" && first !== undefined ? middle(first) - middle(bounds) : 0;
      const at: [number, number] = [aside, y - bounds.y0];
      this.offset.set(picture.view, at);
      picture.root.setAttribute("transform", `translate(${at[0]} ${at[1]})`);
      y += bounds.y1 - bounds.y0 + gap;
    });
    this.svg.setAttribute("aria-label", scenes.map((scene) => scene.title).join("; "));
    this.roving();
    this.mark();
    this.veil(this.veiled);
    this.numberedAt = 0;
    if (this.touched) this.look();
    else this.whole();
  }

  patch(view: string, changed: readonly Prim[], gone: readonly string[]): void {
    const picture = this.pictures.find((one) => one.view === view);
    if (picture === undefined) return;
    const mine = this.holding?.picture === picture ? new Set(this.holding.ids) : new Set<string>();
    const root = (prim: Prim) => (prim.in === undefined || prim.in === "" ? prim.id : prim.in);
    picture.patch(
      changed.filter((prim) => !mine.has(root(prim))),
      gone.filter((id) => !mine.has(id) && !mine.has(id.split("/")[0] ?? "")),
    );
  }

  choose(row: string): void {
    this.chosen = row;
    this.mark();
  }

  /** places are where a point in van axes stands in the window, one for each picture that shows it. */
  places(x?: number, y?: number, z?: number): [number, number][] {
    const out: [number, number][] = [];
    for (const picture of this.pictures) {
      const at = onSheet(picture.view, x, y, z);
      if (at === null) continue;
      const [ox, oy] = this.offset.get(picture.view) ?? [0, 0];
      out.push(toScreen(this.port, at[0] + ox, at[1] + oy));
    }
    return out;
  }

  /** placesOf are where a row of the kit stands in the window, one for each picture that shows it. */
  placesOf(row: string): [number, number][] {
    const out: [number, number][] = [];
    for (const picture of this.pictures) {
      const box = picture.box(`item:${row}`);
      if (box === null) continue;
      const [ox, oy] = this.offset.get(picture.view) ?? [0, 0];
      out.push(toScreen(this.port, (box.x0 + box.x1) / 2 + ox, (box.y0 + box.y1) / 2 + oy));
    }
    return out;
  }

  whole(): void {
    this.touched = false;
    this.port = fit(this.paper(), this.size[0], this.size[1]);
    this.look();
  }

  /** reveal zooms to rows of the kit, or to points in van axes where they are not drawn. */
  reveal(rows: readonly string[], points: readonly { x?: number; y?: number; z?: number }[] = []): void {
    const found: Rect[] = [];
    for (const picture of this.pictures) {
      const [ox, oy] = this.offset.get(picture.view) ?? [0, 0];
      const boxes = rows.map((row) => picture.box(`item:${row}`)).filter((box) => box !== null);
      const spots = points
        .map((at) => onSheet(picture.view, at.x, at.y, at.z))
        .filter((at) => at !== null)
        .map(([x, y]) => ({ x0: x, y0: y, x1: x, y1: y }));
      for (const box of boxes.length > 0 ? boxes : spots)
        found.push({ x0: box.x0 + ox, y0: box.y0 + oy, x1: box.x1 + ox, y1: box.y1 + oy });
      if (found.length > 0) break;
    }
    if (found.length === 0) return;
    const span = (ends: number[], others: number[]): [number, number] => {
      const [lo, hi] = [Math.min(...ends), Math.max(...others)];
      const around = Math.max(350, 1100 - (hi - lo) / 2); // enough of the van to know where one is
      return [lo - around, hi + around];
    };
    const [x0, x1] = span(
      found.map((box) => box.x0),
      found.map((box) => box.x1),
    );
    const [y0, y1] = span(
      found.map((box) => box.y0),
      found.map((box) => box.y1),
    );
    const all = { x0, y0, x1, y1 };
    this.touched = true;
    this.port = fit(all, this.size[0], this.size[1]);
    this.look();
  }

  /** veil leaves out the trades named. */
  veil(trades: ReadonlySet<string>): void {
    this.veiled = trades;
    for (const picture of this.pictures) {
      for (const prim of picture.prims()) {
        if (prim.kind !== "group" || !/^(item|label|ghost):/.test(prim.id)) continue;
        picture.node(prim.id)?.classList.toggle("veiled", trades.has(prim.layer ?? ""));
      }
    }
  }

  private veiled: ReadonlySet<string> = new Set();

  /** also marks the rows that are worked on together with the one selected. */
  also(rows: readonly string[]): void {
    this.others = rows;
    this.mark();
  }

  private others: readonly string[] = [];

  /** planAt is the point of the plan under the window's point, in millimetres of the van; null outside the plan. */
  planAt(clientX: number, clientY: number): { x: number; y: number } | null {
    const box = this.svg.getBoundingClientRect();
    const [ox, oy] = this.offset.get("plan") ?? [0, 0];
    const bounds = this.bounds.get("plan");
    if (bounds === undefined || this.pictures.every((one) => one.view !== "plan")) return null;
    const x = (clientX - box.left) / this.port.k + this.port.x - ox;
    const y = (clientY - box.top) / this.port.k + this.port.y - oy;
    return x >= bounds.x0 && x <= bounds.x1 && y >= bounds.y0 && y <= bounds.y1 ? { x, y: -y } : null;
  }

  /** alongAt is how far along the van the point of the window is, in millimetres. */
  alongAt(clientX: number): number {
    const box = this.svg.getBoundingClientRect();
    return (clientX - box.left) / this.port.k + this.port.x;
  }

  closer(by: number, px = this.size[0] / 2, py = this.size[1] / 2): void {
    this.touched = true;
    const least = fit(this.paper(), this.size[0], this.size[1]).k * 0.7;
    this.port = zoom(this.port, by, px, py, least, 3);
    this.look();
  }

  private paper(): Rect {
    const rects = this.pictures.map((picture) => {
      const [ox, oy] = this.offset.get(picture.view) ?? [0, 0];
      const { x0, y0, x1, y1 } = this.bounds.get(picture.view) ?? picture.extent;
      return { x0: x0 + ox, y0: y0 + oy, x1: x1 + ox, y1: y1 + oy };
    });
    return {
      x0: Math.min(...rects.map((rect) => rect.x0)),
      y0: Math.min(...rects.map((rect) => rect.y0)),
      x1: Math.max(...rects.map((rect) => rect.x1)),
      y1: Math.max(...rects.map((rect) => rect.y1)),
    };
  }

  private resized(): void {
    const { clientWidth, clientHeight } = this.box;
    if (clientWidth === this.size[0] && clientHeight === this.size[1]) return;
    this.size = [clientWidth, clientHeight];
    if (this.pictures.length === 0) return;
    if (this.touched) this.look();
    else this.whole();
  }

  private look(): void {
    const { x, y, k } = this.port;
    const [w, h] = this.size;
    if (!(w > 0 && h > 0 && Number.isFinite(k))) return;
    this.svg.setAttribute("viewBox", `${x} ${y} ${w / k} ${h / k}`);
    this.svg.style.setProperty("--least", `${11 / k}px`);
    this.svg.classList.toggle("far", isFar(this.pictures[0]?.scale ?? 20, k));
    if (k !== this.numberedAt) {
      clearTimeout(this.numbering);
      this.numbering = window.setTimeout(() => this.number(), this.numberedAt === 0 ? 0 : 60);
    }
    this.hands.seen();
  }

  private numberedAt = 0;
  private numbering = 0;

  private number(): void {
    this.numberedAt = this.port.k;
    for (const picture of this.pictures) number(picture, this.port.k);
  }

  /** strip says where the strip under the drawing has its lines. */
  strip(): StripPlace {
    const picture = this.pictures.at(-1);
    const sign = picture?.view === "right" ? -1 : 1;
    const axle = (nth: number) => {
      const box = picture?.box(`axles/${nth}`);
      return box === undefined || box === null ? null : sign * box.x0;
    };
    return {
      at: (x) => (sign * x - this.port.x) * this.port.k,
      width: this.size[0],
      front: axle(1),
      rear: axle(2),
    };
  }

  // Focus: one tab stop, which moves from item to item.

  private dots(): (Dot & { picture: Picture })[] {
    const out: (Dot & { picture: Picture })[] = [];
    for (const picture of this.pictures) {
      const [ox, oy] = this.offset.get(picture.view) ?? [0, 0];
      for (const prim of picture.prims()) {
        if (prim.kind !== "group" || prim.focus !== true) continue;
        if (picture.node(prim.id)?.classList.contains("veiled") === true) continue;
        const box = picture.box(prim.id);
        if (box === null) continue;
        out.push({
          id: `${picture.view} ${prim.id}`,
          x: (box.x0 + box.x1) / 2 + ox,
          y: (box.y0 + box.y1) / 2 + oy,
          picture,
        });
      }
    }
    return out;
  }

  private nodeOf(key: string): { picture: Picture; prim: Prim; node: SVGElement } | null {
    const [view = "", ...rest] = key.split(" ");
    const id = rest.join(" ");
    const picture = this.pictures.find((one) => one.view === view);
    const prim = picture?.prim(id);
    const node = picture?.node(id);
    return picture === undefined || prim === undefined || node === undefined ? null : { picture, prim, node };
  }

  private roving(): void {
    if (this.nodeOf(this.current) === null) {
      const picture = this.pictures.at(-1);
      const first =
        picture === undefined
          ? undefined
          : [...picture.prims()].find((prim) => prim.focus === true && rowOf(prim) !== "");
      this.current = picture === undefined || first === undefined ? "" : `${picture.view} ${first.id}`;
    }
    for (const node of this.svg.querySelectorAll('[data-focus][tabindex="0"]'))
      node.setAttribute("tabindex", "-1");
    this.nodeOf(this.current)?.node.setAttribute("tabindex", "0");
  }

  private stepTo(key: string): void {
    this.nodeOf(this.current)?.node.setAttribute("tabindex", "-1");
    this.current = key;
    const found = this.nodeOf(key);
    if (found === null) return;
    found.node.setAttribute("tabindex", "0");
    found.node.focus({ preventScroll: true });
    this.inSight(key);
    const row = rowOf(found.prim);
    if (row !== "") this.hands.selected(row);
  }

  private inSight(key: string): void {
    const dot = this.dots().find((one) => one.id === key);
    if (dot === undefined) return;
    const [px, py] = toScreen(this.port, dot.x, dot.y);
    const [w, h] = this.size;
    if (px >= 20 && py >= 20 && px <= w - 20 && py <= h - 20) return;
    this.touched = true;
    this.port = pan(this.port, w / 2 - px, h / 2 - py);
    this.look();
  }

  private mark(): void {
    for (const node of this.svg.querySelectorAll(".chosen")) node.classList.remove("chosen");
    for (const row of [this.chosen, ...this.others]) {
      if (row === "") continue;
      for (const picture of this.pictures) {
        picture.node(`item:${row}`)?.classList.add("chosen");
        picture.node(`label:${row}`)?.classList.add("chosen");
      }
    }
  }

  // Hands.

  private turn(input: Input): void {
    const { drag, effect } = turn(this.drag, input);
    const was = this.drag;
    this.drag = drag;
    switch (effect) {
      case "picked":
        if (drag.is === "held") this.pick(drag.id);
        break;
      case "moved":
        if (drag.is === "held") this.moved(drag.dx, drag.dy);
        break;
      case "tapped":
        this.tapped();
        break;
      case "put":
        if (was.is === "held") this.put(was.dx, was.dy);
        break;
      case "back":
        this.release(true);
        this.hands.back();
        this.hands.said("put back");
        break;
      default:
        break;
    }
  }

  private pick(key: string): void {
    const found = this.nodeOf(key);
    if (found === null) return this.forget();
    const row = rowOf(found.prim);
    const locked = row === "" ? "this is not an item" : this.hands.locked(row);
    if (locked !== "") {
      this.hands.said(locked);
      this.hands.refused?.(locked);
      return this.forget();
    }
    const box = found.picture.box(found.prim.id);
    if (box === null) return this.forget();
    this.holding = new Holding(found.picture, row, box);
    if (document.activeElement !== found.node) found.node.focus({ preventScroll: true });
    this.svg.classList.add("moving");
    this.hands.selected(row);
    this.hands.picked(found.picture.view);
    this.hands.said(`${found.prim.title ?? ""} picked up`);
  }

  private forget(): void {
    this.drag = { is: "idle" };
  }

  private moved(dx: number, dy: number): void {
    const holding = this.holding;
    if (holding === null) return;
    holding.shift(dx, dy);
    this.hands.moving([holding.edit(dx, dy)]);
  }

  private put(dx: number, dy: number): void {
    const holding = this.holding;
    if (holding === null) return;
    this.release(false);
    this.hands.put(holding.row, [holding.edit(dx, dy)]);
  }

  /** release lets go; what was put down stays where it is until the new scene comes. */
  private release(back: boolean): void {
    const holding = this.holding;
    this.holding = null;
    this.svg.classList.remove("moving");
    this.guide.setAttribute("d", "");
    holding?.letGo();
    if (back) holding?.unshift();
    else this.left = holding;
  }

  private left: Holding | null = null;

  /** settled takes away the shift of what was put down, once its new place has been drawn. */
  settled(): void {
    this.left?.unshift();
    this.left = null;
  }

  private slide(px: number, py: number): void {
    const holding = this.holding;
    if (holding === null) return;
    const k = this.port.k;
    const reach = 7 / k;
    const whole = (mm: number) => Math.round(mm);
    const { x, y } = holding.snapped(
      whole((px - this.pressedAt[0]) / k),
      whole((py - this.pressedAt[1]) / k),
      reach,
    );
    this.turn({ do: "to", dx: x.by, dy: y.by });
    const [ox, oy] = this.offset.get(holding.picture.view) ?? [0, 0];
    const { y0, y1, x0, x1 } = this.bounds.get(holding.picture.view) ?? holding.picture.extent;
    this.guide.setAttribute(
      "d",
      (x.line === null ? "" : `M${x.line + ox} ${y0 + oy}V${y1 + oy}`) +
        (y.line === null ? "" : `M${x0 + ox} ${y.line + oy}H${x1 + ox}`),
    );
  }

  private at(event: { clientX: number; clientY: number }): [number, number] {
    const box = this.svg.getBoundingClientRect();
    return [event.clientX - box.left, event.clientY - box.top];
  }

  private keyOf(target: EventTarget | null): string {
    const node =
      target instanceof Element ? target.closest<SVGElement>("[data-focus], [data-id^='label:']") : null;
    const view = this.pictures.find((picture) => node !== null && picture.root.contains(node))?.view;
    const id = node?.dataset.id?.replace(/^label:/, "item:");
    return view === undefined || id === undefined ? "" : `${view} ${id}`;
  }

  /** under are the items whose outline has the point in it, in the order in which presses take them. */
  private under(clientX: number, clientY: number): string[] {
    const found = new Map<string, Under>();
    for (const target of document.elementsFromPoint(clientX, clientY)) {
      if (!this.svg.contains(target)) continue;
      const key = this.keyOf(target);
      const prim = this.nodeOf(key)?.prim;
      if (prim === undefined || found.has(key)) continue;
      if (target.closest("[data-id^='label:']") !== null) return [key]; // a label is its item
      const box = this.nodeOf(key)?.node.getBoundingClientRect();
      found.set(key, {
        key,
        area: box === undefined ? 0 : box.width * box.height,
      });
    }
    return inOrder([...found.values()]);
  }

  /** the items under the last press, and the one that it took */
  private taken: { keys: readonly string[]; key: string; again: boolean } = {
    keys: [],
    key: "",
    again: false,
  };

  /** takeAt is the item that a press takes: once more at the same place, the one taken there before. */
  private takeAt(event: PointerEvent): string {
    const keys = this.under(event.clientX, event.clientY);
    const again =
      this.taken.key !== "" && this.taken.key === this.current && keys.join() === this.taken.keys.join();
    const key = again ? this.taken.key : (keys[0] ?? "");
    this.taken = { keys, key, again };
    return key;
  }

  /** tapped goes on to the next item under the pointer where the same place is pressed again. */
  private tapped(): void {
    if (!this.taken.again || this.taken.keys.length < 2) return;
    const next = after(this.taken.keys, this.taken.key);
    this.taken = { ...this.taken, key: next };
    this.stepTo(next);
  }

  private listen(): void {
    const { svg } = this;
    svg.addEventListener("pointerdown", (event) => this.down(event));
    svg.addEventListener("pointermove", (event) => this.move(event));
    svg.addEventListener("pointerup", (event) => this.up(event));
    svg.addEventListener("pointercancel", (event) => {
      this.pointers.delete(event.pointerId);
      this.panning = false;
      this.turn({ do: "back" });
    });
    svg.addEventListener(
      "wheel",
      (event) => {
        event.preventDefault();
        const [px, py] = this.at(event);
        if (event.shiftKey) {
          this.touched = true;
          this.port = pan(this.port, -event.deltaY, 0);
          this.look();
        } else this.closer(Math.exp(-event.deltaY * 0.0015), px, py);
      },
      { passive: false },
    );
    svg.addEventListener("keydown", (event) => this.key(event));
    svg.addEventListener("focusin", (event) => {
      const key = this.keyOf(event.target);
      if (key === "" || key === this.current) return;
      this.nodeOf(this.current)?.node.setAttribute("tabindex", "-1");
      this.current = key;
      this.nodeOf(key)?.node.setAttribute("tabindex", "0");
    });
  }

  private down(event: PointerEvent): void {
    if (event.button !== 0) return;
    const at = this.at(event);
    this.pointers.set(event.pointerId, at);
    this.svg.setPointerCapture(event.pointerId);
    if (this.pointers.size === 2) {
      this.turn({ do: "back" });
      this.panning = true;
      return;
    }
    this.hands.refused?.("");
    const key = this.takeAt(event);
    this.pressedAt = at;
    if (key === "" || this.still) {
      this.panning = true;
      return;
    }
    event.preventDefault();
    const row = rowOf(this.nodeOf(key)?.prim);
    if (event.shiftKey && row !== "" && this.hands.more !== undefined) {
      this.hands.more(row);
      return;
    }
    this.stepTo(key);
    this.turn({ do: "press", id: key, px: at[0], py: at[1] });
  }

  private move(event: PointerEvent): void {
    const before = this.pointers.get(event.pointerId);
    if (before === undefined) return;
    const at = this.at(event);
    const other = [...this.pointers].find(([id]) => id !== event.pointerId)?.[1];
    this.pointers.set(event.pointerId, at);
    if (other !== undefined) {
      const was = Math.hypot(before[0] - other[0], before[1] - other[1]);
      const now = Math.hypot(at[0] - other[0], at[1] - other[1]);
      this.port = pan(this.port, (at[0] - before[0]) / 2, (at[1] - before[1]) / 2);
      if (was > 0) this.closer(now / was, (at[0] + other[0]) / 2, (at[1] + other[1]) / 2);
      return;
    }
    if (this.panning) {
      this.touched = true;
      this.port = pan(this.port, at[0] - before[0], at[1] - before[1]);
      this.look();
      return;
    }
    if (this.drag.is === "pressed") this.turn({ do: "far", px: at[0], py: at[1] });
    if (this.drag.is !== "held" || this.drag.by !== "pointer") return;
    cancelAnimationFrame(this.frame);
    this.frame = requestAnimationFrame(() => this.slide(at[0], at[1]));
  }

  private up(event: PointerEvent): void {
    this.pointers.delete(event.pointerId);
    if (this.pointers.size === 0) this.panning = false;
    if (this.drag.is === "held" && this.drag.by === "pointer") {
      cancelAnimationFrame(this.frame);
      const [px, py] = this.at(event);
      this.slide(px, py);
      this.turn({ do: "drop" });
    } else if (this.drag.is === "pressed") this.turn({ do: "drop" });
  }

  private key(event: KeyboardEvent): void {
    if (event.ctrlKey || event.metaKey) return;
    this.hands.refused?.("");
    const does = (act: () => void) => {
      event.preventDefault();
      event.stopPropagation();
      act();
    };
    const way = ways[event.key];
    if (this.drag.is === "held") {
      if (way !== undefined) {
        const by = stride(event);
        return does(() => this.turn({ do: "nudge", dx: way.dx * by, dy: way.dy * by }));
      }
      if (
        event.key === "Enter" &&
        this.drag.dx === 0 &&
        this.drag.dy === 0 &&
        this.hands.open !== undefined
      ) {
        const row = this.holding?.row ?? "";
        return does(() => {
          this.turn({ do: "back" });
          this.hands.open?.(row);
        });
      }
      if (event.key === "Enter") return does(() => this.turn({ do: "drop" }));
      if (event.key === "Escape" || event.key === "Tab") return does(() => this.turn({ do: "back" }));
      return;
    }
    if (event.altKey) return;
    if (way !== undefined) {
      const dots = this.dots();
      const from = dots.find((dot) => dot.id === this.current);
      const to = from === undefined ? dots[0] : nearest(dots, from, way.way);
      return does(() => {
        if (to !== undefined && to !== null) this.stepTo(to.id);
      });
    }
    const row = rowOf(this.nodeOf(this.current)?.prim);
    if (event.key === "F2" && row !== "" && this.hands.open !== undefined)
      return does(() => this.hands.open?.(row));
    if (event.key === " " && row !== "" && this.hands.more !== undefined)
      return does(() => this.hands.more?.(row));
    if (event.key === "Enter" && !this.still) return does(() => this.turn({ do: "pick", id: this.current }));
    if (event.key === "+" || event.key === "=") return does(() => this.closer(1.25));
    if (event.key === "-") return does(() => this.closer(0.8));
    if (event.key === "0") return does(() => this.whole());
  }
}

const ways: Record<string, { way: Way; dx: number; dy: number }> = {
  ArrowLeft: { way: "left", dx: -1, dy: 0 },
  ArrowRight: { way: "right", dx: 1, dy: 0 },
  ArrowUp: { way: "up", dx: 0, dy: -1 },
  ArrowDown: { way: "down", dx: 0, dy: 1 },
};
