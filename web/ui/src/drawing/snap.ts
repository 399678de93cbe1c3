// Snapping while something is dragged: its four sides catch on the lines that were there at pick-up.

export interface Lines {
  /** upright lines, by x */
  xs: readonly number[];
  /** level lines, by y */
  ys: readonly number[];
}

export interface Side {
  lo: number;
  hi: number;
}

export interface Caught {
  by: number;
  /** the line it caught on, or null */
  line: number | null;
}

/** caught moves a side pair by d, and on to a line when one is within reach. */
export function caught(side: Side, d: number, lines: readonly number[], reach: number): Caught {
  let best: Caught = { by: d, line: null };
  let least = reach;
  for (const line of lines) {
    for (const edge of [side.lo, side.hi]) {
      const off = Math.abs(line - (edge + d));
      if (off < least) {
        least = off;
        best = { by: line - edge, line };
      }
    }
  }
  return best;
}

/** level removes doubles, so that a crowd of equal faces costs nothing. */
export function distinct(lines: readonly number[]): number[] {
  return [...new Set(lines.map((line) => Math.round(line * 1000) / 1000))].sort((a, b) => a - b);
}
