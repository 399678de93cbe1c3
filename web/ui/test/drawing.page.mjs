import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { bench, title } from "./harness.mjs";

let one;
before(async () => {
  one = await bench();
});
after(() => one?.close());

async function weight() {
  const id = await one.demo("curlew");
  const opened = await one.page();
  await opened.page.goto(`${one.base}/#/b/${id}/weight`);
  await opened.page.locator(".v-plan [data-id='item:fresh-tank']").waitFor();
  await opened.page.waitForTimeout(300);
  return { ...opened, id };
}

const place = (page, id) =>
  page.evaluate((item) => {
    const box = document.querySelector(`.v-plan [data-id='item:${item}']`).getBoundingClientRect();
    return { x: box.left + box.width / 2, y: box.top + box.height / 2 };
  }, id);

test("dragging by mouse changes the title block while it moves, and keeps what is put down", async () => {
  const { page, id, trouble } = await weight();
  const before = await title(page).innerText();
  const notes = await page.locator(".notes ol").innerText();
  const revision = (await one.get(`/builds/${id}`)).revision;
  const loose = await page.evaluate(() => {
    // a thing that is on top where it is pressed, and may be moved
    for (const group of document.querySelectorAll(".v-plan [data-id^='item:']")) {
      const box = group.getBoundingClientRect();
      const top = document.elementFromPoint(box.left + box.width / 2, box.top + box.height / 2);
      if (
        group.contains(top) &&
        !/bench|belted|seat|gas|tank|removed|base/i.test(group.getAttribute("aria-label"))
      )
        return group.dataset.id.slice(5);
    }
    return "";
  });
  assert.notEqual(loose, "");
  const from = await place(page, loose);
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  for (let n = 1; n <= 20; n++) await page.mouse.move(from.x - n * 6, from.y, { steps: 1 });
  await page.waitForFunction((words) => document.querySelector(".block .claims").innerText !== words, before);
  assert.equal(
    await page.locator(".notes ol").innerText(),
    notes,
    "the notes keep still while something moves",
  );
  await page.mouse.up();
  await page.getByText("all kept").waitFor();
  await page.waitForTimeout(300);
  assert.equal((await one.get(`/builds/${id}`)).revision, revision + 1);
  assert.deepEqual(trouble, []);
});

test("by keyboard: arrows go to the nearest, Enter picks up, arrows move, Escape puts back", async () => {
  const { page, id } = await weight();
  const revision = (await one.get(`/builds/${id}`)).revision;
  const stop = page.locator('.stage [data-focus][tabindex="0"]');
  assert.equal(await stop.count(), 1, "the drawing is one tab stop");
  await stop.focus();
  const first = await page.evaluate(() => document.activeElement.dataset.id);
  await page.keyboard.press("ArrowRight");
  assert.notEqual(await page.evaluate(() => document.activeElement.dataset.id), first);
  await page.evaluate(() => document.querySelector(".v-plan [data-id='item:drying-locker']").focus());
  const before = await title(page).innerText();
  await page.keyboard.press("Enter");
  for (let n = 0; n < 8; n++) await page.keyboard.press("Shift+ArrowLeft");
  await page.waitForFunction((words) => document.querySelector(".block .claims").innerText !== words, before);
  await page.keyboard.press("Escape");
  await page.waitForFunction((words) => document.querySelector(".block .claims").innerText === words, before);
  assert.equal((await one.get(`/builds/${id}`)).revision, revision);
  await page.keyboard.press("Enter");
  await page.keyboard.press("ArrowLeft");
  await page.keyboard.press("Enter");
  await page.getByText("all kept").waitFor();
  await page.waitForTimeout(200);
  assert.equal((await one.get(`/builds/${id}`)).revision, revision + 1);
});

test("moving keeps 60 pictures a second", async () => {
  const { page } = await weight();
  const from = await place(page, "drying-locker");
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  const measured = page.evaluate(
    () =>
      new Promise((done) => {
        const gaps = [];
        let last = performance.now();
        const tick = (now) => {
          gaps.push(now - last);
          last = now;
          if (gaps.length < 90) requestAnimationFrame(tick);
          else done(gaps.sort((a, b) => a - b)[Math.floor(gaps.length * 0.5)]);
        };
        requestAnimationFrame(tick);
      }),
  );
  for (let n = 0; n < 80; n++) await page.mouse.move(from.x + (n % 40) * 3, from.y);
  const gap = await measured;
  await page.mouse.up();
  console.log(`# ${gap.toFixed(1)} ms between pictures, in the middle`);
  assert.ok(gap < 20, `${gap.toFixed(1)} ms`);
});

test("a figure of the title block opens its working, and a given step leads to its entry", async () => {
  const { page } = await weight();
  await title(page).locator("button:not(:disabled)").first().click();
  const slip = page.getByRole("complementary", { name: "Calc slip" });
  await slip.locator(".step").first().waitFor();
  assert.ok((await slip.locator(".result").count()) > 1);
  const link = slip.getByRole("button", { name: "go to the entry" }).first();
  await link.click();
  await page.waitForFunction(() => document.activeElement?.matches("[data-field], [role='gridcell']"));
  await page.getByRole("complementary", { name: "Calc slip" }).waitFor({ state: "detached" });
});

test("a press takes the smallest item under it; what is locked says why and stays", async () => {
  const { page, id } = await weight();
  const revision = (await one.get(`/builds/${id}`)).revision;
  const focused = () => page.evaluate(() => document.activeElement.dataset.id);
  const tank = await place(page, "fresh-tank");
  await page.mouse.click(tank.x, tank.y);
  assert.equal(await focused(), "item:fresh-tank", "not the panel on the roof above it");
  await page.mouse.click(tank.x, tank.y);
  assert.notEqual(await focused(), "item:fresh-tank", "pressed again, the next one under the pointer");
  const locker = await place(page, "gas-locker");
  await page.mouse.move(locker.x, locker.y);
  await page.mouse.down();
  for (let n = 1; n <= 8; n++) await page.mouse.move(locker.x + n * 10, locker.y);
  assert.equal(await focused(), "item:gas-locker");
  await page.locator(".stays").waitFor();
  await page.mouse.up();
  await page.keyboard.press("Enter");
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("Enter");
  await page.waitForTimeout(300);
  assert.equal((await one.get(`/builds/${id}`)).revision, revision);
  const answer = await fetch(`${one.base}/api/builds/${id}/changes`, {
    method: "POST",
    headers: { "Content-Type": "application/json" },
    body: JSON.stringify({
      id: "move-locked",
      client: "test",
      base: revision,
      title: "move",
      edits: [{ kind: "move", row: "gas-locker", dxUm: 50000 }],
    }),
  });
  const said = await answer.text();
  assert.match(said, /stays where it is/, said.slice(0, 300));
  assert.equal((await one.get(`/builds/${id}`)).revision, revision);
});
