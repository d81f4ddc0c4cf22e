// The page in the other browser that Debian brings: Firefox ESR, driven over WebDriver BiDi. A smoke run: it opens, plans, speaks
// German and imperial, draws the card, hands out a PDF, and from a host it works offline after one visit.
import assert from "node:assert/strict";
import { existsSync, mkdtempSync, readFileSync, statSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import test, { afterEach, beforeEach } from "node:test";
import { host, page_file, page_url, until } from "./browser.mjs";

const require = createRequire(join(process.env.TUCK_ROOT, "build/page/judges/package.json"));
const { launch } = require("puppeteer-core");
const downloads = mkdtempSync(join(tmpdir(), "tuck-page-"));
let browser;
beforeEach(async () => { // one each: only the first window gets a key's blur and change
  browser = await launch({ browser: "firefox", executablePath: "/usr/bin/firefox-esr", headless: true, extraPrefsFirefox: {
    "browser.download.dir": downloads, "browser.download.folderList": 2, "browser.download.useDownloadDir": true,
    "browser.helperApps.neverAsk.saveToDisk": "application/pdf", "pdfjs.disabled": true } });
});
afterEach(() => browser?.close());

const ready = (page) => until(page, () => performance.getEntriesByName("ready").length > 0, null, 60000);

async function firstRace(page) {
  await page.evaluate(() => document.querySelector("input[type=radio][value=standard]").click());
  await page.type("[data-option='--mass']", "70");
  await page.keyboard.press("Tab");
  await page.evaluate(() => {
    const slider = document.querySelector("[data-option='--temperature']");
    slider.value = "24";
    slider.dispatchEvent(new Event("input"));
    slider.dispatchEvent(new Event("change"));
  });
  await until(page, () => document.querySelector(".short p") && !running && !asked);
}

test("Firefox opens the file, plans, changes language and units, and draws the card", async () => {
  const page = await browser.newPage();
  const requests = [], complaints = [];
  page.on("request", (request) => { if (!/^(blob|data):/.test(request.url()) && request.url().split("#")[0] !== page_url) requests.push(request.url()); });
  page.on("pageerror", (error) => complaints.push(String(error)));
  await page.goto(page_url);
  await ready(page);
  await firstRace(page);
  const plan = await page.evaluate(() => ({ short: state.answer.plan.in_short, seen: document.querySelector("div.short").innerText, stop: document.querySelector(".stop").innerText }));
  for (const sentence of plan.short) assert.ok(plan.seen.includes(sentence), sentence);
  assert.match(plan.stop, /^STOP/);
  await page.select("[aria-label='Language']", "de");
  await until(page, () => document.querySelector("div.short").innerText.startsWith("Nimm mit"));
  await page.select("[aria-label='Einheiten']", "imperial");
  await until(page, () => document.body.innerText.includes("fl oz/h"));
  await page.evaluate(() => go("print"));
  await until(page, () => document.querySelectorAll(".paper svg").length > 0);
  await page.evaluate(() => [...document.querySelectorAll("button")].find((one) => one.innerText === "Karte als PDF").click());
  const card = join(downloads, "card.pdf");
  for (let i = 0; i < 400 && !(existsSync(card) && statSync(card).size > 0); ++i) await new Promise((done) => setTimeout(done, 50));
  assert.equal(readFileSync(card).subarray(0, 5).toString(), "%PDF-");
  assert.deepEqual(requests, []);
  assert.deepEqual(complaints, []);
});

test("from a host, Firefox plans again when the host is gone", async () => {
  const server = await host(join(dirname(page_file), "site"));
  const page = await browser.newPage();
  await page.goto(server.url);
  await ready(page);
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
  await until(page, () => caches.keys().then((names) => names.length > 0));
  await page.reload();
  await ready(page);
  server.close();
  await page.reload();
  await ready(page);
  await firstRace(page);
  await page.close();
});
