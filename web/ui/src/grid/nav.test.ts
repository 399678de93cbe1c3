import { describe, expect, it } from "vitest";
import { at, kept, match, moved, nextCell, range, starts } from "./nav";

const size = { rows: 4, cols: 3 };
const press = (key: string, more: { ctrl?: boolean; shift?: boolean } = {}) => ({
  key,
  ctrl: more.ctrl ?? false,
  shift: more.shift ?? false,
});

describe("moved", () => {
  it("goes one cell and stops at the edge", () => {
    expect(moved(at(0, 0), press("ArrowUp"), size)).toEqual(at(0, 0));
    expect(moved(at(0, 0), press("ArrowDown"), size)).toEqual(at(1, 0));
    expect(moved(at(3, 2), press("ArrowRight"), size)).toEqual(at(3, 2));
  });
  it("goes to the ends with the control key", () => {
    expect(moved(at(1, 1), press("End", { ctrl: true }), size)).toEqual(at(3, 2));
    expect(moved(at(2, 1), press("ArrowUp", { ctrl: true }), size)).toEqual(at(0, 1));
  });
  it("keeps the other corner with the shift key", () => {
    expect(moved(at(1, 1), press("ArrowDown", { shift: true }), size)).toEqual({
      row: 2,
      col: 1,
      anchor: { row: 1, col: 1 },
    });
  });
  it("leaves other keys alone", () => {
    expect(moved(at(1, 1), press("a"), size)).toBeNull();
    expect(moved(at(1, 1), press("Enter"), size)).toBeNull();
  });
});

describe("nextCell", () => {
  it("goes round to the next row and back", () => {
    expect(nextCell({ row: 0, col: 2 }, false, size)).toEqual(at(1, 0));
    expect(nextCell({ row: 1, col: 0 }, true, size)).toEqual(at(0, 2));
    expect(nextCell({ row: 3, col: 2 }, false, size)).toEqual(at(3, 2));
  });
});

it("a place is brought back into a grid that became smaller", () => {
  expect(kept({ row: 9, col: 9, anchor: { row: 2, col: 8 } }, size)).toEqual({
    row: 3,
    col: 2,
    anchor: { row: 2, col: 2 },
  });
});

it("a range has its corners in order", () => {
  expect(range({ row: 1, col: 2, anchor: { row: 3, col: 0 } })).toEqual({
    top: 1,
    bottom: 3,
    left: 0,
    right: 2,
  });
});

it("typing begins with a letter but not with a shortcut", () => {
  expect(starts(press("5"))).toBe(true);
  expect(starts(press("F2"))).toBe(false);
  expect(starts(press("d", { ctrl: true }))).toBe(false);
});

describe("match", () => {
  const choices = [
    { text: "rear door line" },
    { text: "bulkhead line" },
    { text: "wheel-box" },
    { text: "door" },
  ];
  it("prefers the beginning, then the beginning of a word, then anywhere", () => {
    expect(match("do", choices).map((one) => one.text)).toEqual(["door", "rear door line"]);
    expect(match("box", choices).map((one) => one.text)).toEqual(["wheel-box"]);
    expect(match("khe", choices).map((one) => one.text)).toEqual(["bulkhead line"]);
    expect(match("zz", choices)).toEqual([]);
  });
});
