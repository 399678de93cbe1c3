import { expect, it } from "vitest";
import { shared } from "./shared";

const view = (mass: string) => ({
  revision: 1,
  rows: [
    { id: "a", cells: { mass: { text: "1" } } },
    { id: "b", cells: { mass: { text: mass } } },
  ],
});

it("what did not change stays the same object", () => {
  const before = view("2");
  expect(shared(before, view("2"))).toBe(before);
  const after = shared(before, view("3"));
  expect(after).toEqual(view("3"));
  expect(after.rows[0]).toBe(before.rows[0]);
  expect(after.rows[1]).not.toBe(before.rows[1]);
});

it("rows are known by their id when one is put in before them", () => {
  const before = view("2");
  const after = shared(before, {
    ...view("2"),
    rows: [{ id: "n", cells: { mass: { text: "9" } } }, ...view("2").rows],
  });
  expect(after.rows[1]).toBe(before.rows[0]);
  expect(after.rows[2]).toBe(before.rows[1]);
});

it("a key that went away is gone", () => {
  const before: { a: number; b?: number } = { a: 1, b: 2 };
  expect(shared(before, { a: 1 })).toEqual({ a: 1 });
  expect(shared<unknown>({ a: 1 }, { a: undefined })).toEqual({ a: undefined });
});
