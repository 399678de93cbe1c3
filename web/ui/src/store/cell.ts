import { useSyncExternalStore } from "react";

/** Cell is one piece of state that components can watch. */
export class Cell<T> {
  private readonly watchers = new Set<() => void>();

  constructor(private value: T) {}

  get = (): T => this.value;

  set = (value: T): void => {
    if (Object.is(value, this.value)) return;
    this.value = value;
    for (const watcher of this.watchers) watcher();
  };

  patch = (part: Partial<T>): void => this.set({ ...this.value, ...part });

  watch = (watcher: () => void): (() => void) => {
    this.watchers.add(watcher);
    return () => this.watchers.delete(watcher);
  };
}

export function useCell<T>(cell: Cell<T>): T {
  return useSyncExternalStore(cell.watch, cell.get);
}

/** usePick watches one part of a cell; the part must be stable while nothing changed. */
export function usePick<T, U>(cell: Cell<T>, pick: (value: T) => U): U {
  return useSyncExternalStore(cell.watch, () => pick(cell.get()));
}
