// The bench of the page tests: the real server on a folder of its own, and Chromium in front of it.

import { spawn, spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { chromium } from "playwright-core";

const here = dirname(fileURLToPath(import.meta.url));
const root = join(here, "..", "..", "..");

/** binary is the server to test: the one named by BERTHWRIGHT, or one built now with the page as built last. */
function binary(folder) {
  if (process.env.BERTHWRIGHT !== undefined) return process.env.BERTHWRIGHT;
  if (!existsSync(join(root, "web", "dist", "index.html")))
    throw new Error("build the page first: npm run build");
  const out = join(folder, "berthwright");
  const made = spawnSync("go", ["build", "-o", out, "./cmd/berthwright"], { cwd: root, encoding: "utf8" });
  if (made.status !== 0) throw new Error(made.stderr);
  return out;
}

/** software lets the browser draw in space without a graphics card; it slows everything else */
export const software = ["--use-angle=swiftshader", "--enable-unsafe-swiftshader"];

/** bench starts a server and a browser, with more of its flags; close ends both and removes the folder. */
export async function bench(more = []) {
  const folder = mkdtempSync(join(tmpdir(), "berthwright-page-"));
  const server = spawn(binary(folder), ["serve", "--data", join(folder, "data"), "--addr", "127.0.0.1:0"], {
    stdio: ["ignore", "pipe", "pipe"],
  });
  let log = "";
  server.stderr.on("data", (data) => {
    log += data;
  });
  const base = await new Promise((resolve, reject) => {
    let said = "";
    server.stdout.on("data", (data) => {
      said += data;
      const found = /http:\/\/[^\s"]+/.exec(said);
      if (found !== null) resolve(found[0].replace(/\/$/, ""));
    });
    server.on("exit", (code) => reject(new Error(`the server ended with ${code}: ${log}`)));
    setTimeout(() => reject(new Error(`the server said no address: ${said} ${log}`)), 20000);
  });
  const browser = await chromium.launch({
    executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
    headless: true,
    args: [
      "--no-sandbox",
      "--disable-quic",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
      ...more,
    ],
  });
  return {
    base,
    /** page opens a window of its own; every error of the page fails the test that looks at trouble */
    async page(options = {}) {
      const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, ...options });
      await context.grantPermissions(["clipboard-read", "clipboard-write"], { origin: base });
      const page = await context.newPage();
      const trouble = [];
      page.on("pageerror", (error) => trouble.push(error.message));
      page.on("console", (message) => {
        if (message.type() === "error" && /Content Security Policy|Refused to/.test(message.text()))
          trouble.push(message.text());
      });
      return { page, context, trouble };
    },
    async demo(name) {
      const answer = await fetch(`${base}/api/builds`, {
        method: "POST",
        headers: { "Content-Type": "application/json" },
        body: JSON.stringify({ kind: "demo", from: name, name: "" }),
      });
      if (!answer.ok) throw new Error(`${answer.status} ${await answer.text()}`);
      return (await answer.json()).id;
    },
    async get(path) {
      const answer = await fetch(`${base}/api${path}`);
      if (!answer.ok) throw new Error(`${answer.status} ${await answer.text()}`);
      return answer.json();
    },
    async close() {
      await browser.close();
      server.kill("SIGTERM");
      await new Promise((resolve) => {
        server.once("exit", resolve);
        setTimeout(resolve, 3000);
      });
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** typist counts what a person would press. */
export function typist(page) {
  let count = 0;
  return {
    get count() {
      return count;
    },
    async press(...keys) {
      for (const key of keys) {
        count += 1;
        await page.keyboard.press(key);
      }
    },
    async type(text) {
      count += text.length;
      await page.keyboard.type(text);
    },
    /** paste puts text in as the clipboard would; it counts as the one chord that does it */
    async paste(text) {
      await page.evaluate((words) => navigator.clipboard.writeText(words), text);
      await page.keyboard.press("Control+v");
    },
  };
}

/** rows makes a pasted kit list of n invented rows. */
export function rows(n) {
  const what = ["Locker", "Shelf", "Pump", "Lamp", "Hose", "Panel", "Drawer", "Rail", "Vent", "Cushion"];
  const lines = ["bulkhead", "rear-door"];
  const out = ["What\tkg\tFrom which line\tHow far\tSide\tLevel"];
  for (let n1 = 0; n1 < n; n1++)
    out.push(
      [
        `${what[n1 % what.length]} ${n1 + 1}`,
        (1 + (n1 % 7) * 0.6).toFixed(1),
        lines[n1 % 2],
        String(200 + ((n1 * 90) % 2600)),
        ["left", "middle", "right"][n1 % 3],
        ["low", "mid", "high"][n1 % 3],
      ].join("\t"),
    );
  return out.join("\n");
}

export const title = (page) => page.locator(".block .claims");
