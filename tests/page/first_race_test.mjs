// A first race from opening the file to a card: touches, keyboard, attacks, requests.
import assert from "node:assert/strict";
import { mkdtempSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { spawnSync } from "node:child_process";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import test, { after, before } from "node:test";
import { axe, firstRace, host, launched, opened, page_file, until } from "./browser.mjs";

const { TUCK, TUCK_ROOT } = process.env;
let browser;
before(async () => { browser = await launched(); });
after(() => browser.close());

const goTo = async (page, name) => {
  await page.getByRole("link", { name, exact: true }).click();
  await page.waitForTimeout(50);
};

test("a first race takes five touches, and says what the program says", async () => {
  const { page, requests, complaints } = await opened(browser, { viewport: { width: 360, height: 740 }, hasTouch: true });
  let touches = 0;
  const touch = async (place) => { await place.click({ force: true }); ++touches; };
  await touch(page.getByRole("radio", { name: /^sprint/i }));
  await touch(page.locator("[data-option='--mass']"));
  await page.keyboard.type("68");
  await touch(page.locator("[data-option='--temperature']")); // the middle of the slider: 21 C
  await touch(page.getByRole("radio", { name: "No, it is my first" }));
  await page.getByText("In short").waitFor();
  assert.ok(touches <= 5, `${touches} touches`);
  await until(page, () => document.querySelector(".short p"));
  const event = await page.evaluate(() => state.event);
  const file = join(mkdtempSync(join(tmpdir(), "tuck-page-")), "event.json");
  writeFileSync(file, JSON.stringify(event));
  const plan = JSON.parse(spawnSync(TUCK, ["plan", file, "--json"]).stdout);
  assert.equal(await page.evaluate(() => state.answer.plan.version), plan.version);
  assert.ok(plan.in_short.length > 0);
  for (const sentence of plan.in_short) assert.ok((await page.locator("div.short").innerText()).includes(sentence), sentence);
  assert.ok((await page.locator(".stop").first().innerText()).startsWith("STOP"));
  assert.ok(await page.getByText("not medical advice").count() > 0);
  assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), "scrolls sideways at 360 px");
  assert.deepEqual(requests, []);
  assert.deepEqual(complaints, []);
});

test("from a static host the page asks for nothing but its own parts, and works offline after one visit", async () => {
  const folder = join(dirname(page_file), "site");
  // Split: markup, style, script, engine and fonts lie apart, and each is asked for once.
  assert.deepEqual(readdirSync(folder).sort(), ["engine.bin", "fonts.bin", "foods.bin", "icon.svg", "index.html", "licences.bin", "offline.js", "tuck.css", "tuck.js", "tuck.webmanifest", "worker.bin"]);
  assert.ok(statSync(join(folder, "index.html")).size < 5000);
  const server = await host(folder);
  const { page, context, requests, complaints } = await opened(browser, { url: server.url });
  await firstRace(page);
  await page.evaluate(() => navigator.serviceWorker.ready);
  await until(page, () => caches.keys().then((names) => names.length > 0));
  await page.waitForTimeout(500);
  server.close();
  await context.setOffline(true);
  await page.reload();
  await until(page, () => performance.getEntriesByName("ready").length > 0);
  await firstRace(page);
  await page.evaluate(() => go("print")); // fonts were never asked for before the host went away
  await page.locator(".paper svg").first().waitFor();
  assert.deepEqual(requests.filter((url) => !url.startsWith(server.url)), []);
  assert.deepEqual(complaints, []);
});

test("every screen passes axe-core, light and dark, and shows STOP where it shows a plan", async () => {
  for (const colorScheme of ["light", "dark"]) {
    const { page, context } = await opened(browser, { colorScheme, bypassCSP: true });
    await firstRace(page, { distance: "middle" });
    for (const screen of ["race", "have", "otherwise", "print", "after", "live", "squad", "files"]) {
      await page.evaluate((name) => go(name), screen);
      await page.locator(".stop").first().waitFor();
      await page.waitForTimeout(200);
      if (screen === "print") await page.locator(".paper svg").first().waitFor();
      await page.evaluate(() => document.querySelectorAll("details").forEach((one) => { one.open = true; }));
      await page.evaluate(axe);
      const found = await page.evaluate(() => axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] }));
      assert.deepEqual(found.violations.map((one) => `${one.id}: ${one.nodes.slice(0, 3).map((node) => node.html.slice(0, 160) + " " + node.failureSummary).join(" | ")}`), [], `${screen}, ${colorScheme}`);
      assert.ok(await page.getByText("not medical advice").count() > 0, screen);
    }
    await context.close();
  }
});

test("the whole way with the keyboard alone", async () => {
  const { page } = await opened(browser);
  const tabTo = async (wanted) => {
    for (let i = 0; i < 200; ++i) {
      await page.keyboard.press("Tab");
      if (await page.evaluate(wanted)) return;
    }
    assert.fail(`Tab never comes to ${wanted}`);
  };
  await tabTo(() => document.activeElement.type === "radio");
  for (let i = 0; i < 8 && await page.evaluate(() => document.activeElement.value !== "standard"); ++i) await page.keyboard.press("ArrowRight");
  await tabTo(() => document.activeElement.dataset.option === "--mass");
  await page.keyboard.type("70");
  await tabTo(() => document.activeElement.dataset.option === "--temperature");
  await page.keyboard.press("ArrowRight");
  await page.getByText("In short").waitFor();
  await tabTo(() => document.activeElement.className === "number");
  await page.keyboard.press("Enter");
  await page.locator("dialog h2").waitFor();
  await page.keyboard.press("Escape");
  await page.locator("dialog").waitFor({ state: "detached" });  // the browser tells of the close in a later task
  assert.equal(await page.evaluate(() => document.activeElement.className), "number", "focus comes back");
  await page.evaluate(() => go("otherwise"));
  await page.locator("circle.movable").first().waitFor();
  await tabTo(() => document.activeElement.classList.contains("movable"));
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("Enter");
  await page.getByText(/^Pinned/).waitFor();
});

test("names with markup stay text, broken and huge files are told, nothing is lost", async () => {
  const { page, complaints } = await opened(browser);
  await firstRace(page);
  const evil = `"><img src=x onerror=window.hit=1><script>window.hit=1</script>`;
  await page.evaluate((name) => change({ "--name": name, "--event-name": "<b>bold</b>" }), evil);
  await until(page, () => state.event.athlete?.name);
  for (const screen of ["race", "print", "squad", "files"]) {
    await page.evaluate((name) => go(name), screen);
    await page.waitForTimeout(150);
  }
  assert.equal(await page.evaluate(() => window.hit), undefined);
  const before = await page.evaluate(() => JSON.stringify(state.event));
  const folder = mkdtempSync(join(tmpdir(), "tuck-page-"));
  const files = {
    "broken.json": "{\"schema\": \"tuck.event/1\",", "other.json": "{\"a\": 1}", "bad.gpx": "<!DOCTYPE x [<!ENTITY a \"b\">]><gpx/>",
    "huge.json": "[" + "1,".repeat(2500000) + "1]", "deep.json": "[".repeat(100000),
  };
  await page.evaluate(() => go("files"));
  for (const [name, text] of Object.entries(files)) {
    const path = join(folder, name);
    writeFileSync(path, text);
    await page.locator("input[type=file]").setInputFiles(path);
    await page.locator(".faults").first().waitFor();
    assert.ok((await page.locator(".faults").first().innerText()).length > 20, name);
    assert.equal(await page.evaluate(() => JSON.stringify(state.event)), before, name);
  }
  assert.deepEqual(complaints.filter((text) => !/Content Security Policy/.test(text)), []);
});

test("500,000 points of a course are read within 512 MB", async () => {
  const { page } = await opened(browser);
  await firstRace(page, { distance: "long" });
  const points = Array.from({ length: 500000 }, (_, i) => `<trkpt lat="${(47 + i * 3.2e-6).toFixed(7)}" lon="8"><ele>${(400 + 60 * Math.sin(i / 9000)).toFixed(1)}</ele></trkpt>`);
  const path = join(mkdtempSync(join(tmpdir(), "tuck-page-")), "long.gpx");
  writeFileSync(path, `<gpx version="1.1" creator="test"><trk><trkseg>${points.join("")}</trkseg></trk></gpx>`);
  await page.evaluate(() => go("have"));
  await page.locator(".road-part input[type=file]").first().setInputFiles(path);
  await until(page, () => state.answer?.roads[0].profile.length > 100, null, 30000);
  assert.deepEqual(await page.evaluate(() => state.faults), []);
});

test("a plan goes out as files and comes in again", async () => {
  const { page } = await opened(browser);
  await firstRace(page, { distance: "middle" });
  await page.evaluate(() => go("files"));
  const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Save the event" }).click()]);
  const path = join(mkdtempSync(join(tmpdir(), "tuck-page-")), "event.json");
  await download.saveAs(path);
  const version = await page.evaluate(() => state.answer.plan.version);
  assert.equal(JSON.parse(spawnSync(TUCK, ["plan", path, "--json"]).stdout).version, version, "the command line reads it");
  assert.deepEqual(await page.evaluate(() => keptHere()), [], "nothing is kept unasked");
  const again = await opened(browser);
  await again.page.evaluate(() => go("files"));
  await again.page.locator("input[type=file]").setInputFiles(path);
  await until(again.page, () => state.answer);
  assert.equal(await again.page.evaluate(() => state.answer.plan.version), version);
});

test("keep on this device: off at first, whole when on, without health, and deleted at one touch", async () => {
  const { page } = await opened(browser);
  await firstRace(page);
  await page.evaluate(() => go("files"));
  await page.getByLabel("coeliac disease").check();
  await page.getByRole("checkbox", { name: "Keep on this device" }).check();
  await until(page, () => keptHere().length > 0);
  const kept = await page.evaluate(() => JSON.stringify(keptHere()));
  assert.ok(kept.includes("standard") && !kept.includes("coeliac"), kept.slice(0, 400));
  await page.reload();
  await until(page, () => performance.getEntriesByName("ready").length > 0);
  assert.equal(await page.evaluate(() => state.event.distance), "standard");
  await page.evaluate(() => go("files"));
  await page.getByRole("button", { name: "Delete it all" }).click();
  assert.deepEqual(await page.evaluate(() => keptHere()), []);
});
