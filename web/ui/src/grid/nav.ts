// Where the keyboard goes in a grid: pure, so that it can be tested without a page.

export interface Spot {
  row: number;
  col: number;
}

export interface Place extends Spot {
  /** the other corner of the selection; the same spot when one cell is selected */
  anchor: Spot;
}

export interface Size {
  rows: number;
  cols: number;
}

export interface Range {
  top: number;
  bottom: number;
  left: number;
  right: number;
}

export const at = (row: number, col: number): Place => ({ row, col, anchor: { row, col } });

const hold = (value: number, most: number) => Math.max(0, Math.min(value, most - 1));

/** kept brings a place back inside a grid that became smaller. */
export function kept(place: Place, size: Size): Place {
  const row = hold(place.row, size.rows);
  const col = hold(place.col, size.cols);
  const anchor = { row: hold(place.anchor.row, size.rows), col: hold(place.anchor.col, size.cols) };
  return { row, col, anchor };
}

export function range(place: Place): Range {
  return {
    top: Math.min(place.row, place.anchor.row),
    bottom: Math.max(place.row, place.anchor.row),
    left: Math.min(place.col, place.anchor.col),
    right: Math.max(place.col, place.anchor.col),
  };
}

export interface Pressed {
  key: string;
  ctrl: boolean;
  shift: boolean;
}

const page = 12;

/** moved gives the place a key leads to, or null when the key does not move. */
export function moved(place: Place, pressed: Pressed, size: Size): Place | null {
  const to = target(place, pressed, size);
  if (to === null) return null;
  const spot = { row: hold(to.row, size.rows), col: hold(to.col, size.cols) };
  return { ...spot, anchor: pressed.shift ? place.anchor : spot };
}

function target({ row, col }: Spot, { key, ctrl }: Pressed, size: Size): Spot | null {
  switch (key) {
    case "ArrowUp":
      return { row: ctrl ? 0 : row - 1, col };
    case "ArrowDown":
      return { row: ctrl ? size.rows - 1 : row + 1, col };
    case "ArrowLeft":
      return { row, col: ctrl ? 0 : col - 1 };
    case "ArrowRight":
      return { row, col: ctrl ? size.cols - 1 : col + 1 };
    case "Home":
      return { row: ctrl ? 0 : row, col: 0 };
    case "End":
      return { row: ctrl ? size.rows - 1 : row, col: size.cols - 1 };
    case "PageUp":
      return { row: row - page, col };
    case "PageDown":
      return { row: row + page, col };
    default:
      return null;
  }
}

/** nextCell is where Tab leads while typing: on to the right, and round to the next row. */
export function nextCell({ row, col }: Spot, back: boolean, size: Size): Place {
  const flat = hold(row * size.cols + col + (back ? -1 : 1), size.rows * size.cols);
  return at(Math.floor(flat / size.cols), flat % size.cols);
}

/** starts tells whether a key begins typing over the cell. */
export function starts({ key, ctrl }: Pressed): boolean {
  return !ctrl && key.length === 1;
}

/** match finds the choice a typed beginning means: first by beginning of a word, then anywhere. */
export function match<T extends { text: string }>(typed: string, choices: readonly T[], most = 8): T[] {
  const wanted = typed.trim().toLowerCase();
  if (wanted === "") return choices.slice(0, most);
  const rank = (text: string) => {
    const lower = text.toLowerCase();
    if (lower.startsWith(wanted)) return 0;
    if (lower.split(/[\s,()-]+/).some((word) => word.startsWith(wanted))) return 1;
    return lower.includes(wanted) ? 2 : 3;
  };
  return choices
    .map((choice, nth) => ({ choice, nth, rank: rank(choice.text) }))
    .filter((one) => one.rank < 3)
    .sort((a, b) => a.rank - b.rank || a.nth - b.nth)
    .slice(0, most)
    .map((one) => one.choice);
}
