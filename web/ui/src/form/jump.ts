// From a figure back to the entry it came from: the sheet is opened and the entry gets the focus.

import { Cell } from "../store/cell";
import { go, toBuild } from "../store/route";
import type { Session } from "../store/session";

/** goal names the entry that should get the focus as soon as it is on the page. */
export const goal = new Cell("");

/** sheetOf tells on which sheet an entry stands. */
export function sheetOf(path: string): string {
  const [head = ""] = path.split(/[/.[]/);
  switch (head) {
    case "items":
      return "kit";
    case "van":
      return "van";
    case "loading":
      return "load";
    case "record":
    case "weighings":
      return "record";
    default:
      return "job";
  }
}

export function goToField(session: Session, path: string): void {
  session.slip.set("");
  goal.set(path);
  const row = /^items\/([^/]+)/.exec(path)?.[1];
  if (row !== undefined) session.selected.set(row);
  go(toBuild(session.id, sheetOf(path)));
}

/** reached tells whether an entry is the one asked for, and if so asks no longer. */
export function reached(path: string): boolean {
  const wanted = goal.get();
  if (wanted === "" || (wanted !== path && !wanted.startsWith(`${path}/`))) return false;
  goal.set("");
  return true;
}
