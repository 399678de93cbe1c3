// The queue keeps every change until the server has acknowledged it. It sends one at a time and in
// order, under the id the change was made with, so that a change that got through without its answer
// coming back is applied once. What is kept survives a reload.

import { Clash, Lost, Refused } from "../api/client";
import type { ChangeRequest, ChangeResult, Conflict, Edit, Problem } from "../api.gen";

export interface Shelf {
  read(): ChangeRequest[];
  write(rows: ChangeRequest[]): void;
}

export interface QueueEnds {
  send(change: ChangeRequest): Promise<ChangeResult>;
  done(change: ChangeRequest, result: ChangeResult): void;
  clash(change: ChangeRequest, conflict: Conflict): void;
  refused(change: ChangeRequest, problem: Problem): void;
  lost(): void;
  changed(): void;
  later(run: () => void, ms: number): void;
}

const waits = [500, 1000, 2000, 4000, 8000];

/** fresh marks a row that was added by a change not yet acknowledged. */
export const fresh = (changeId: string, nth = 0) =>
  nth === 0 ? `new:${changeId}` : `new:${changeId}:${nth}`;

/** renamed puts the ids the server made in place of provisional ones. */
export function renamed(edits: Edit[], changeId: string, made: string[]): Edit[] {
  return edits.map((edit) => {
    if (edit.row?.startsWith(`new:${changeId}`) !== true) return edit;
    const nth = Number(edit.row.split(":")[2] ?? 0);
    const row = made[nth];
    return row === undefined ? edit : { ...edit, row };
  });
}

export class Queue {
  private rows: ChangeRequest[];
  private busy = false;
  private tries = 0;
  private held = false;

  constructor(
    private readonly shelf: Shelf,
    private readonly ends: QueueEnds,
  ) {
    this.rows = shelf.read();
  }

  get waiting(): readonly ChangeRequest[] {
    return this.rows;
  }

  add(change: ChangeRequest): void {
    this.keep([...this.rows, change]);
    void this.flush();
  }

  /** drop takes a change out, for example after a conflict was settled. */
  drop(id: string): void {
    this.keep(this.rows.filter((row) => row.id !== id));
    this.held = false;
    void this.flush();
  }

  /** replace puts another change in the place of one that clashed. */
  replace(id: string, change: ChangeRequest): void {
    this.keep(this.rows.map((row) => (row.id === id ? change : row)));
    this.held = false;
    void this.flush();
  }

  /** flush sends what is waiting; calling it twice does no harm. */
  async flush(): Promise<void> {
    if (this.busy || this.held) return;
    this.busy = true;
    try {
      for (let next = this.rows[0]; next !== undefined && !this.held; next = this.rows[0]) {
        if (!(await this.one(next))) return;
      }
    } finally {
      this.busy = false;
    }
  }

  private async one(change: ChangeRequest): Promise<boolean> {
    try {
      const result = await this.ends.send(change);
      this.tries = 0;
      this.settle(change, result);
      this.ends.done(change, result);
      return true;
    } catch (reason) {
      if (reason instanceof Clash) {
        this.held = true;
        this.ends.clash(change, reason.conflict);
        return false;
      }
      if (reason instanceof Refused && reason.status < 500) {
        this.keep(this.rows.filter((row) => row.id !== change.id));
        this.ends.refused(change, reason.problem);
        return true;
      }
      if (!(reason instanceof Lost) && !(reason instanceof Refused)) throw reason;
      this.ends.lost();
      const wait = waits[Math.min(this.tries, waits.length - 1)] ?? 8000;
      this.tries += 1;
      this.ends.later(() => void this.flush(), wait);
      return false;
    }
  }

  /** settle takes the acknowledged change out and lets the others stand on the revision it made. */
  private settle(change: ChangeRequest, result: ChangeResult): void {
    const ours = result.view.revision === change.base + 1;
    this.keep(
      this.rows
        .filter((row) => row.id !== change.id)
        .map((row) => ({
          ...row,
          base: ours && row.base === change.base ? result.view.revision : row.base,
          edits: renamed(row.edits, change.id, result.made ?? []),
        })),
    );
  }

  private keep(rows: ChangeRequest[]): void {
    this.rows = rows;
    this.shelf.write(rows);
    this.ends.changed();
  }
}

/** shelfFor keeps the queue of one build in the browser's own storage. */
export function shelfFor(build: string, storage: Pick<Storage, "getItem" | "setItem" | "removeItem">): Shelf {
  const key = `berthwright.waiting.${build}`;
  return {
    read() {
      try {
        const value: unknown = JSON.parse(storage.getItem(key) ?? "[]");
        return Array.isArray(value) ? (value as ChangeRequest[]) : [];
      } catch {
        return [];
      }
    },
    write(rows) {
      if (rows.length === 0) storage.removeItem(key);
      else storage.setItem(key, JSON.stringify(rows));
    },
  };
}
