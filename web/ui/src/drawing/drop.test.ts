import { expect, test } from "vitest";
import { placed, takenOf } from "./drop";

test("a part is put where it was let go, to whole centimetres", () => {
  const edit = placed("kit", { ref: "fridge@1", name: "Fridge" }, { x: 2404.6, y: -312 });
  expect(edit.cells).toEqual({ line: "axle", far: "2400 mm", side: "middle -310 mm", level: "0 mm" });
  expect(placed("kit", { ref: "a", name: "A" }, { x: -2, y: -3 }).cells?.side).toBe("middle 0 mm");
});

test("what is no part is let lie", () => {
  for (const text of ["", "fridge", "{}", "[1]", "null", '{"ref": 3, "name": "x"}'])
    expect(takenOf(text)).toBeNull();
  expect(takenOf('{"ref": "a", "name": "A"}')).toEqual({ ref: "a", name: "A" });
});
