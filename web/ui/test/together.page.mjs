import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { bench } from "./harness.mjs";

let one;
before(async () => {
  one = await bench();
});
after(() => one?.close());

/** write puts a whole text into the field at once, as a paste would; typing 1,000 lines takes Chromium its time. */
const write = (area, text) =>
  area.evaluate((field, words) => {
    Object.getOwnPropertyDescriptor(HTMLTextAreaElement.prototype, "value").set.call(field, words);
    field.dispatchEvent(new Event("input", { bubbles: true }));
  }, text);

async function van(id, options) {
  const opened = await one.page(options);
  await opened.page.goto(`${one.base}/#/b/${id}/van`);
  await opened.page.locator('[data-section="plate"] input').first().waitFor();
  return opened;
}

const plate = (page) => page.locator('[data-section="plate"] input').first();

test("what one changes the other sees", async () => {
  const id = await one.demo("curlew");
  const a = await van(id);
  const b = await van(id);
  await plate(a.page).fill("3450");
  await plate(a.page).press("Enter");
  await b.page.waitForFunction(() =>
    /3.?450/.test(document.querySelector('[data-section="plate"] input').value),
  );
});

test("two editors of one entry: both values are shown, nothing is lost, and either may stand", async () => {
  const id = await one.demo("curlew");
  const a = await van(id);
  await a.page.route("**/events", (route) => route.abort());
  await a.page.reload();
  await plate(a.page).waitFor();
  const b = await van(id);
  await plate(b.page).fill("3400");
  await plate(b.page).press("Enter");
  await b.page.getByText("all kept").waitFor();
  await plate(a.page).fill("3300");
  await plate(a.page).press("Enter");
  const dialog = a.page.getByRole("alertdialog");
  await dialog.waitFor();
  const words = await dialog.innerText();
  assert.match(words, /3300/);
  assert.match(words, /3400/);
  await dialog.getByRole("button", { name: "Mine stands" }).click();
  await dialog.waitFor({ state: "detached" });
  await b.page.waitForFunction(() =>
    /3.?300/.test(document.querySelector('[data-section="plate"] input').value),
  );
});

test("entries survive a network gap and a reload, and are applied once", async () => {
  const id = await one.demo("curlew");
  const a = await van(id);
  const before = (await one.get(`/builds/${id}`)).revision;
  let lost = 0;
  await a.page.route("**/changes", async (route) => {
    lost += 1;
    if (lost === 1) {
      await route.fetch(); // it got through, but its answer does not come back
      await route.abort();
    } else if (lost < 4) await route.abort();
    else await route.continue();
  });
  await plate(a.page).fill("3444");
  await plate(a.page).press("Enter");
  await a.page.getByText("The server does not answer.").waitFor();
  await a.page.reload();
  await a.page.getByText("all kept").waitFor({ timeout: 15000 });
  const view = await one.get(`/builds/${id}`);
  assert.equal(view.revision, before + 1);
});

test("text that cannot be read is kept as a draft, with what is wrong in place", async () => {
  const id = await one.demo("curlew");
  const { page } = await one.page();
  await page.goto(`${one.base}/#/b/${id}/text`);
  const area = page.getByLabel("Text of the build");
  await area.waitFor();
  const good = await area.inputValue();
  await write(area, good.replace(/total: 3500 kg/, "total: 3500 mm"));
  await area.press("Control+s");
  const remark = page.locator(".remarks li.error").first();
  await remark.waitFor();
  assert.match(await remark.innerText(), /\d+:\d+/);
  await write(area, `${good}\n  : : [unclosed`);
  await area.press("Control+s");
  await page.getByText("kept as a draft").waitFor();
  await page.reload();
  await page.getByText("kept as a draft").waitFor();
  assert.match(await page.getByLabel("Text of the build").inputValue(), /unclosed/);
  await page.getByRole("button", { name: "Drop the draft" }).click();
  await page.waitForFunction(() => !document.querySelector("textarea").value.includes("unclosed"));
});
