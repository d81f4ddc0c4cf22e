// A headless Chromium on the finished page, from file:// or from a static host of this process; every request is counted.
import { createServer } from "node:http";
import { createRequire } from "node:module";
import { readFileSync } from "node:fs";
import { extname, join } from "node:path";
import { pathToFileURL } from "node:url";

const require = createRequire(join(process.env.TUCK_ROOT, "build/page/judges/package.json"));
export const { chromium } = require("playwright-core");
export const axe = readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");
export const page_file = process.env.TUCK_PAGE;
export const page_url = pathToFileURL(page_file).href;

export async function launched() {
  return chromium.launch({ executablePath: "/usr/bin/chromium", args: ["--no-sandbox", "--disable-dev-shm-usage"] });
}

/** Waits until `holds` is true in the page. Polled from here: the page's own policy lets nobody evaluate text in it. */
export async function until(page, holds, argument = null, timeout = 60000) {
  const end = Date.now() + timeout;
  while (!(await page.evaluate(holds, argument))) {
    if (Date.now() > end) throw new Error(`never came true: ${holds}`);
    await new Promise((done) => setTimeout(done, 10));
  }
}

/**
 * A fresh page that is ready, with the requests that it made beyond its own file and what it complained of.
 * @param {import("playwright-core").Browser} browser
 */
export async function opened(browser, { url = page_url, ...options } = {}) {
  const context = await browser.newContext({ viewport: { width: 1200, height: 900 }, acceptDownloads: true, ...options });
  context.setDefaultTimeout(60000); // a machine that runs other tests beside this one is slow
  const page = await context.newPage();
  const requests = [], complaints = [];
  page.on("request", (request) => { if (!/^(blob|data):/.test(request.url()) && request.url().split("#")[0] !== url) requests.push(request.url()); });
  page.on("console", (message) => { if (message.type() === "error") complaints.push(message.text()); });
  page.on("pageerror", (error) => complaints.push(String(error)));
  await page.goto(url);
  await until(page, () => performance.getEntriesByName("ready").length > 0, null, 60000);
  return { page, context, requests, complaints };
}

/** A static host for a folder, on a port of the machine's choice. */
export async function host(folder) {
  const types = { ".html": "text/html", ".js": "text/javascript", ".css": "text/css", ".svg": "image/svg+xml", ".webmanifest": "application/manifest+json" };
  const server = createServer((request, response) => {
    const name = new URL(request.url, "http://x").pathname.replace(/\/$/, "/index.html");
    try {
      response.setHeader("content-type", types[extname(name)] ?? "application/octet-stream");
      response.end(readFileSync(join(folder, name)));
    } catch {
      response.writeHead(404).end();
    }
  });
  await new Promise((done) => server.listen(0, "127.0.0.1", done));
  return { url: `http://127.0.0.1:${server.address().port}/`, close: () => server.close() };
}

/** The three answers of a first race, as a thumb gives them. */
export async function firstRace(page, { distance = "standard", mass = "70", temperature = "24" } = {}) {
  await page.evaluate(() => go("race"));
  await page.getByRole("radio", { name: new RegExp(`^${distance}`, "i") }).check({ force: true });
  await page.locator("[data-option='--mass']").fill(mass);
  await page.locator("[data-option='--mass']").press("Tab");
  await page.locator("[data-option='--temperature']").fill(temperature);
  await page.getByText("In short").waitFor();
  await until(page, () => !running && !asked); // the slider's rough answer has become a whole one
}
