import { expect, it } from "vitest";
import { after, inOrder } from "./under";

it("takes the smallest outline, and goes round them all", () => {
  const keys = inOrder([
    { key: "roof panel", area: 9000 },
    { key: "drain", area: 100 },
    { key: "tank", area: 4000 },
  ]);
  expect(keys).toEqual(["drain", "tank", "roof panel"]);
  expect(after(keys, "tank")).toBe("roof panel");
  expect(after(keys, "roof panel")).toBe("drain");
});
