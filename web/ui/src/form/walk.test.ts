import { expect, it } from "vitest";
import { chord, commandFor, commands } from "../commands";
import { sheetOf } from "./jump";
import { step } from "./walk";

it("Enter goes on to the next field and into the next section", () => {
  expect(step([2, 0, 3], 0, 0, "next")).toEqual([0, 1]);
  expect(step([2, 0, 3], 0, 1, "next")).toEqual([2, 0]);
  expect(step([2, 0, 3], 2, 2, "next")).toBeNull();
});

it("Shift+Enter goes back", () => {
  expect(step([2, 0, 3], 2, 0, "previous")).toEqual([0, 1]);
  expect(step([2, 0, 3], 0, 0, "previous")).toBeNull();
});

it("PageDown goes to the next section and past the last one to what comes next", () => {
  expect(step([2, 0, 3], 0, 0, "section")).toEqual([2, 0]);
  expect(step([2, 0, 3], 2, 1, "section")).toBeNull();
  expect(step([2, 0, 3], 2, 1, "section-back")).toEqual([0, 0]);
});

it("an entry is on the sheet of its section", () => {
  expect(sheetOf("items/fridge/mass")).toBe("kit");
  expect(sheetOf("van/plated/total")).toBe("van");
  expect(sheetOf("loading/luggage")).toBe("load");
  expect(sheetOf("build/name")).toBe("job");
});

const key = (more: Partial<KeyboardEvent>) =>
  ({
    key: "",
    code: "",
    ctrlKey: false,
    metaKey: false,
    altKey: false,
    shiftKey: false,
    ...more,
  }) as KeyboardEvent;

it("keys name commands, and typing is left alone", () => {
  expect(chord(key({ key: "z", code: "KeyZ", ctrlKey: true }))).toBe("ctrl+z");
  expect(chord(key({ key: "™", code: "Digit2", altKey: true }))).toBe("alt+2");
  expect(commandFor("ctrl+z", false)?.id).toBe("undo");
  expect(commandFor("ctrl+z", true)).toBeUndefined();
  expect(commandFor("alt+1", true)?.id).toBe("sheet-kit");
});

it("no two commands share a key", () => {
  const all = commands.flatMap((one) => one.keys);
  expect(new Set(all).size).toBe(all.length);
});
