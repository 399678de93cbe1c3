// The bay: one job a screen on a tablet, through a network gap.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { bench } from "./harness.mjs";

let one;
before(async () => {
  one = await bench();
});
after(() => one?.close());

const tablet = { viewport: { width: 1280, height: 800 }, hasTouch: true };
/** picture draws what a camera would hand over. */
const picture = (page) =>
  page.evaluate(async () => {
    const paper = new OffscreenCanvas(2600, 1950);
    const pen = paper.getContext("2d");
    pen.fillStyle = "#b5a27f";
    pen.fillRect(0, 0, 2600, 1950);
    pen.fillStyle = "#333";
    for (let n = 0; n < 40; n++) pen.fillRect(n * 60, 400 + n * 20, 30, 200);
    const blob = await paper.convertToBlob({ type: "image/png" });
    return [...new Uint8Array(await blob.arrayBuffer())];
  });

test("pressed while the network is cut, kept on the tablet, in the record once when it is back", async () => {
  const id = await one.demo("curlew");
  const { page, context, trouble } = await one.page(tablet);
  await page.goto(`${one.base}/#/bay/${id}/fridge`);
  await page.getByRole("heading", { name: /fridge/i }).waitFor();
  await page.locator(".part-picture .inked").first().waitFor();
  await page.getByLabel("your initials").fill("JH");
  const done = page.getByRole("button", { name: /Done/ });

  await context.route("**/api/**", (route) => route.abort());
  await done.tap();
  await page.getByText(/1 kept on this tablet/).waitFor();
  assert.equal(await done.getAttribute("aria-pressed"), "true", "it stands as done at once");
  await page.getByRole("button", { name: /Weighed/ }).tap();
  await page.getByLabel("The scale shows").fill("18.7");
  await page.getByRole("button", { name: "Keep it" }).tap();
  await page.getByText(/2 kept on this tablet/).waitFor();
  const buffer = Buffer.from(await picture(page));
  await page.locator("input[type=file]").setInputFiles({ name: "shot.png", mimeType: "image/png", buffer });
  await page.getByText(/3 kept on this tablet/).waitFor();
  // one goes on to the next job and back: everything is still there
  await page.getByRole("button", { name: "next job" }).tap();
  await page.getByRole("heading", { name: /fridge/i }).waitFor({ state: "detached" });
  await page.getByRole("button", { name: "job before" }).tap();
  await page.getByRole("heading", { name: /fridge/i }).waitFor();
  assert.equal((await one.get(`/builds/${id}/bay`)).kept.length, 0, "nothing got through");

  // the first answer after the gap is lost on its way: the entry arrived, the page does not know
  await context.unroute("**/api/**");
  let lost = 0;
  await context.route("**/api/builds/*/bay", async (route) => {
    if (route.request().method() === "POST" && lost === 0) {
      lost += 1;
      await route.fetch();
      return route.abort();
    }
    return route.continue();
  });
  await page.evaluate(() => window.dispatchEvent(new Event("online")));
  await page.getByText("all kept").waitFor({ timeout: 30000 });
  assert.equal(lost, 1);
  const view = await one.get(`/builds/${id}/bay`);
  const job = view.jobs.find((found) => found.item === "fridge");
  assert.equal(view.kept.length, 3, "each was kept once");
  assert.equal(job.done.by, "JH");
  assert.match(job.weighed.text, /18.7/);
  assert.equal(job.photos.length, 1);
  const photo = await fetch(`${one.base}/api/builds/${id}/photos/${job.photos[0].id}`);
  assert.equal(photo.headers.get("content-type"), "image/jpeg");
  assert.ok((await photo.arrayBuffer()).byteLength > 100);
  assert.deepEqual(trouble, []);
});

test("what waits survives that the page is shut", async () => {
  const id = await one.demo("curlew");
  const { page, context } = await one.page(tablet);
  await page.goto(`${one.base}/#/bay/${id}`);
  await page.getByRole("button", { name: /^Done/ }).waitFor();
  await context.route("**/api/**", (route) => route.abort());
  await page.getByRole("button", { name: /^Done/ }).tap();
  await page.getByText(/1 kept on this tablet/).waitFor();
  await page.close();
  await context.unroute("**/api/**");
  const again = await context.newPage();
  await again.goto(`${one.base}/#/bay/${id}`);
  await again.getByText("all kept").waitFor();
  await again.waitForFunction(() => /^1 of|^1\s/.test(document.querySelector(".bay-count")?.innerText ?? ""));
  const view = await one.get(`/builds/${id}/bay`);
  assert.equal(view.jobs.filter((job) => job.done !== undefined).length, 1);
});

test("everything to press is large enough for gloves, and the job fits the screen", async () => {
  const id = await one.demo("curlew");
  const { page } = await one.page(tablet);
  await page.goto(`${one.base}/#/bay/${id}/fridge`);
  await page.locator(".bay-tapes").waitFor();
  const small = await page.evaluate(() =>
    [...document.querySelectorAll("button, a, select, input:not([type=file])")]
      .map((node) => ({ words: node.textContent.slice(0, 40), box: node.getBoundingClientRect() }))
      .filter(({ box }) => box.width > 0 && (box.height < 48 || box.width < 48))
      .map(({ words, box }) => `${words}: ${Math.round(box.width)} by ${Math.round(box.height)}`),
  );
  assert.deepEqual(small, []);
  assert.ok((await page.locator(".bay-tapes li").count()) <= 6);
  assert.equal(await page.locator(".leaders, .slip").count(), 0, "no leaders, no slips");
  const over = await page.evaluate(() => document.documentElement.scrollHeight - window.innerHeight);
  assert.ok(over <= 0, `${over} pixels too high`);
});
