// A session is one open build: the view the server sent last, the changes it has not acknowledged
// yet, and what the reader has chosen to look at. The build itself lives on the server.

import { api, Clash, Lost, Refused } from "../api/client";
import type { BuildView, ChangeRequest, Conflict, Edit, Event, Marked, Preview, Problem } from "../api.gen";
import { Cell } from "./cell";
import { client, newId } from "./me";
import { fresh, Queue, shelfFor } from "./queue";
import { shared } from "./shared";

export interface Shown {
  view: BuildView | null;
  problem: Problem | null;
  /** true while the server cannot be reached */
  away: boolean;
  waiting: readonly ChangeRequest[];
  clash: { change: ChangeRequest; conflict: Conflict } | null;
  /** the last thing that was refused or marked, said once */
  said: string;
  refused: Marked[];
  /** figures of an unstored change, while something moves */
  preview: Preview | null;
}

const empty: Shown = {
  view: null,
  problem: null,
  away: false,
  waiting: [],
  clash: null,
  said: "",
  refused: [],
  preview: null,
};

export class Session {
  readonly shown = new Cell<Shown>(empty);
  readonly state = new Cell("travel");
  readonly selected = new Cell("");
  readonly slip = new Cell("");
  /** path of the entry whose every field stands open, or "" */
  readonly entry = new Cell("");
  /** rows worked on together with the one selected */
  readonly also = new Cell<readonly string[]>([]);
  /** trades left out of the drawing */
  readonly veiled = new Cell<ReadonlySet<string>>(new Set());
  /** the plan chest stands open */
  readonly chest = new Cell(false);
  private readonly queue: Queue;
  private source: EventSource | null = null;
  private closed = false;
  private seq = 0;
  private made = new Map<string, string>();
  private first = new Map<string, string>();
  private asking = false;
  private askAgain = false;

  constructor(readonly id: string) {
    this.queue = new Queue(shelfFor(id, localStorage), {
      send: (change) => api.change(id, change),
      done: (change, result) => {
        for (const [nth, row] of (result.made ?? []).entries()) {
          this.made.set(fresh(change.id, nth), row);
          this.first.set(row, fresh(change.id, nth));
        }
        const refused = result.refused ?? [];
        this.shown.patch({
          view: this.newer(result.view),
          away: false,
          preview: null,
          refused,
          said: refused.length === 0 ? "" : (refused[0]?.text ?? ""),
        });
        if (result.view.state !== this.state.get()) void this.load();
      },
      clash: (change, conflict) => this.shown.patch({ clash: { change, conflict } }),
      refused: (_, problem) => this.shown.patch({ said: sentence(problem) }),
      lost: () => this.shown.patch({ away: true }),
      changed: () => this.shown.patch({ waiting: this.queue?.waiting ?? [] }),
      later: (run, ms) => {
        if (!this.closed) setTimeout(run, ms);
      },
    });
    this.shown.patch({ waiting: this.queue.waiting });
  }

  open(): void {
    void this.load();
    void this.queue.flush();
    this.listen();
    window.addEventListener("online", this.back);
    window.addEventListener("offline", this.gone);
  }

  close(): void {
    this.closed = true;
    this.source?.close();
    window.removeEventListener("online", this.back);
    window.removeEventListener("offline", this.gone);
  }

  /** take shows a view that came with another answer, such as that of a new build. */
  take(view: BuildView): void {
    this.shown.patch({ view: this.newer(view), problem: null });
  }

  /** takeAlso takes a row to those worked on together, or out of them. */
  takeAlso(row: string): void {
    const now = this.also.get();
    if (this.selected.get() === "") this.selected.set(row);
    else if (row !== this.selected.get())
      this.also.set(now.includes(row) ? now.filter((one) => one !== row) : [...now, row]);
  }

  private back = () => {
    void this.load();
    void this.queue.flush();
  };

  private gone = () => this.shown.patch({ away: true });

  private newer(view: BuildView): BuildView {
    const now = this.shown.get().view;
    if (now === null) return view;
    return now.revision > view.revision ? now : shared(now, view);
  }

  async load(): Promise<void> {
    if (this.asking) {
      this.askAgain = true;
      return;
    }
    this.asking = true;
    try {
      do {
        this.askAgain = false;
        const view = await api.view(this.id, this.state.get(), client());
        this.shown.patch({ view: this.newer(view), problem: null, away: false });
      } while (this.askAgain);
    } catch (reason) {
      if (reason instanceof Lost) {
        this.shown.patch({ away: true });
        if (!this.closed) setTimeout(() => void this.load(), 3000);
      } else if (reason instanceof Refused) this.shown.patch({ problem: reason.problem });
      else throw reason;
    } finally {
      this.asking = false;
    }
  }

  private listen(): void {
    const source = new EventSource(api.events(this.id));
    this.source = source;
    const heard = (message: MessageEvent<string>) => {
      const event = JSON.parse(message.data) as Event;
      const now = this.shown.get().view?.revision ?? 0;
      if (event.kind === "deleted") {
        this.shown.patch({ said: "This build was put away by somebody." });
        return;
      }
      if (event.client !== client() && event.revision > now) void this.load();
    };
    source.onmessage = heard;
    for (const kind of ["revision", "record", "deleted"]) source.addEventListener(kind, heard);
    source.onopen = () => {
      if (this.shown.get().away) this.back();
    };
    source.onerror = () => {
      if (source.readyState === EventSource.CLOSED && !this.closed)
        setTimeout(() => {
          if (!this.closed) this.listen();
        }, 5000);
    };
  }

  show(state: string): void {
    this.state.set(state);
    void this.load();
  }

  private request(title: string, edits: Edit[]): ChangeRequest {
    return {
      id: newId(),
      client: client(),
      base: this.shown.get().view?.revision ?? 0,
      title,
      state: this.state.get(),
      edits,
    };
  }

  /** change posts edits at once; until they are acknowledged they are kept in this browser. */
  change(title: string, edits: Edit[]): string {
    const request = this.request(title, edits);
    this.shown.patch({ said: "" });
    this.queue.add(request);
    return request.id;
  }

  /** settle ends a conflict: with one's own value again, or with the other's. */
  settle(mine: boolean): void {
    const clash = this.shown.get().clash;
    if (clash === null) return;
    this.shown.patch({ clash: null });
    if (mine) {
      const again = { ...clash.change, id: newId(), base: clash.conflict.revision };
      this.queue.replace(clash.change.id, again);
    } else {
      this.queue.drop(clash.change.id);
    }
    void this.load();
  }

  /** rowNow gives the id the server made for a row that was added here. */
  rowNow(row: string): string {
    return this.made.get(row) ?? row;
  }

  /** firstName is the name a row had on this page before the server gave it one, so that it keeps its place. */
  firstName(row: string): string {
    return this.first.get(row) ?? row;
  }

  async undo(redo = false): Promise<void> {
    const view = this.shown.get().view;
    if (view === null || this.queue.waiting.length > 0) return;
    try {
      const result = await api.undo(this.id, { id: newId(), client: client(), base: view.revision, redo });
      this.shown.patch({ view: this.newer(result.view), said: "" });
      if (result.view.state !== this.state.get()) void this.load();
    } catch (reason) {
      if (reason instanceof Refused) this.shown.patch({ said: sentence(reason.problem) });
      else if (reason instanceof Clash)
        this.shown.patch({ said: "Somebody changed the same thing since; nothing was taken back." });
      else if (reason instanceof Lost) this.shown.patch({ away: true });
      else throw reason;
    }
  }

  /** previewer keeps one preview in flight; the newest waits, older ones are dropped. */
  previewer(
    view: string,
    heard: (preview: Preview) => void,
  ): { ask(edits: Edit[]): void; end(kept: boolean): void } {
    let next: Edit[] | null = null;
    let flying = false;
    let over = false;
    const stop = new AbortController();
    const fly = async () => {
      flying = true;
      while (next !== null && !over) {
        const edits = next;
        next = null;
        this.seq += 1;
        const seq = this.seq;
        try {
          const body = { ...this.request("preview", edits), seq, view };
          const preview = await api.preview(this.id, body, stop.signal);
          if (over) break;
          if (preview.seq !== seq) continue;
          this.shown.patch({ preview });
          heard(preview);
        } catch (reason) {
          if (over) break;
          if (reason instanceof Lost) this.shown.patch({ away: true });
          else if (!(reason instanceof Refused) && !(reason instanceof Clash)) throw reason;
        }
      }
      flying = false;
    };
    return {
      ask: (edits) => {
        next = edits;
        if (!flying) void fly();
      },
      end: (kept) => {
        over = true;
        stop.abort();
        if (!kept) this.shown.patch({ preview: null });
      },
    };
  }
}

function sentence(problem: Problem): string {
  return problem.hint === undefined ? problem.text : `${problem.text}: ${problem.hint}`;
}
