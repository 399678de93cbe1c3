// Aligning, spreading, mirroring and locking of the items that are selected together, as edits.

import { api, Lost, Refused } from "../api/client";
import type { Edit, SolidView } from "../api.gen";
import type { Session } from "../store/session";

export const arrangements = [
  { id: "front", title: "Align the selected items: front faces", short: "front" },
  { id: "rear", title: "Align the selected items: rear faces", short: "rear" },
  { id: "left", title: "Align the selected items: left faces", short: "left" },
  { id: "right", title: "Align the selected items: right faces", short: "right" },
  { id: "under", title: "Align the selected items: undersides", short: "undersides" },
  { id: "top", title: "Align the selected items: tops", short: "tops" },
  { id: "spread", title: "Spread the selected items evenly along the van", short: "spread evenly" },
  { id: "mirror", title: "Mirror the selected items about the centre line", short: "mirror" },
  { id: "lock", title: "Lock the selected items", short: "lock" },
  { id: "unlock", title: "Unlock the selected items", short: "unlock" },
] as const;

export type Arrangement = (typeof arrangements)[number]["id"];

export interface Block {
  id: string;
  /** lowest and highest along x, y, z in whole micrometres */
  lo: [number, number, number];
  hi: [number, number, number];
}

export function blockOf(solid: Pick<SolidView, "id" | "outline" | "low" | "high">): Block {
  const xs = solid.outline.filter((_, nth) => nth % 2 === 0);
  const ys = solid.outline.filter((_, nth) => nth % 2 === 1);
  const um = (mm: number) => Math.round(mm * 1000);
  return {
    id: solid.id,
    lo: [um(Math.min(...xs)), um(Math.min(...ys)), um(solid.low)],
    hi: [um(Math.max(...xs)), um(Math.max(...ys)), um(solid.high)],
  };
}

const faces: Partial<Record<Arrangement, { axis: 0 | 1 | 2; end: "lo" | "hi" }>> = {
  front: { axis: 0, end: "lo" },
  rear: { axis: 0, end: "hi" },
  left: { axis: 1, end: "lo" },
  right: { axis: 1, end: "hi" },
  under: { axis: 2, end: "lo" },
  top: { axis: 2, end: "hi" },
};

const keys = ["dxUm", "dyUm", "dzUm"] as const;

const shift = (id: string, axis: 0 | 1 | 2, by: number): Edit[] =>
  by === 0 ? [] : [{ kind: "move", row: id, [keys[axis]]: by }];

/** arranged makes the edits; the first block is the one the others follow. */
export function arranged(how: Arrangement, blocks: readonly Block[]): Edit[] {
  const [first, ...others] = blocks;
  if (first === undefined) return [];
  const face = faces[how];
  if (face !== undefined)
    return others.flatMap((one) =>
      shift(one.id, face.axis, first[face.end][face.axis] - one[face.end][face.axis]),
    );
  switch (how) {
    case "spread": {
      const row = [...blocks].sort((a, b) => a.lo[0] - b.lo[0]);
      const [start, end] = [row[0], row.at(-1)];
      if (start === undefined || end === undefined || row.length < 3) return [];
      const inside = row.slice(1, -1);
      const room = end.lo[0] - start.hi[0] - inside.reduce((sum, one) => sum + one.hi[0] - one.lo[0], 0);
      const gap = Math.round(room / (row.length - 1));
      let at = start.hi[0] + gap;
      return inside.flatMap((one) => {
        const edits = shift(one.id, 0, at - one.lo[0]);
        at += one.hi[0] - one.lo[0] + gap;
        return edits;
      });
    }
    case "mirror":
      return blocks.flatMap((one) => shift(one.id, 1, -(one.lo[1] + one.hi[1])));
    case "lock":
      return blocks.map((one) => ({
        kind: "field",
        path: `items/${one.id}/locked`,
        text: "locked on the drawing",
      }));
    case "unlock":
      return blocks.map((one) => ({ kind: "field", path: `items/${one.id}/locked`, text: "" }));
    default:
      return [];
  }
}

/** arrange does it to the items selected together, where they stand in the state shown. */
export async function arrange(session: Session, how: Arrangement): Promise<void> {
  const rows = [session.selected.get(), ...session.also.get()].filter((row) => row !== "");
  const least = how === "mirror" || how === "lock" || how === "unlock" ? 1 : how === "spread" ? 3 : 2;
  if (rows.length < least) {
    session.shown.patch({
      said: `Select ${least === 1 ? "an item" : `${least} items or more`} first: Shift and click, or Space on the drawing.`,
    });
    return;
  }
  try {
    const state = session.state.get();
    const solids = await api.solids(session.id, state);
    const blocks = rows
      .map((row) => solids.bodies.find((one) => one.id === row))
      .filter((one) => one !== undefined)
      .filter((one) => how === "lock" || how === "unlock" || !one.locked)
      .map(blockOf);
    const edits = arranged(how, blocks).map((edit) =>
      edit.kind === "move" && state !== "travel" ? { ...edit, state } : edit,
    );
    if (edits.length === 0) session.shown.patch({ said: "Nothing moves by that." });
    else session.change(arrangements.find((one) => one.id === how)?.short ?? how, edits);
  } catch (reason) {
    if (reason instanceof Lost) session.shown.patch({ away: true });
    else if (reason instanceof Refused) session.shown.patch({ said: reason.problem.text });
    else throw reason;
  }
}
