// Moving an item, by pointer or by keyboard, as a small machine: it knows nothing of the page.
// All lengths are millimetres of the scene.

export type Drag =
  | { is: "idle" }
  | { is: "pressed"; id: string; px: number; py: number }
  | { is: "held"; id: string; by: "pointer" | "keys"; dx: number; dy: number };

export type Input =
  | { do: "press"; id: string; px: number; py: number }
  | { do: "pick"; id: string }
  | { do: "far"; px: number; py: number }
  | { do: "to"; dx: number; dy: number }
  | { do: "nudge"; dx: number; dy: number }
  | { do: "drop" }
  | { do: "back" };

export type Effect = "nothing" | "picked" | "moved" | "put" | "back" | "tapped";

export interface Turned {
  drag: Drag;
  effect: Effect;
}

/** pixels a pointer may tremble before a press becomes a drag */
export const tremble = 4;

const idle: Drag = { is: "idle" };

export function turn(drag: Drag, input: Input): Turned {
  const stay: Turned = { drag, effect: "nothing" };
  switch (drag.is) {
    case "idle":
      if (input.do === "press")
        return { drag: { is: "pressed", id: input.id, px: input.px, py: input.py }, effect: "nothing" };
      if (input.do === "pick")
        return { drag: { is: "held", id: input.id, by: "keys", dx: 0, dy: 0 }, effect: "picked" };
      return stay;
    case "pressed":
      if (input.do === "far")
        return Math.hypot(input.px - drag.px, input.py - drag.py) > tremble
          ? { drag: { is: "held", id: drag.id, by: "pointer", dx: 0, dy: 0 }, effect: "picked" }
          : stay;
      if (input.do === "drop") return { drag: idle, effect: "tapped" };
      if (input.do === "back") return { drag: idle, effect: "nothing" };
      return stay;
    case "held":
      switch (input.do) {
        case "to":
          return { drag: { ...drag, dx: input.dx, dy: input.dy }, effect: "moved" };
        case "nudge":
          return { drag: { ...drag, dx: drag.dx + input.dx, dy: drag.dy + input.dy }, effect: "moved" };
        case "drop":
          return { drag: idle, effect: drag.dx === 0 && drag.dy === 0 ? "back" : "put" };
        case "back":
          return { drag: idle, effect: "back" };
        default:
          return stay;
      }
  }
}

/** stride is how far one arrow key moves what is held, in millimetres. */
export function stride(held: { shiftKey: boolean; altKey: boolean }): number {
  return held.altKey ? 1 : held.shiftKey ? 100 : 10;
}

/** inVan turns a move on the sheet into a move in van axes, in whole micrometres. */
export function inVan(view: string, dx: number, dy: number): { dxUm?: number; dyUm?: number; dzUm?: number } {
  const um = (mm: number) => Math.round(mm * 1000) + 0;
  switch (view) {
    case "plan":
      return { dxUm: um(dx), dyUm: um(-dy) };
    case "left":
    case "wall-right":
      return { dxUm: um(dx), dzUm: um(-dy) };
    case "section":
      return { dyUm: um(dx), dzUm: um(-dy) };
    default:
      return { dxUm: um(-dx), dzUm: um(-dy) };
  }
}

/** onSheet is where a point in van axes (micrometres) stands in a view; null when a coordinate is missing. */
export function onSheet(view: string, x?: number, y?: number, z?: number): [number, number] | null {
  const up = view === "plan" ? y : z;
  const along = view === "section" ? y : view === "right" || view === "wall-left" ? minus(x) : x;
  if (along === undefined || up === undefined) return null;
  return [along / 1000, -up / 1000];
}

const minus = (value?: number) => (value === undefined ? undefined : -value);

/** viewName is the kind of a view that may say where it cuts: "section" of "section@2400". */
export const viewName = (asked: string) => asked.split("@")[0] ?? asked;
