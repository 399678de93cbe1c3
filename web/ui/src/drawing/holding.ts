// What is held: an item and its label, on top of the picture, with the lines its sides may catch on.

import type { Edit, Prim } from "../api.gen";
import { inVan } from "./drag";
import type { Picture } from "./picture";
import { type Caught, caught, distinct, type Lines } from "./snap";
import type { Rect } from "./viewport";

/** millimetres a line may be wide and still be a line */
const thin = 60;

export class Holding {
  readonly ids: readonly string[];
  private readonly lines: Lines;

  constructor(
    readonly picture: Picture,
    readonly row: string,
    private readonly box: Rect,
  ) {
    this.ids = [`item:${row}`, `label:${row}`];
    this.lines = linesOf(picture, this.ids);
    for (const id of this.ids) {
      const node = picture.node(id);
      if (node === undefined) continue;
      node.classList.add("held");
      picture.root.append(node);
    }
  }

  /** snapped is a move of dx, dy, caught on a line where one is within reach. */
  snapped(dx: number, dy: number, reach: number): { x: Caught; y: Caught } {
    const { x0, x1, y0, y1 } = this.box;
    return {
      x: caught({ lo: x0, hi: x1 }, dx, this.lines.xs, reach),
      y: caught({ lo: y0, hi: y1 }, dy, this.lines.ys, reach),
    };
  }

  edit(dx: number, dy: number): Edit {
    return { kind: "move", row: this.row, ...inVan(this.picture.view, dx, dy) } as Edit;
  }

  shift(dx: number, dy: number): void {
    for (const id of this.ids) this.picture.node(id)?.setAttribute("transform", `translate(${dx} ${dy})`);
  }

  unshift(): void {
    for (const id of this.ids) this.picture.node(id)?.removeAttribute("transform");
  }

  letGo(): void {
    for (const id of this.ids) this.picture.node(id)?.classList.remove("held");
  }
}

/** linesOf are the walls, the lines people tape from, and the faces of the neighbours. */
function linesOf(picture: Picture, without: readonly string[]): Lines {
  const xs: number[] = [];
  const ys: number[] = [];
  for (const prim of picture.prims()) {
    const datum = prim.kind === "path" && (prim.role === "datum" || prim.id.startsWith("van/wall"));
    const face = prim.kind === "group" && prim.id.startsWith("item:") && !without.includes(prim.id);
    if (!datum && !face) continue;
    const box = picture.box(prim.id);
    if (box === null) continue;
    if (face || box.x1 - box.x0 < thin) xs.push(box.x0, box.x1);
    if (face || box.y1 - box.y0 < thin) ys.push(box.y0, box.y1);
  }
  return { xs: distinct(xs), ys: distinct(ys) };
}

/** rowOf is the row of the kit a group stands for, or "". */
export function rowOf(prim: Prim | undefined): string {
  if (prim === undefined || !prim.id.startsWith("item:")) return "";
  const last = prim.path?.split(/[/.]/).at(-1);
  return last === undefined || last === "" ? prim.id.slice("item:".length) : last;
}
