// The strip under the drawing: what stands on the axles, under the axles, and what can still be added,
// by place, in line with the van above. Its lettering keeps its size while one zooms.

import type { AddedView, AxleLine, AxleView } from "../api.gen";
import { verdictWord } from "../bits/Verdict";

const ns = "http://www.w3.org/2000/svg";

export interface StripData {
  /** the state shown; the axles are judged on the road and said of no other */
  state: string;
  axles: AxleView;
  added: AddedView;
}

export interface StripPlace {
  /** pixels of the strip at a van x in millimetres */
  at(x: number): number;
  width: number;
  front: number | null;
  rear: number | null;
}

const curveTop = 74;
const curveTall = 62;
const tickTall = 18;
export const stripTall = curveTop + curveTall + 16 + tickTall;

/** steps are a few round level lines from at or below lo to at or above hi, nought among them. */
export function steps(lo: number, hi: number): number[] {
  const span = Math.max(hi, 0) - Math.min(lo, 0);
  if (!(span > 0)) return [0];
  const raw = span / 3;
  const ten = 10 ** Math.floor(Math.log10(raw));
  const step = [1, 2, 5, 10].map((m) => m * ten).find((one) => one >= raw) ?? ten;
  const from = Math.floor(Math.min(lo, 0) / step);
  const to = Math.ceil(Math.max(hi, 0) / step);
  return Array.from({ length: to - from + 1 }, (_, nth) => Math.round((from + nth) * step * 1000) / 1000 + 0);
}

/** telling picks the points of the curve whose words are written: ends, and where another limit takes over. */
export function telling<T extends { ends: string }>(points: readonly T[]): T[] {
  return points.filter((point, nth) => {
    const before = points[nth - 1];
    return before === undefined || nth === points.length - 1 || before.ends !== point.ends;
  });
}

export class Strip {
  readonly svg: SVGSVGElement;
  private data: StripData | null = null;
  private spot: StripPlace | null = null;

  constructor(box: HTMLElement) {
    this.svg = document.createElementNS(ns, "svg");
    this.svg.setAttribute("class", "strip");
    this.svg.setAttribute("role", "img");
    box.append(this.svg);
  }

  show(data: StripData): void {
    this.data = data;
    this.draw();
  }

  place(spot: StripPlace): void {
    this.spot = spot;
    this.draw();
  }

  close(): void {
    this.svg.remove();
  }

  private draw(): void {
    const { data, spot } = this;
    if (data === null || spot === null || !(spot.width > 0)) return;
    const parts: SVGElement[] = [];
    const front = spot.front === null ? null : spot.at(spot.front);
    const rear = spot.rear === null ? null : spot.at(spot.rear);
    const apart = front === null || rear === null ? spot.width : Math.abs(rear - front);
    const last = Math.max(front ?? 0, rear ?? 0);
    const how: Lettering =
      apart > 250 && last + 235 < spot.width ? "beside" : apart > 215 ? "under" : "short";
    for (const [id, x] of [
      ["front", front],
      ["rear", rear],
    ] as const) {
      const line = data.axles.lines.find((one) => one.id === id);
      if (data.state === "travel" && line !== undefined && x !== null) parts.push(...axle(line, x, how));
    }
    parts.push(...curve(data.added, spot, data.state === "travel" ? "" : ", in travel"));
    this.svg.setAttribute("viewBox", `0 0 ${spot.width} ${stripTall}`);
    this.svg.setAttribute("aria-label", words(data));
    this.svg.replaceChildren(...parts);
  }
}

function words(data: StripData): string {
  const loads = (data.state === "travel" ? data.axles.lines : []).map(
    (line) =>
      `${line.name} ${line.value?.text ?? "unknown"}${line.limit === undefined ? "" : ` of ${line.limit.text}`}`,
  );
  const added = telling(data.added.points ?? []).map((point) => point.text);
  return [...loads, added.length === 0 ? "" : `can still be added: ${added.join("; ")}`]
    .filter((one) => one !== "")
    .join(", ");
}

/** where the words of an axle stand: beside its arrow, under it, or under it and without the name */
type Lettering = "beside" | "under" | "short";

function axle(line: AxleLine, x: number, how: Lettering): SVGElement[] {
  const value = line.value?.text ?? "unknown";
  const of = line.limit === undefined ? "" : ` of ${line.limit.text}`;
  const name = how === "short" ? "" : `${line.name} `;
  const hand = [
    line.margin === undefined
      ? ""
      : how === "short" || line.verdict === "does-not-hold"
        ? line.margin.text
        : `${line.margin.text} in hand`,
    line.half === undefined ? "" : `± ${line.half.text}`,
    how === "beside" && line.margin !== undefined ? "own worst case" : "",
    verdictWord(line.verdict),
  ].filter((word) => word !== "");
  if (how === "beside")
    return [
      arrow(line.id, `M${x} 5V40M${x - 4.5} 14 ${x} 4 ${x + 4.5} 14`),
      text(`${name}${value}${of}`, x + 11, 19, "start", "load"),
      text(hand.join(" · "), x + 11, 36, "start", `hand ${line.verdict}`),
    ];
  return [
    arrow(line.id, `M${x} 3V16M${x - 4} 10 ${x} 2 ${x + 4} 10`),
    text(`${name}${value}${of}`, x, 30, "middle", "load"),
    text(hand.join(" · "), x, 46, "middle", `hand ${line.verdict}`),
  ];
}

function arrow(axle: string, d: string): SVGElement {
  const node = path(d, "arrow");
  node.dataset.axle = axle;
  return node;
}

function curve(added: AddedView, spot: StripPlace, when: string): SVGElement[] {
  const points = added.points ?? [];
  const bottom = curveTop + curveTall;
  if (!added.known || points.length < 2) {
    const why = added.why === undefined || added.why === "" ? "not known yet" : added.why;
    return [text(`What can still be added, by place: ${why}`, 14, curveTop + 20, "start", "title")];
  }
  if (points.every((point) => !(point.kg > 0)))
    return [
      text(
        "Nothing can be added at any place: a limit is passed already.",
        14,
        curveTop + 20,
        "start",
        "title",
      ),
    ];
  const xs = points.map((point) => spot.at(point.xUm / 1000));
  const x0 = Math.min(...xs);
  const x1 = Math.max(...xs);
  const kgs = points.map((point) => point.kg);
  const lines = steps(Math.min(...kgs), Math.max(...kgs));
  const least = lines[0] ?? 0;
  const most = lines.at(-1) ?? 1;
  const y = (kg: number) => bottom - ((kg - least) / (most - least || 1)) * curveTall;
  const out: SVGElement[] = [
    text(`what can still be added here, kg${when}`, Math.max(x0, 14), curveTop - 10, "start", "title"),
  ];
  for (const kg of lines) {
    out.push(path(`M${x0} ${y(kg)}H${x1}`, kg === 0 ? "base" : "level"));
    out.push(text(String(kg), x0 - 6, y(kg) + 4, "end", "kg"));
  }
  const d = points
    .map((point, nth) => `${nth === 0 ? "M" : "L"}${(xs[nth] ?? 0).toFixed(1)} ${y(point.kg).toFixed(1)}`)
    .join("");
  out.push(path(`${d}V${y(0)}H${xs[0] ?? 0}z`, "under"), path(d, "curve"));
  let end = Number.NEGATIVE_INFINITY;
  for (const mark of (added.marks ?? []).toSorted((a, b) => spot.at(a.xUm / 1000) - spot.at(b.xUm / 1000))) {
    const x = spot.at(mark.xUm / 1000);
    if (x < 0 || x > spot.width) continue;
    out.push(path(`M${x} ${bottom}v6`, "tick"));
    const half = mark.text.length * 3.1;
    const middle = Math.min(Math.max(x, half + 4), spot.width - half - 4);
    if (middle - half < end + 8) continue;
    end = middle + half;
    out.push(text(mark.text, middle, bottom + 19, "middle", "kg"));
  }
  let last = Number.NEGATIVE_INFINITY;
  for (const point of telling(points).toSorted((a, b) => spot.at(a.xUm / 1000) - spot.at(b.xUm / 1000))) {
    const x = spot.at(point.xUm / 1000);
    if (x < -4 || x > spot.width + 4 || x - last < 64) continue;
    last = x;
    const anchor = x > Math.min(spot.width, x1) - 40 ? "end" : x < Math.max(0, x0) + 40 ? "start" : "middle";
    out.push(
      path(`M${x - 2} ${y(point.kg)}a2 2 0 1 0 4 0a2 2 0 1 0-4 0`, "dot"),
      text(point.text, x, y(point.kg) - 6, anchor, "value"),
    );
  }
  return out;
}

function path(d: string, className: string): SVGElement {
  const node = document.createElementNS(ns, "path");
  node.setAttribute("d", d);
  node.setAttribute("class", className);
  return node;
}

function text(words: string, x: number, y: number, anchor: string, className: string): SVGElement {
  const node = document.createElementNS(ns, "text");
  node.setAttribute("x", String(x));
  node.setAttribute("y", String(y));
  node.setAttribute("text-anchor", anchor);
  node.setAttribute("class", className);
  node.textContent = words;
  return node;
}
