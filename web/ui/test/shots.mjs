// Pictures of every sheet, to be looked at: node test/shots.mjs FOLDER
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { bench } from "./harness.mjs";

const folder = process.argv[2] ?? "shots";
mkdirSync(folder, { recursive: true });
const one = await bench();
const id = await one.demo(process.argv[3] ?? "curlew");
await one.demo("avocet");
await one.demo("dunlin");
for (const colorScheme of ["light", "dark"])
  for (const [width, height] of [
    [360, 780],
    [1024, 768],
    [1440, 900],
  ]) {
    const { page, context } = await one.page({ colorScheme, viewport: { width, height } });
    for (const sheet of ["job", "kit", "weight", "load", "van", "record", "differences", "text", "papers"]) {
      await page.goto(`${one.base}/#/b/${id}/${sheet}`);
      await page.locator(".block .say").first().waitFor();
      await page.waitForTimeout(700);
      await page.screenshot({ path: join(folder, `${sheet}-${width}-${colorScheme}.png`) });
    }
    for (const [name, hash] of [
      ["builds", ""],
      ["new", "new"],
    ]) {
      await page.goto(`${one.base}/#/${hash}`);
      await page.waitForTimeout(500);
      await page.screenshot({ path: join(folder, `${name}-${width}-${colorScheme}.png`) });
    }
    await context.close();
  }
await one.close();
