import { expect, it } from "vitest";
import { after, inOrder } from "./under";

it("takes the smallest that is seen, and goes round them all", () => {
  const keys = inOrder([
    { key: "roof panel", area: 9000, hidden: false },
    { key: "drain", area: 100, hidden: true },
    { key: "tank", area: 4000, hidden: false },
  ]);
  expect(keys).toEqual(["tank", "roof panel", "drain"]);
  expect(after(keys, "tank")).toBe("roof panel");
  expect(after(keys, "drain")).toBe("tank");
});
