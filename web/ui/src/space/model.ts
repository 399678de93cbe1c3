// What is drawn in space: all faces in one buffer and all edges in another, so that a frame is a few calls.

import * as three from "three";
import type { SolidsView, SolidView } from "../api.gen";

export interface Inks {
  paper: three.Color;
  tint: three.Color;
  ink: three.Color;
  faint: three.Color;
  accent: three.Color;
}

/** Part is where one body stands in the buffers. */
export interface Part {
  solid: SolidView;
  /** triangles from, to */
  from: number;
  to: number;
}

export interface Model {
  faces: three.BufferGeometry;
  edges: three.BufferGeometry;
  parts: Part[];
  van: three.BufferGeometry;
  shell: three.BufferGeometry | null;
}

type Corners = [number, number][];

const cornersOf = (flat: readonly number[]): Corners => {
  const out: Corners = [];
  for (let n = 0; n + 1 < flat.length; n += 2) out.push([flat[n] ?? 0, flat[n + 1] ?? 0]);
  const area = out.reduce((sum, [x, y], n) => {
    const [u, v] = out[(n + 1) % out.length] ?? [0, 0];
    return sum + x * v - u * y;
  }, 0);
  return area < 0 ? out.reverse() : out;
};

/** shade is how light a face is, by the way it looks: tops lightest, so that edges are not needed to read a body. */
function shade(inks: Inks, nx: number, ny: number, nz: number): three.Color {
  const dark = nz > 0.5 ? 0 : nz < -0.5 ? 0.34 : 0.1 + 0.16 * Math.abs(nx) + (ny > 0 ? 0.06 : 0);
  return inks.paper.clone().lerp(inks.tint, 0.55 + dark);
}

/** inked is the ink of a body: one that a check speaks against leans to the accent. */
function inked(solid: SolidView, inks: Inks): Inks {
  if (solid.noted !== "does-not-hold") return inks;
  return { ...inks, tint: inks.tint.clone().lerp(inks.accent, 0.3) };
}

export function modelOf(view: SolidsView, inks: Inks, veiled: ReadonlySet<string>): Model {
  const at: number[] = [];
  const tone: number[] = [];
  const lines: number[] = [];
  const parts: Part[] = [];
  const corner = (x: number, y: number, z: number, c: three.Color) => {
    at.push(x, y, z);
    tone.push(c.r, c.g, c.b);
  };
  const extrude = (solid: SolidView, ink: Inks) => {
    const from = at.length / 9;
    const ring = cornersOf(solid.outline);
    const { low, high } = solid;
    ring.forEach(([x, y], n) => {
      const [u, v] = ring[(n + 1) % ring.length] ?? [x, y];
      const long = Math.hypot(u - x, v - y) || 1;
      const c = shade(ink, (v - y) / long, -(u - x) / long, 0);
      corner(x, y, low, c);
      corner(u, v, low, c);
      corner(u, v, high, c);
      corner(x, y, low, c);
      corner(u, v, high, c);
      corner(x, y, high, c);
      lines.push(x, y, low, u, v, low, x, y, high, u, v, high, x, y, low, x, y, high);
    });
    const top = shade(ink, 0, 0, 1);
    const under = shade(ink, 0, 0, -1);
    const flat = ring.map(([x, y]) => new three.Vector2(x, y));
    for (const [a = 0, b = 0, c = 0] of three.ShapeUtils.triangulateShape(flat, [])) {
      for (const k of [a, b, c]) corner(flat[k]?.x ?? 0, flat[k]?.y ?? 0, high, top);
      for (const k of [a, c, b]) corner(flat[k]?.x ?? 0, flat[k]?.y ?? 0, low, under);
    }
    parts.push({ solid, from, to: at.length / 9 });
  };
  for (const box of view.boxes) extrude(box, { ...inks, tint: inks.faint });
  for (const solid of view.bodies) if (!veiled.has(solid.group)) extrude(solid, inked(solid, inks));

  const faces = new three.BufferGeometry();
  faces.setAttribute("position", new three.Float32BufferAttribute(at, 3));
  faces.setAttribute("color", new three.Float32BufferAttribute(tone, 3));
  const edges = new three.BufferGeometry();
  edges.setAttribute("position", new three.Float32BufferAttribute(lines, 3));
  return { faces, edges, parts, van: vanOf(view), shell: shellOf(view) };
}

/** vanOf is the van itself as lines: its cross-sections, where the corners run along it, doors, floor. */
function vanOf(view: SolidsView): three.BufferGeometry {
  const lines: number[] = [];
  const cuts = matched(view);
  cuts.forEach((cut, nth) => {
    const next = cuts[nth + 1];
    cut.points.forEach(([y, z], k) => {
      const more = cut.points[k + 1];
      if (more !== undefined) lines.push(cut.x, y, z, cut.x, more[0], more[1]);
      const along = next?.points[k];
      if (next !== undefined && along !== undefined && k % 4 === 0)
        lines.push(cut.x, y, z, next.x, along[0], along[1]);
    });
  });
  for (const ring of view.openings)
    for (let n = 0; n < ring.points.length; n += 3)
      for (const k of [0, 1, 2, 3, 4, 5]) lines.push(ring.points[(n + k) % ring.points.length] ?? 0);
  const floor = view.floor;
  if (floor !== undefined) {
    const z = view.finished;
    const around: Corners = [
      [floor.x0, floor.y0],
      [floor.x1, floor.y0],
      [floor.x1, floor.y1],
      [floor.x0, floor.y1],
    ];
    around.forEach(([x, y], n) => {
      const [u, v] = around[(n + 1) % 4] ?? [x, y];
      lines.push(x, y, z, u, v, z);
    });
  }
  const out = new three.BufferGeometry();
  out.setAttribute("position", new three.Float32BufferAttribute(lines, 3));
  return out;
}

/** shellOf is the lined inside as a surface between its cross-sections. */
function shellOf(view: SolidsView): three.BufferGeometry | null {
  const cuts = matched(view);
  if (cuts.length < 2) return null;
  const at: number[] = [];
  cuts.slice(0, -1).forEach((a, nth) => {
    const b = cuts[nth + 1];
    if (b === undefined) return;
    for (let k = 0; k + 1 < Math.min(a.points.length, b.points.length); k++) {
      const [p, q, r, s] = [a.points[k], a.points[k + 1], b.points[k + 1], b.points[k]];
      if (p === undefined || q === undefined || r === undefined || s === undefined) continue;
      at.push(a.x, ...p, a.x, ...q, b.x, ...r, a.x, ...p, b.x, ...r, b.x, ...s);
    }
  });
  const out = new three.BufferGeometry();
  out.setAttribute("position", new three.Float32BufferAttribute(at, 3));
  return out;
}

interface Cut {
  x: number;
  points: Corners;
}

/** matched gives all cuts the same number of points: as measured where they have it, else evenly along the line. */
export function matched(view: Pick<SolidsView, "cuts">): Cut[] {
  const cuts = view.cuts.map((cut) => {
    const points: Corners = [];
    for (let n = 0; n + 1 < cut.line.length; n += 2) points.push([cut.line[n] ?? 0, cut.line[n + 1] ?? 0]);
    return { x: cut.x, points };
  });
  const many = cuts[0]?.points.length ?? 0;
  if (cuts.every((cut) => cut.points.length === many)) return cuts;
  return cuts.map((cut) => ({ x: cut.x, points: even(cut.points, 33) }));
}

function even(line: Corners, many: number): Corners {
  const steps = line
    .slice(1)
    .map(([y, z], n) => Math.hypot(y - (line[n]?.[0] ?? 0), z - (line[n]?.[1] ?? 0)));
  const whole = steps.reduce((sum, one) => sum + one, 0);
  const out: Corners = [];
  let at = 0;
  let gone = 0;
  for (let n = 0; n < many; n++) {
    const want = (whole * n) / (many - 1);
    while (at < steps.length - 1 && gone + (steps[at] ?? 0) < want) {
      gone += steps[at] ?? 0;
      at += 1;
    }
    const t = Math.min(1, Math.max(0, (want - gone) / (steps[at] || 1)));
    const a = line[at] ?? ([0, 0] as [number, number]);
    const b = line[at + 1] ?? a;
    out.push([a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])]);
  }
  return out;
}
