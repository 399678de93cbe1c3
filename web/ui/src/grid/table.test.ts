import { expect, it } from "vitest";
import { isTable, toTable } from "./table";

it("writes cells apart by tabs and quotes what would break them", () => {
  expect(
    toTable([
      ["fridge", "19,2"],
      ['a "b"', "x\ty"],
    ]),
  ).toBe('fridge\t19,2\n"a ""b"""\t"x\ty"');
});

it("one cell is no table, even with a line end behind it", () => {
  expect(isTable("19.2\n")).toBe(false);
  expect(isTable("a\tb")).toBe(true);
  expect(isTable("a\nb")).toBe(true);
});
