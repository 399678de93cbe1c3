// A part taken from the plan chest and let go over the plan.

import type { Edit } from "../api.gen";

export const partKind = "application/x-berthwright-part";

export interface Taken {
  ref: string;
  name: string;
}

/** takenOf reads what is let go; null when it is no part. */
export function takenOf(text: string): Taken | null {
  try {
    const value: unknown = JSON.parse(text);
    if (typeof value !== "object" || value === null) return null;
    const { ref, name } = value as Partial<Taken>;
    return typeof ref === "string" && typeof name === "string" ? { ref, name } : null;
  } catch {
    return null;
  }
}

/** placed puts a part in with its middle at a point of the plan, to whole centimetres, standing on the floor: the finished
 *  one where it is known. */
export function placed(grid: string, part: Taken, at: { x: number; y: number }, finished = true): Edit {
  const mm = (value: number) => `${Math.round(value / 10) * 10 + 0} mm`;
  return {
    kind: "add",
    grid,
    text: part.name,
    part: part.ref,
    cells: {
      line: "axle",
      far: mm(at.x),
      side: `middle ${mm(at.y)}`,
      level: finished ? "0 mm" : "bare floor 0 mm",
    },
  };
}
