import type { FindingView, Subject } from "../api.gen";
import type { Stage } from "../drawing/stage";

export interface Leader {
  key: string;
  d: string;
  chosen: boolean;
}

/** leaders draws lines from the worst note, and from the one selected, to what they speak of. */
export function leaders(
  box: HTMLElement | null,
  stage: Stage | null,
  notes: readonly FindingView[],
  selected: string,
): Leader[] {
  if (box === null || stage === null) return [];
  const home = box.getBoundingClientRect();
  const paper = stage.svg.getBoundingClientRect();
  const list = box.querySelector(".notes")?.getBoundingClientRect();
  if (list === undefined || list.top > paper.bottom - 4) return [];
  const out: Leader[] = [];
  for (const note of notes) {
    if (note.key !== notes[0]?.key && note.key !== selected) continue;
    const row = box.querySelector(`[data-note="${CSS.escape(note.key)}"]`)?.getBoundingClientRect();
    if (row === undefined) continue;
    const x0 = row.left - home.left;
    const y0 = Math.max(list.top, Math.min(row.top + 14, list.bottom)) - home.top;
    const axle = /^axle-(front|rear)\//.exec(note.key)?.[1];
    const load = axle === undefined ? null : box.querySelector(`.strip [data-axle="${axle}"]`);
    if (load !== null) {
      const at = load.getBoundingClientRect();
      const x = (at.left + at.right) / 2 - home.left;
      const y = at.top - home.top;
      if (x >= 0 && at.right <= paper.right)
        out.push({ key: `${note.key} ${axle}`, d: line(x0, y0, x, y), chosen: note.key === selected });
      continue;
    }
    for (const subject of (note.subjects ?? []).slice(0, note.key === selected ? 3 : 1)) {
      const spots = targets(stage, subject)
        .filter(([px, py]) => px >= 0 && py >= 0 && px <= paper.width && py <= paper.height)
        .map(([px, py]) => [paper.left - home.left + px, paper.top - home.top + py] as const)
        .sort((a, b) => Math.hypot(a[0] - x0, a[1] - y0) - Math.hypot(b[0] - x0, b[1] - y0));
      const to = spots[0];
      if (to === undefined) continue;
      out.push({
        key: `${note.key} ${subject.path}`,
        d: line(x0, y0, to[0], to[1]),
        chosen: note.key === selected,
      });
    }
  }
  return out;
}

const line = (x0: number, y0: number, x: number, y: number) =>
  `M${x0} ${y0}H${x0 - 18}L${x} ${y}m-3 0a3 3 0 1 0 6 0 3 3 0 1 0-6 0`;

function targets(stage: Stage, subject: Subject): [number, number][] {
  const row = /^items[/.]([^/.]+)/.exec(subject.path)?.[1];
  const item = row === undefined ? [] : stage.placesOf(row);
  return item.length > 0 ? item : stage.places(subject.xUm, subject.yUm ?? 0, subject.zUm);
}
