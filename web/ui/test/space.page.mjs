// The view in space, drawn without a graphics card.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { bench, software } from "./harness.mjs";

let one;
before(async () => {
  one = await bench(software);
});
after(() => one?.close());

test("in space: pictures follow while it turns, none is drawn at rest; a click selects", async () => {
  const id = await one.demo("curlew");
  const { page, trouble } = await one.page({ viewport: { width: 1366, height: 768 } });
  await page.goto(`${one.base}/#/b/${id}/fit`);
  await page.getByRole("radio", { name: "In space" }).click();
  const canvas = page.locator(".space canvas");
  await page.waitForFunction(() => Number(document.querySelector(".space canvas")?.dataset.drawn ?? 0) > 1);
  await page.waitForTimeout(800);
  const drawn = () => canvas.evaluate((node) => Number(node.dataset.drawn));
  const still = await drawn();
  await page.waitForTimeout(1000);
  assert.equal(await drawn(), still, "nothing is drawn at rest");
  const box = await canvas.boundingBox();
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  const rates = [];
  for (let turn = 0; turn < 3; turn++) {
    const start = Date.now();
    const first = await drawn();
    for (let n = 0; Date.now() - start < 2000; n++)
      await page.mouse.move(x + 200 * Math.sin(n / 20), y + 40 * Math.cos(n / 15));
    rates.push(((await drawn()) - first) / ((Date.now() - start) / 1000));
  }
  const rate = Math.max(...rates); // the quietest of three spells: the machine may do other work
  await page.mouse.up();
  console.log(`# ${rate.toFixed(1)} pictures a second while it turns, 1366 by 768`);
  // The aim is 20 on a machine of one's own; two shared cores drawing in software may be busy with something else.
  assert.ok(rate >= 5, `${rate.toFixed(1)} a second`);
  await page.waitForTimeout(600);
  for (const at of [0.5, 0.45, 0.55, 0.4]) {
    await page.mouse.click(box.x + box.width * at, y);
    if ((await page.locator(".space-name").innerText()) !== "") break;
  }
  assert.notEqual(await page.locator(".space-name").innerText(), "", "a click selects");
  const name = await page.locator(".space-name").innerText();
  await canvas.focus();
  await page.keyboard.press(".");
  await page.waitForFunction((was) => document.querySelector(".space-name").innerText !== was, name);
  assert.deepEqual(trouble, []);
});
