// Every command of the page, as one list of data: the keys are read from it, and so are the buttons
// that name a key, and the search over them.

import { arrange, arrangements } from "./drawing/arrange";
import { goToField } from "./form/jump";
import { firstMissing } from "./form/missing";
import { switchLight } from "./frame/light";
import { sheetSet } from "./sheets";
import { Cell } from "./store/cell";
import { go, route, toBuild } from "./store/route";
import type { Session } from "./store/session";

export interface Command {
  id: string;
  title: string;
  /** "ctrl+z"; ctrl stands for the command key too */
  keys: string[];
  /** also while a field is being typed into */
  inFields?: boolean;
  run(session: Session): void;
}

/** finding is true while the search over commands stands open. */
export const finding = new Cell(false);

export const commands: readonly Command[] = [
  { id: "undo", title: "Take back my last change", keys: ["ctrl+z"], run: (s) => void s.undo() },
  {
    id: "redo",
    title: "Make it again",
    keys: ["ctrl+shift+z", "ctrl+y"],
    run: (s) => void s.undo(true),
  },
  ...sheetSet.map((sheet) => ({
    id: `sheet-${sheet.id}`,
    title: `Go to sheet ${sheet.no}, ${sheet.title}`,
    keys: [`alt+${sheet.no}`],
    inFields: true,
    run: () => go(toBuild(route.get().build, sheet.id)),
  })),
  ...(["travel", "camp", "night"] as const).map((state) => ({
    id: `state-${state}`,
    title: `Show the van in ${state} state`,
    keys: [`alt+${state.charAt(0)}`],
    inFields: true,
    run: (s: Session) => s.show(state),
  })),
  {
    id: "missing",
    title: "Go to what is missing first",
    keys: ["alt+m"],
    inFields: true,
    run: (s) => {
      const view = s.shown.get().view;
      const missing = view === null ? undefined : firstMissing(view);
      if (missing === undefined) s.shown.patch({ said: "Nothing is missing for a verdict." });
      else goToField(s, missing.path);
    },
  },
  {
    id: "chest",
    title: "Open or shut the plan chest",
    keys: ["alt+p"],
    inFields: true,
    run: (s) => s.chest.set(!s.chest.get()),
  },
  {
    id: "entry",
    title: "Every field of the selected item",
    keys: ["f2"],
    run: (s) => {
      const row = s.selected.get();
      if (row === "") s.shown.patch({ said: "Select an item first." });
      else s.entry.set(`items/${row}`);
    },
  },
  ...(
    [
      ["van", "the base van"],
      ["van/shell", "the van's inside: sections, linings, doors, frames"],
      ["loading", "the load plan"],
      ["job", "the job"],
      ["build", "the build's head"],
    ] as const
  ).map(([path, words]) => ({
    id: `entry-${path.replace("/", "-")}`,
    title: `Every field of ${words}`,
    keys: [],
    run: (s: Session) => s.entry.set(path),
  })),
  ...arrangements.map((one) => ({
    id: `arrange-${one.id}`,
    title: one.title,
    keys: [],
    run: (s: Session) => void arrange(s, one.id),
  })),
  {
    id: "all-trades",
    title: "Show all trades on the drawing",
    keys: [],
    run: (s) => s.veiled.set(new Set()),
  },
  {
    id: "bay",
    title: "Bay view: one job a screen",
    keys: [],
    run: (s) => go(`#/bay/${encodeURIComponent(s.id)}`),
  },
  {
    id: "find",
    title: "Find a command or an item",
    keys: ["ctrl+k"],
    inFields: true,
    run: () => finding.set(true),
  },
  { id: "light", title: "Day or night colours", keys: [], run: () => switchLight() },
  { id: "builds", title: "All builds", keys: ["alt+b"], inFields: true, run: () => go("#/") },
];

/** chord names the keys of an event the way commands do. */
export function chord(
  event: Pick<KeyboardEvent, "key" | "code" | "ctrlKey" | "metaKey" | "altKey" | "shiftKey">,
) {
  const digit = /^Digit(\d)$/.exec(event.code)?.[1];
  const letter = /^Key([A-Z])$/.exec(event.code)?.[1];
  const key = event.altKey ? (digit ?? letter ?? event.key) : event.key;
  const held = [
    event.ctrlKey || event.metaKey ? "ctrl+" : "",
    event.altKey ? "alt+" : "",
    event.shiftKey ? "shift+" : "",
  ].join("");
  return held + key.toLowerCase();
}

export function commandFor(keys: string, typing: boolean): Command | undefined {
  return commands.find((one) => one.keys.includes(keys) && (!typing || one.inFields === true));
}
