// Fit: a small camper built from nothing by mouse and by keys, the sheet of fit, the view in space.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { after, before, test } from "node:test";
import { bench, typist } from "./harness.mjs";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
let one;
before(async () => {
  one = await bench();
});
after(() => one?.close());

const kept = (page) => page.getByText("all kept").waitFor();

const bodies = async (id, state = "travel") => (await one.get(`/builds/${id}/solids?state=${state}`)).bodies;

const middle = (page, item) =>
  page.evaluate((row) => {
    const box = document.querySelector(`.v-plan [data-id='item:${row}']`).getBoundingClientRect();
    return { x: box.left + box.width / 2, y: box.top + box.height / 2 };
  }, item);

test("a small camper is built from nothing by mouse", async () => {
  const { page, trouble } = await one.page();
  await page.goto(`${one.base}/#/new`);
  await page.getByLabel("Class of van").waitFor();
  await page.waitForFunction(() => document.querySelector("select")?.value !== "");
  await page.getByLabel(/Start with rows/).click();
  await page.getByRole("button", { name: /Make it/ }).click();
  await page.waitForFunction(() => location.hash.startsWith("#/b/"));
  const id = await page.evaluate(() => location.hash.split("/")[2]);
  await page.getByRole("link", { name: "Fit", exact: false }).click();
  await page.locator(".v-plan").waitFor();
  await page.waitForTimeout(400);
  await page.getByRole("button", { name: "Plan chest" }).click();
  const chest = page.getByRole("complementary", { name: "Plan chest" });
  const put = async (words, along, across) => {
    await chest.getByLabel("Find a part").fill(words);
    const row = chest.locator("li").first();
    await row.waitFor();
    await page.waitForFunction(
      (word) => document.querySelector(".part-row .what")?.textContent.toLowerCase().includes(word),
      words,
    );
    const plan = await page.evaluate(() => {
      const box = document.querySelector(".stage").getBoundingClientRect();
      const van = document.querySelector(".v-plan").getBoundingClientRect();
      return { left: box.left, top: box.top, x: van.left, y: van.top, w: van.width, h: van.height };
    });
    await row.dragTo(page.locator(".stage"), {
      targetPosition: { x: plan.x - plan.left + along * plan.w, y: plan.y - plan.top + across * plan.h },
    });
    await kept(page);
    await page.waitForTimeout(250);
  };
  const known = (await one.get(`/builds/${id}`)).kit.rows.length;
  await put("fridge", 0.62, 0.3);
  await put("battery", 0.62, 0.7);
  await put("heater", 0.8, 0.35);
  const rows = (await one.get(`/builds/${id}`)).kit.rows;
  assert.equal(rows.length, known + 3, "three parts were put in");
  const fridge = rows.find((row) => /fridge/i.test(row.cells.name.text));
  const before = (await bodies(id)).find((body) => body.id === fridge.id);
  assert.ok(before, "what was let go over the plan stands in the van");
  await chest.getByRole("button", { name: "Close" }).click();

  // it is moved by hand, and stands where it was put down
  const from = await middle(page, fridge.id);
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move(from.x + 40, from.y, { steps: 8 });
  await page.mouse.up();
  await kept(page);
  await page.waitForFunction(
    async ([build, row, x]) => {
      const answer = await (await fetch(`/api/builds/${build}/solids?state=travel`)).json();
      return answer.bodies.find((body) => body.id === row).outline[0] !== x;
    },
    [id, fridge.id, before.outline[0]],
  );
  const after = (await bodies(id)).find((body) => body.id === fridge.id);
  assert.ok(after.outline[0] > before.outline[0], "it went back");

  // a field that no grid shows is filled in on its form
  const at = await middle(page, fridge.id);
  await page.mouse.click(at.x, at.y);
  await page.getByRole("button", { name: "Every field" }).click();
  const form = page.getByRole("complementary", { name: "Every field" });
  await form.locator("[data-field]").first().waitFor();
  await form.getByLabel(/^Supplier/).fill("our own stores");
  await form.getByLabel(/^Supplier/).press("Enter");
  await kept(page);
  assert.match(await (await fetch(`${one.base}/api/builds/${id}/export`)).text(), /supplier: our own stores/);
  assert.deepEqual(trouble, []);
});

test("a small camper is built from nothing by keyboard alone", async () => {
  const { page, trouble } = await one.page();
  const hands = typist(page);
  await page.goto(one.base);
  await page.getByRole("heading", { name: "Builds" }).waitFor();
  await hands.press("n");
  await page.waitForFunction(
    () => document.activeElement?.tagName === "SELECT" && document.activeElement.value !== "",
  );
  await hands.press("ArrowDown", "Enter");
  await hands.type("2");
  await hands.press("Enter", "Enter", "Enter", "Enter");
  await page.waitForFunction(() => /^#\/b\/.*\/van/.test(location.hash));
  const id = await page.evaluate(() => decodeURIComponent(location.hash.split("/")[2]));
  await hands.press("Alt+1");
  await page.waitForFunction(() => document.activeElement?.getAttribute("role") === "gridcell");
  const known = (await one.get(`/builds/${id}`)).kit.rows.length;
  await hands.paste(
    [
      "What\tkg\tFrom which line\tHow far\tSide\tLevel",
      "Bed box\t32\tbulkhead\t1800\tmiddle\t0 mm",
      "Kitchen\t28\tbulkhead\t300\tleft 0 mm\t0 mm",
    ].join("\n"),
  );
  await page.waitForFunction(() => document.activeElement?.textContent?.startsWith("Put"));
  await hands.press("Enter");
  await kept(page);
  await page.waitForTimeout(200);
  const rows = (await one.get(`/builds/${id}`)).kit.rows;
  assert.equal(rows.length, known + 2);
  const kitchen = rows.find((row) => row.cells.name.text === "Kitchen");

  // the search goes to the item; its form takes its size
  await hands.press("Control+k");
  await page.getByRole("combobox").waitFor();
  await hands.type("kitchen");
  await page.waitForFunction(() => document.querySelectorAll(".finder [role=option]").length > 0);
  const options = await page.locator(".finder [role=option]").allInnerTexts();
  const nth = options.findIndex(
    (text) => /^Kitchen\s*\n/.test(text) || /^Kitchen$/m.test(text.split("\n")[0]),
  );
  for (let n = 0; n < nth; n++) await hands.press("ArrowDown");
  await hands.press("Enter");
  await page.waitForTimeout(300);
  await hands.press("Control+k");
  await hands.type("every field of the selected");
  await hands.press("Enter");
  await page.waitForFunction(() => document.activeElement?.closest(".entry-panel") !== null);
  for (let n = 0; n < 60; n++) {
    const label = await page.evaluate(
      () =>
        document.querySelector(`label[for="${document.activeElement.id}"]`)?.firstChild?.textContent ?? "",
    );
    if (label === "Size, x") break;
    await hands.press("Enter");
  }
  for (const size of ["900", "480", "880"]) {
    await hands.type(size);
    await hands.press("Enter");
  }
  await kept(page);
  await page.waitForFunction(
    async ([build, row]) => {
      const answer = await (await fetch(`/api/builds/${build}/solids?state=travel`)).json();
      return answer.bodies.some((body) => body.id === row);
    },
    [id, kitchen.id],
  );
  await hands.press("Escape");
  await hands.press("Alt+3");
  await page.locator(`.v-plan [data-id='item:${kitchen.id}']`).waitFor();
  await page.waitForTimeout(300);

  // on the drawing it is gone to, picked up, moved and put down
  await page.locator('.stage [data-focus][tabindex="0"]').focus();
  for (let n = 0; n < 30; n++) {
    if ((await page.evaluate(() => document.activeElement.dataset.id)) === `item:${kitchen.id}`) break;
    await hands.press(n % 3 === 2 ? "ArrowUp" : "ArrowRight");
  }
  if ((await page.evaluate(() => document.activeElement.dataset.id)) !== `item:${kitchen.id}`)
    await page.locator(`.v-plan [data-id='item:${kitchen.id}']`).focus();
  const before = (await bodies(id)).find((body) => body.id === kitchen.id).outline;
  await hands.press("Enter", "Shift+ArrowRight", "ArrowRight", "Enter");
  await kept(page);
  await page.waitForTimeout(300);
  const after = (await bodies(id)).find((body) => body.id === kitchen.id).outline;
  assert.equal(Math.min(after[0], after[2], after[4]) - Math.min(before[0], before[2], before[4]), 110);

  // picked up and put down at once opens its form
  await page.locator(`.v-plan [data-id='item:${kitchen.id}']`).focus();
  await hands.press("Enter", "Enter");
  await page.waitForFunction(() => document.activeElement?.closest(".entry-panel") !== null);
  console.log(`# ${hands.count} keystrokes`);
  assert.deepEqual(trouble, []);
});

test("a note zooms to what it speaks of, and its move clears it by one button", async () => {
  const id = await one.demo("curlew");
  const view = await one.get(`/builds/${id}`);
  // a clash is made: the drying locker is pushed into the kitchen
  const two = (await bodies(id)).filter((body) => /^(drying-locker|kitchen-unit)$/.test(body.id));
  const locker = two.find((body) => body.id === "drying-locker");
  assert.ok(locker, "the demo has a drying locker");
  const answer = await fetch(`${one.base}/api/builds/${id}/changes`, {
    method: "POST",
    headers: { "Content-Type": "application/json" },
    body: JSON.stringify({
      id: "push",
      client: "test",
      base: view.revision,
      title: "push",
      edits: [{ kind: "move", row: "drying-locker", dxUm: -150000 }],
    }),
  });
  assert.equal(answer.status, 200);
  const finding = (await answer.json()).view.findings.find(
    (found) => found.check === "fit-clash" && found.verdict === "does-not-hold" && found.moves.length > 0,
  );
  assert.ok(finding, "the clash is found, with a move that clears it");
  const { page, trouble } = await one.page();
  await page.goto(`${one.base}/#/b/${id}/fit`);
  await page.locator(".v-plan [data-id='item:drying-locker']").waitFor();
  await page.waitForTimeout(400);
  const whole = await page.locator(".stage").getAttribute("viewBox");
  const note = page.locator(`[data-note="${finding.key}"]`);
  await note.getByRole("button").first().click();
  await page.waitForFunction(
    (box) => document.querySelector(".stage").getAttribute("viewBox") !== box,
    whole,
  );
  await note
    .getByRole("button", { name: new RegExp(finding.moves[0].text.replace(/\s/g, "\\s"), "i") })
    .click();
  await kept(page);
  await note.waitFor({ state: "detached" });
  assert.ok(!(await one.get(`/builds/${id}`)).findings.some((found) => found.key === finding.key));
  assert.deepEqual(trouble, []);
});

test("the section follows its plane, trades go and come, notes are pinned", async () => {
  const id = await one.demo("curlew");
  const { page, trouble } = await one.page();
  await page.goto(`${one.base}/#/b/${id}/fit`);
  await page.locator(".v-plan [data-id='item:drying-locker']").waitFor();
  await page.getByRole("radio", { name: "Section" }).click();
  await page.locator(".v-section").waitFor();
  const slider = page.getByRole("slider");
  await page.waitForTimeout(400);
  const before = await page.locator(".v-section").innerHTML();
  await slider.focus();
  for (let n = 0; n < 5; n++) await page.keyboard.press("PageDown");
  await page.waitForFunction((was) => document.querySelector(".v-section").innerHTML !== was, before);
  await page.getByRole("radio", { name: "Plan" }).click();
  await page.getByRole("button", { name: /^Trades/ }).click();
  await page.getByLabel(/^tall units/).click();
  assert.equal(await page.locator(".v-plan [data-id='item:drying-locker']").isVisible(), false);
  await page.getByRole("button", { name: "all", exact: true }).click();
  assert.equal(await page.locator(".v-plan [data-id='item:drying-locker']").isVisible(), true);
  await page.getByRole("button", { name: /^Trades/ }).click();
  await page.evaluate(() => document.querySelector(".v-plan [data-id='item:drying-locker']").focus());
  await page.keyboard.press("ArrowLeft");
  await page.keyboard.press("ArrowRight");
  await page.getByRole("radio", { name: /^Notes/ }).click();
  const pins = await page.locator(".pins .pin").count();
  await page.getByRole("textbox", { name: /note/ }).fill('Mind the "edge": it is sharp');
  await page.getByRole("button", { name: "Pin it" }).click();
  await kept(page);
  await page.getByText('Mind the "edge": it is sharp').first().waitFor();
  await page.waitForFunction((n) => document.querySelectorAll(".pins .pin").length > n, pins);
  assert.deepEqual(trouble, []);
});

test("moving an item on the fit sheet keeps 60 pictures a second", async () => {
  const id = await one.demo("curlew");
  const { page } = await one.page();
  await page.goto(`${one.base}/#/b/${id}/fit`);
  await page.locator(".v-plan [data-id='item:drying-locker']").waitFor();
  await page.waitForTimeout(800);
  const from = await middle(page, "drying-locker");
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
          if (gaps.length < 120) requestAnimationFrame(tick);
          else {
            const sorted = gaps.slice(5).sort((a, b) => a - b);
            done([sorted[Math.floor(sorted.length * 0.5)], sorted[Math.floor(sorted.length * 0.9)]]);
          }
        };
        requestAnimationFrame(tick);
      }),
  );
  for (let n = 0; n < 110; n++) await page.mouse.move(from.x + (n % 40) * 3, from.y + (n % 7));
  const [half, most] = await measured;
  await page.keyboard.press("Escape");
  await page.mouse.up();
  console.log(
    `# ${half.toFixed(1)} ms between pictures in the middle, ${most.toFixed(1)} ms for nine of ten`,
  );
  assert.ok(half < 20, `${half.toFixed(1)} ms`);
});

test("without WebGL the view in space says so in words", async () => {
  const id = await one.demo("curlew");
  const { page } = await one.page();
  await page.addInitScript(() => {
    const real = HTMLCanvasElement.prototype.getContext;
    HTMLCanvasElement.prototype.getContext = function (kind, ...rest) {
      return /webgl/.test(kind) ? null : real.call(this, kind, ...rest);
    };
  });
  await page.goto(`${one.base}/#/b/${id}/fit`);
  await page.getByRole("radio", { name: "In space" }).click();
  await page.getByText(/cannot draw in space/).waitFor();
});

for (const colorScheme of ["light", "dark"])
  for (const width of [390, 1024, 1440])
    test(`no serious finding on the new screens, ${colorScheme}, ${width} wide`, async () => {
      const id = await one.demo("curlew");
      const { page, trouble } = await one.page({ colorScheme, viewport: { width, height: 900 } });
      const look = async (what) => {
        await page.waitForTimeout(400);
        await page.evaluate(axe);
        const result = await page.evaluate(() =>
          globalThis.axe.run(document, { resultTypes: ["violations"] }),
        );
        const bad = result.violations
          .filter((found) => found.impact === "serious" || found.impact === "critical")
          .map(
            (found) =>
              `${found.id}: ${found.nodes
                .map((node) => node.html.slice(0, 140))
                .slice(0, 3)
                .join(" | ")}`,
          );
        assert.deepEqual(bad, [], what);
        const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
        assert.ok(wide <= 0, `${what} is ${wide} pixels wider than the window`);
      };
      await page.goto(`${one.base}/#/b/${id}/fit`);
      await page.locator(".v-plan [data-id='item:drying-locker']").waitFor();
      await look("fit");
      await page.getByRole("radio", { name: "Section" }).click();
      await page.locator(".v-section").waitFor();
      await look("section");
      await page.getByRole("radio", { name: /^Notes/ }).click();
      await look("notes");
      await page.getByRole("button", { name: /^Trades/ }).click();
      await look("trades");
      await page.keyboard.press("Escape");
      await page.keyboard.press("Control+k");
      await page.getByRole("combobox").waitFor();
      await look("search");
      await page.keyboard.press("Escape");
      await page.getByRole("radio", { name: "In space" }).click();
      await page.locator(".space canvas").waitFor();
      await look("space");
      await page.goto(`${one.base}/#/b/${id}/kit`);
      await page.locator("tr[data-row]").first().waitFor();
      await page.locator("tr[data-row='drying-locker'] [role=gridcell]").first().click();
      await page.getByRole("button", { name: "Every field" }).click();
      await page.locator(".entry-panel [data-field]").first().waitFor();
      await look("form");
      await page.goto(`${one.base}/#/bay/${id}/fridge`);
      await page.locator(".bay-tapes").waitFor();
      await look("bay");
      assert.deepEqual(trouble, []);
    });
