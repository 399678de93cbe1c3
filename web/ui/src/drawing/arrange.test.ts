import { expect, test } from "vitest";
import { arranged, type Block, blockOf } from "./arrange";

const block = (id: string, x: number, y: number, z: number, w = 100): Block => ({
  id,
  lo: [x, y, z],
  hi: [x + w, y + 50, z + 20],
});

test("aligning brings the chosen face of the others to that of the first", () => {
  const row = [block("a", 0, 0, 0), block("b", 500, 30, 10, 250), block("c", 0, 7, 0)];
  expect(arranged("front", row)).toEqual([{ kind: "move", row: "b", dxUm: -500 }]);
  expect(arranged("rear", row)).toEqual([{ kind: "move", row: "b", dxUm: -650 }]);
  expect(arranged("left", row)).toEqual([
    { kind: "move", row: "b", dyUm: -30 },
    { kind: "move", row: "c", dyUm: -7 },
  ]);
  expect(arranged("top", row)).toEqual([{ kind: "move", row: "b", dzUm: -10 }]);
});

test("spreading leaves the same gap between all", () => {
  const row = [block("a", 0, 0, 0), block("b", 110, 0, 0), block("c", 1000, 0, 0)];
  const [edit] = arranged("spread", row);
  expect(edit).toEqual({ kind: "move", row: "b", dxUm: 390 });
});

test("mirroring twice puts everything back", () => {
  const one = block("a", 0, 300, 0);
  const [edit] = arranged("mirror", [one]);
  const dy = edit?.dyUm ?? 0;
  const there: Block = { ...one, lo: [0, 300 + dy, 0], hi: [100, 350 + dy, 20] };
  expect(arranged("mirror", [there])).toEqual([{ kind: "move", row: "a", dyUm: -dy }]);
  expect(arranged("mirror", [block("m", 0, -25, 0)])).toEqual([]);
});

test("a solid's block is whole micrometres", () => {
  expect(blockOf({ id: "a", outline: [0.1, 0.2, 1.0005, 0.2, 1, 3], low: 0, high: 2.5 })).toEqual({
    id: "a",
    lo: [100, 200, 0],
    hi: [1001, 3000, 2500],
  });
});
