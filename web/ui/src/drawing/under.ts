// What lies under the pointer: the item that a press takes first, and those that more presses lead to.

/** Under is one item whose outline has the pointer in it. */
export interface Under {
  key: string;
  /** what its outline covers on the screen, in square pixels */
  area: number;
}

/** inOrder puts the smallest outline first, as the eye would take it, at whatever height it lies. */
export function inOrder(all: readonly Under[]): string[] {
  return all.toSorted((a, b) => a.area - b.area).map((one) => one.key);
}

/** after is the one that another press at the same place leads to. */
export function after(keys: readonly string[], key: string): string {
  return keys[(keys.indexOf(key) + 1) % keys.length] ?? "";
}
