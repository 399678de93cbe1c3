import { describe, expect, it } from "vitest";
import { type Drag, type Input, inVan, onSheet, stride, turn } from "./drag";

function run(inputs: Input[]): { drag: Drag; effects: string[] } {
  let drag: Drag = { is: "idle" };
  const effects: string[] = [];
  for (const input of inputs) {
    const turned = turn(drag, input);
    drag = turned.drag;
    effects.push(turned.effect);
  }
  return { drag, effects };
}

describe("by pointer", () => {
  it("a press that trembles is a tap", () => {
    const { drag, effects } = run([
      { do: "press", id: "a", px: 0, py: 0 },
      { do: "far", px: 2, py: 2 },
      { do: "drop" },
    ]);
    expect(drag.is).toBe("idle");
    expect(effects).toEqual(["nothing", "nothing", "tapped"]);
  });
  it("a press that goes far picks up, moves and puts down", () => {
    const { effects } = run([
      { do: "press", id: "a", px: 0, py: 0 },
      { do: "far", px: 9, py: 0 },
      { do: "to", dx: 50, dy: 0 },
      { do: "drop" },
    ]);
    expect(effects).toEqual(["nothing", "picked", "moved", "put"]);
  });
});

describe("by keys", () => {
  it("adds up and puts back on Escape", () => {
    const { drag, effects } = run([
      { do: "pick", id: "a" },
      { do: "nudge", dx: 10, dy: 0 },
      { do: "nudge", dx: 10, dy: -10 },
    ]);
    expect(drag).toEqual({ is: "held", id: "a", by: "keys", dx: 20, dy: -10 });
    expect(effects).toEqual(["picked", "moved", "moved"]);
    expect(turn(drag, { do: "back" })).toEqual({ drag: { is: "idle" }, effect: "back" });
  });
  it("what was not moved is put back, not put down", () => {
    expect(run([{ do: "pick", id: "a" }, { do: "drop" }]).effects).toEqual(["picked", "back"]);
  });
});

it("one arrow is 10 mm, 100 with Shift, 1 with Alt", () => {
  expect(stride({ shiftKey: false, altKey: false })).toBe(10);
  expect(stride({ shiftKey: true, altKey: false })).toBe(100);
  expect(stride({ shiftKey: false, altKey: true })).toBe(1);
});

it("a move on the sheet becomes a move in van axes", () => {
  expect(inVan("plan", 10, 20)).toEqual({ dxUm: 10000, dyUm: -20000 });
  expect(inVan("left", 10, 20)).toEqual({ dxUm: 10000, dzUm: -20000 });
  expect(inVan("right", 10, 20)).toEqual({ dxUm: -10000, dzUm: -20000 });
});

it("a point in van axes stands where the views put it", () => {
  expect(onSheet("plan", 4_000_000, 500_000, undefined)).toEqual([4000, -500]);
  expect(onSheet("right", 4_000_000, undefined, 500_000)).toEqual([-4000, -500]);
  expect(onSheet("left", 4_000_000, 500_000, undefined)).toBeNull();
});
