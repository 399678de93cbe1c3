import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { bench, rows, title, typist } from "./harness.mjs";

let one;
before(async () => {
  one = await bench();
});
after(() => one?.close());

test("first use by keyboard alone takes at most 80 keystrokes outside the paste", async () => {
  const { page, trouble } = await one.page();
  const hands = typist(page);
  await page.goto(one.base);
  await page.getByRole("heading", { name: "Builds" }).waitFor();

  await hands.press("n");
  await page.waitForFunction(
    () => document.activeElement?.tagName === "SELECT" && document.activeElement.value !== "",
  );
  await hands.press("ArrowDown", "Enter"); // class of van
  await hands.type("4"); // people
  await hands.press("Enter", "Enter", "Enter", "Enter"); // country, name and rows as they stand

  await page.waitForFunction(() => document.activeElement?.matches('[data-section="plate"] input'));
  for (const plate of ["3500", "5600", "1860", "1900"]) {
    await hands.type(plate);
    await hands.press("Enter");
  }
  await hands.type("1180");
  await hands.press("Enter");
  await hands.type("770");
  await hands.press("PageDown", "PageDown", "PageDown"); // past what was aboard and the sides
  await page.waitForFunction(() => /S1/.test(document.querySelector("figcaption")?.textContent ?? ""));
  const tapes = ["4001", "3999", "1520", "120", "1030", "3390"];
  for (const [nth, tape] of tapes.entries()) {
    await hands.type(tape);
    if (nth < tapes.length - 1) await hands.press("Enter");
  }
  await hands.press("Alt+1");
  await page.waitForFunction(() => document.activeElement?.getAttribute("role") === "gridcell");
  await hands.paste(rows(25));
  await page.getByRole("button", { name: /Put 25 rows in/ }).waitFor();
  await page.waitForFunction(() => document.activeElement?.textContent?.startsWith("Put"));
  await hands.press("Enter");

  await page.waitForFunction(() => document.querySelectorAll("tr[data-row]").length >= 26);
  await page.getByText("all kept").waitFor();
  await hands.press("Alt+m"); // to what is missing first: the limit of all luggage
  await page.waitForFunction(() => document.activeElement?.matches("input[data-field]"));
  await hands.type("120");
  await hands.press("Enter");
  await page.waitForFunction(() =>
    [...document.querySelectorAll(".block .detail b")].some((word) =>
      /^(holds|tight|does not hold)$/.test(word.textContent),
    ),
  );
  const verdicts = await title(page).locator(".detail b").allTextContents();
  assert.ok(
    verdicts.some((word) => ["holds", "tight", "does not hold"].includes(word)),
    `no verdict in ${verdicts}`,
  );
  console.log(`# ${hands.count} keystrokes outside the paste`);
  assert.ok(hands.count <= 80, `${hands.count} keystrokes`);

  for (const sheet of ["kit", "weight", "job", "van"]) {
    await page.evaluate((to) => {
      location.hash = location.hash.replace(/[^/]*$/, to);
    }, sheet);
    await page.waitForTimeout(400);
    const words = await page.locator(".sheet").innerText();
    assert.doesNotMatch(
      words,
      /\b(van|items|loading|build|job)\/[a-z-]+/,
      `a document path is to be seen on ${sheet}`,
    );
    assert.doesNotMatch(words, /\b[xyz] ?[=:] ?-?\d/, `a raw coordinate is to be seen on ${sheet}`);
  }
  await page.evaluate(() => {
    location.hash = location.hash.replace(/[^/]*$/, "weight");
  });
  await page.locator(".notes").waitFor();
  assert.ok((await page.locator(".notes li").count()) <= 7);
  assert.deepEqual(trouble, []);
});

test("what was typed is what is stored", async () => {
  const list = await one.get("/builds");
  const view = await one.get(`/builds/${list.builds[0].id}`);
  const fields = view.van.flatMap((section) => section.fields);
  const text = (path) => fields.find((field) => field.path === path)?.text ?? "";
  assert.match(text("van/plated/total"), /^3500/);
  assert.match(text("van/plated/rear"), /^1900/);
  assert.match(text("van/empty/rear"), /^770/);
  assert.match(text("van/survey/hubs-right"), /^3999/);
  assert.match(text("van/survey/bulkhead-to-rear-door"), /^3390/);
  assert.equal(view.loading.people.rows.length, 4);
});
