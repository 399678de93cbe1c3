// Seen from afar, names on the drawing cannot be read: then each thing carries its number alone, the
// large things first, and a number that would touch another is left out.

import type { Picture } from "./picture";

const ns = "http://www.w3.org/2000/svg";

/** letters this small, in pixels, are not drawn */
const readable = 9;
const em = 11;

/** isFar tells whether names drawn at 2.6 mm of paper are too small to read. */
export const isFar = (scale: number, k: number) => 2.6 * scale * k < readable;

interface Box {
  x0: number;
  y0: number;
  x1: number;
  y1: number;
}

/** spread gives each wish its place, unless it would touch a mark or an earlier one, or not fit its thing. */
export function spread<T extends { box: Box; words: string }>(
  wishes: readonly T[],
  k: number,
  marks: readonly Box[] = [],
): (T & { x: number; y: number })[] {
  const taken: Box[] = [...marks];
  const out: (T & { x: number; y: number })[] = [];
  const area = ({ box }: T) => (box.x1 - box.x0) * (box.y1 - box.y0);
  for (const wish of [...wishes].sort((a, b) => area(b) - area(a))) {
    const w = (wish.words.length * em * 0.52 + 3) / k;
    const h = (em + 2) / k;
    const { box } = wish;
    if (box.x1 - box.x0 < w || box.y1 - box.y0 < h) continue;
    const spots = [0.5, 0.22, 0.78].flatMap((fy) => [0.5, 0.2, 0.8].map((fx) => [fx, fy] as const));
    for (const [fx, fy] of spots) {
      const x = Math.min(Math.max(box.x0 + fx * (box.x1 - box.x0), box.x0 + w / 2), box.x1 - w / 2);
      const y = Math.min(Math.max(box.y0 + fy * (box.y1 - box.y0), box.y0 + h / 2), box.y1 - h / 2);
      const here = { x0: x - w / 2, y0: y - h / 2, x1: x + w / 2, y1: y + h / 2 };
      if (taken.some((one) => one.x0 < here.x1 && here.x0 < one.x1 && one.y0 < here.y1 && here.y0 < one.y1))
        continue;
      taken.push(here);
      out.push({ ...wish, x, y });
      break;
    }
  }
  return out;
}

/** number writes the numbers of a picture for the present zoom, or takes them away. */
export function number(picture: Picture, k: number): void {
  for (const old of picture.root.querySelectorAll("text.num")) old.remove();
  if (!isFar(picture.scale, k)) return;
  const wishes: { box: Box; words: string; node: SVGElement }[] = [];
  const marks: Box[] = [];
  for (const prim of picture.prims()) {
    if (prim.role === "centre-of-mass" && prim.kind === "group") {
      const box = picture.box(prim.id);
      if (box !== null) marks.push(box);
    }
    if (
      prim.kind !== "group" ||
      !prim.id.startsWith("item:") ||
      prim.role === "mark" ||
      prim.role === "item-removed"
    )
      continue;
    const words = /^\d+/.exec(prim.title ?? "")?.[0];
    const box = picture.box(prim.id);
    const node = picture.node(prim.id);
    if (words !== undefined && box !== null && node !== undefined) wishes.push({ box, words, node });
  }
  for (const { node, words, x, y } of spread(wishes, k, marks)) {
    const text = document.createElementNS(ns, "text");
    text.setAttribute("class", "num");
    text.setAttribute("x", String(x));
    text.setAttribute("y", String(y + (em * 0.34) / k));
    text.setAttribute("text-anchor", "middle");
    text.style.fontSize = `${em / k}px`;
    text.style.strokeWidth = `${3.5 / k}px`;
    text.textContent = words;
    node.append(text);
  }
}
