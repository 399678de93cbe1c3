import { expect, it } from "vitest";
import type { FormSection } from "../api.gen";
import { added, removal } from "./entries";

const section = (id: string): FormSection => ({ id, title: "", fields: [] });

it("another entry gets an id that is not in use", () => {
  const edits = added("job/promises", [section("promise-promise-1"), section("promise-belts")]);
  expect(edits[0]?.ops?.[0]?.value).toContain("id: promise-2,");
  expect(added("items", [])).toEqual([]);
});

it("only entries of a list can be taken out", () => {
  expect(removal(section("plate"))).toBeNull();
  expect(removal(section("plate-in-use"))).toBeNull();
  expect(removal(section("plate-uprated"))?.edits[0]?.ops?.[0]).toEqual({
    op: "remove",
    path: "van/plates/uprated",
  });
});
