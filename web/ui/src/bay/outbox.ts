// The outbox keeps every press of the bay until the server has it: over a network gap, a reload, a flat battery.
// Each entry is sent under the id it was made with, so that one whose answer was lost is kept once.

import { Lost, Refused } from "../api/client";
import type { BayView } from "../api.gen";

export interface Press {
  id: string;
  build: string;
  kind: "done" | "not-done" | "weighed" | "photo";
  item: string;
  by: string;
  text: string;
  at: string;
  photo?: Blob;
  /** why the server would not have it */
  refused?: string;
}

export interface Shelf {
  all(): Promise<Press[]>;
  put(press: Press): Promise<void>;
  drop(id: string): Promise<void>;
}

export interface Ends {
  send(press: Press): Promise<BayView>;
  /** what is waiting, and the newest answer where there is one */
  changed(waiting: readonly Press[], view: BayView | null, away: boolean): void;
  later(run: () => void, ms: number): void;
}

const waits = [1000, 2000, 4000, 8000, 15000];

export class Outbox {
  private rows: Press[] = [];
  private busy = false;
  private tries = 0;
  private away = false;

  constructor(
    private readonly shelf: Shelf,
    private readonly ends: Ends,
  ) {}

  async open(): Promise<void> {
    const kept = await this.shelf.all();
    const here = new Set(this.rows.map((row) => row.id));
    this.rows = [...kept.filter((row) => !here.has(row.id)), ...this.rows].sort((a, b) =>
      a.at.localeCompare(b.at),
    );
    this.tell(null);
    await this.flush();
  }

  /** add keeps a press before anything is sent. */
  async add(press: Press): Promise<void> {
    this.rows = [...this.rows, press];
    this.tell(null);
    await this.shelf.put(press);
    await this.flush();
  }

  async drop(id: string): Promise<void> {
    this.rows = this.rows.filter((row) => row.id !== id);
    await this.shelf.drop(id);
    this.tell(null);
  }

  /** flush sends what is waiting, one after the other; calling it twice does no harm. */
  async flush(): Promise<void> {
    if (this.busy) return;
    this.busy = true;
    try {
      for (;;) {
        const next = this.rows.find((row) => row.refused === undefined);
        if (next === undefined || !(await this.one(next))) return;
      }
    } finally {
      this.busy = false;
    }
  }

  private async one(press: Press): Promise<boolean> {
    try {
      const view = await this.ends.send(press);
      this.tries = 0;
      this.away = false;
      this.rows = this.rows.filter((row) => row.id !== press.id);
      await this.shelf.drop(press.id);
      this.tell(view);
      return true;
    } catch (reason) {
      if (reason instanceof Refused && reason.status < 500) {
        const refused = { ...press, refused: reason.problem.text };
        this.rows = this.rows.map((row) => (row.id === press.id ? refused : row));
        await this.shelf.put(refused);
        this.tell(null);
        return true;
      }
      if (!(reason instanceof Lost) && !(reason instanceof Refused)) throw reason;
      this.away = true;
      this.tell(null);
      this.ends.later(() => void this.flush(), waits[Math.min(this.tries, waits.length - 1)] ?? 15000);
      this.tries += 1;
      return false;
    }
  }

  private tell(view: BayView | null): void {
    this.ends.changed(this.rows, view, this.away);
  }
}

/** shelfIn keeps presses in the browser's own database, photos and all. */
export function shelfIn(build: string): Shelf {
  const db = new Promise<IDBDatabase>((resolve, reject) => {
    const ask = indexedDB.open("berthwright-bay", 1);
    ask.onupgradeneeded = () => ask.result.createObjectStore("presses", { keyPath: "id" });
    ask.onsuccess = () => resolve(ask.result);
    ask.onerror = () => reject(ask.error);
  });
  const act = async <T>(
    mode: IDBTransactionMode,
    does: (store: IDBObjectStore) => IDBRequest<T>,
  ): Promise<T> => {
    const open = await db;
    return new Promise<T>((resolve, reject) => {
      const work = open.transaction("presses", mode);
      const ask = does(work.objectStore("presses"));
      work.oncomplete = () => resolve(ask.result);
      work.onerror = () => reject(work.error);
      work.onabort = () => reject(work.error);
    });
  };
  return {
    all: async () => {
      const rows = await act("readonly", (store) => store.getAll() as IDBRequest<Press[]>);
      return rows.filter((row) => row.build === build);
    },
    put: async (press) => void (await act("readwrite", (store) => store.put(press))),
    drop: async (id) => void (await act("readwrite", (store) => store.delete(id))),
  };
}
