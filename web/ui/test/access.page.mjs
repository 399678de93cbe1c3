import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { after, before, test } from "node:test";
import { bench } from "./harness.mjs";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
let one;
before(async () => {
  one = await bench();
});
after(() => one?.close());

async function serious(page) {
  await page.evaluate(axe);
  const result = await page.evaluate(() => globalThis.axe.run(document, { resultTypes: ["violations"] }));
  return result.violations
    .filter((one) => one.impact === "serious" || one.impact === "critical")
    .map(
      (one) =>
        `${one.id}: ${one.nodes
          .map((node) => node.html.slice(0, 120))
          .slice(0, 3)
          .join(" | ")}`,
    );
}

const sheets = ["job", "kit", "weight", "fit", "load", "van", "record", "differences", "text", "papers"];

for (const colorScheme of ["light", "dark"])
  for (const width of [360, 1440])
    test(`no serious finding on any sheet, ${colorScheme}, ${width} wide`, async () => {
      const id = await one.demo("curlew");
      const { page, trouble } = await one.page({ colorScheme, viewport: { width, height: 900 } });
      await page.goto(one.base);
      await page.getByRole("heading", { name: "Builds" }).waitFor();
      assert.deepEqual(await serious(page), [], "list of builds");
      for (const sheet of sheets) {
        await page.goto(`${one.base}/#/b/${id}/${sheet}`);
        await page.locator(".block .say").first().waitFor();
        await page.waitForTimeout(500);
        assert.deepEqual(await serious(page), [], sheet);
        const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
        assert.ok(wide <= 0, `${sheet} is ${wide} pixels wider than the window`);
      }
      assert.deepEqual(trouble, []);
    });
