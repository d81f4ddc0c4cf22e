// The rest of the job, each story as its user lives it: a middle distance with a course and an own gel, changing the plan,
// print measured, sweat test, a live session across a reload, a squad from a spreadsheet. People and races are invented.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import test, { after, before } from "node:test";
import { firstRace, launched, opened, until } from "./browser.mjs";

const { TUCK_ROOT } = process.env;
const folder = mkdtempSync(join(tmpdir(), "tuck-page-"));
let browser;
before(async () => { browser = await launched(); });
after(() => browser.close());

/** Waits until the page has nothing more to work out. */
const settled = (page) => until(page, () => !running && !asked);

test("a middle distance with its course, a gel of one's own and stations", async () => {
  const { page, complaints } = await opened(browser);
  await firstRace(page, { distance: "middle" });
  await page.evaluate(() => go("have"));
  await page.locator(".road-part input[type=file]").first().setInputFiles(join(TUCK_ROOT, "samples/courses/rolling-lap.gpx"));
  // A course that is one lap of several says so: the number of laps is asked for, and nothing is lost.
  await until(page, () => state.files.size > 0);
  await settled(page);
  await page.evaluate(() => editCourse("/course/bike", (course) => { course.course_laps = 2; }));
  await until(page, () => state.answer?.roads[0].profile.length > 20 && !state.faults.length);
  await page.getByText("Stations on the run").click();
  for (let i = 0; i < 3; ++i) {
    await page.getByRole("button", { name: "Add a station" }).last().click();
    await until(page, (n) => state.answer.roads[1].stations.length === n, i + 1);
  }
  const marks = page.locator("rect.movable");
  const from = await page.evaluate(() => state.answer.roads[1].stations[0].km);
  await marks.first().focus();
  await page.keyboard.press("ArrowRight");
  await until(page, (km) => state.answer.roads[1].stations[0].km === km + 0.5, from);
  await page.getByText("Add this food").first().click();
  for (const [label, text] of [["What it is called", "Plum gel"], ["One serving", "40g"], ["Carbohydrate", "65g"], ["of which sugars", "30g"], ["Energy", "263kcal"], ["Fat", "0g"], ["Protein", "0.5g"], ["Salt", "0.3g"]])
    await page.getByLabel(label, { exact: true }).fill(text);
  await page.getByRole("button", { name: "Add this food" }).click();
  await until(page, () => state.answer?.plan.feeds.some((feed) => feed.items.some((item) => item.food === "plum_gel")));
  assert.deepEqual(complaints, []);
});

test("a station that is passed on every lap stays one: moved, served and removed on all of them at once", async () => {
  const { page } = await opened(browser);
  await firstRace(page, { distance: "middle" });
  await page.evaluate(() => editCourse("/course/run", (course) => { course.stations = [{ km: 2, laps: 3, lap_km: 7, miss_chance: 0.1 }]; }));
  await until(page, () => state.answer?.roads[1].stations.length === 3);
  await page.evaluate(() => go("have"));
  const marks = page.locator("[data-key^='station-run-']");
  assert.equal(await marks.count(), 3);
  await marks.nth(1).focus(); // the second lap
  await page.keyboard.press("ArrowRight");
  await until(page, () => state.answer.roads[1].stations[2].km === 16.5);
  await settled(page);
  assert.deepEqual(await page.evaluate(() => state.event.course.run.stations), [{ km: 2.5, laps: 3, lap_km: 7, miss_chance: 0.1 }]);
  await page.getByText("on each of 3 laps").waitFor();
  await page.getByRole("combobox", { name: /hands out/ }).selectOption("cola_flat");
  await until(page, () => state.answer.roads[1].stations.every((one) => one.serves.includes("cola_flat")));
  await page.getByRole("button", { name: "Add a station" }).last().click();
  await until(page, () => state.answer.roads[1].stations.length === 4 && state.event.course.run.stations.length === 2);
  await page.getByRole("button", { name: /^Remove km 2\.5/ }).click();
  await until(page, () => state.answer.roads[1].stations.length === 1);
});

test("what if: a warmer day, a pinned gel, own lines and what they break, two plans side by side", async () => {
  const { page } = await opened(browser);
  await firstRace(page, { distance: "middle" });
  await page.evaluate(() => go("otherwise"));
  await page.getByRole("button", { name: "Keep this plan beside" }).click();
  await page.locator("[data-option='--temperature']").fill("32");
  await until(page, () => state.answer.plan.weather.temperature_c === 32 && state.answer.plan.outlook.days === 10000);
  const drink = await page.evaluate(() => [state.kept.plan.needs[2].sweat_ml_per_h, state.answer.plan.needs[2].sweat_ml_per_h]);
  assert.ok(drink[1] > drink[0], "a warmer day sweats more");
  await page.getByRole("cell", { name: /g$/ }).first().waitFor();
  await page.getByLabel("when, on the bike's clock").fill("1:20");
  await page.locator("select").filter({ hasText: "gel" }).last().selectOption("gel_25");
  await page.getByRole("button", { name: "Pin it" }).click();
  await settled(page);
  const pinned = await page.evaluate(() => state.answer.plan.feeds.some((feed) => feed.leg === "bike" && Math.abs(feed.at_s - 4800) < 301 && feed.items.some((item) => item.food === "gel_25"))
    || state.answer.plan.warnings.some((warning) => /gel/.test(warning.text)));
  assert.ok(pinned, "the gel is where it was pinned, or the rule in its way is named");
  await page.getByRole("button", { name: "Make these lines my own" }).click();
  await settled(page);
  assert.deepEqual(await page.evaluate(() => state.faults), []);
  await page.getByRole("button", { name: "Add a line" }).click();
  await settled(page);
  await page.locator("[data-key^='line-']").last().fill("bike every 10min: 12 swallows iso");
  await page.locator("[data-key^='line-']").last().press("Tab");
  await page.getByText("What these lines break").waitFor();
  assert.match(await page.locator(".warnings").first().innerText(), /\d/);
});

test("the print has the size that it says: measured on the PDF that the browser makes", async () => {
  const { page } = await opened(browser);
  await firstRace(page, { distance: "middle" });
  await page.evaluate(() => go("print"));
  await page.locator(".paper svg").first().waitFor();
  const path = join(folder, "print.pdf");
  await page.pdf({ path, preferCSSPageSize: false, format: "A4", margin: { top: 0, right: 0, bottom: 0, left: 0 } });
  const pages = /Pages:\s+(\d+)/.exec(execFileSync("pdfinfo", [path]).toString())[1];
  assert.equal(pages, String(await page.evaluate(() => document.querySelectorAll(".paper").length)), "nothing but the papers");
  // The check bar is 50 mm by its own words; points of PDF are 1/72 inch (ISO 32000).
  const box = (words) => {
    const xml = execFileSync("pdftotext", ["-bbox", path, "-"]).toString();
    const found = [...xml.matchAll(/<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">([^<]*)</g)].find((one) => one[5] === words);
    return found.slice(1, 5).map(Number).map((points) => (points / 72) * 25.4);
  };
  const downloads = page.waitForEvent("download");
  await page.getByRole("button", { name: "Card as PDF" }).click();
  const card = join(folder, "card.pdf");
  await (await downloads).saveAs(card);
  const own = (words) => {
    const xml = execFileSync("pdftotext", ["-bbox", card, "-"]).toString();
    const found = [...xml.matchAll(/<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">([^<]*)</g)].find((one) => one[5] === words);
    return found.slice(1, 5).map(Number).map((points) => (points / 72) * 25.4);
  };
  for (const word of ["BIKE", "RUN", "Missed"]) {
    const [left, , , bottom] = box(word), [ownLeft, , , ownBottom] = own(word);
    assert.ok(Math.abs(left - ownLeft) < 0.5, `${word}: ${left} against ${ownLeft} mm from the left`);
    assert.ok(Math.abs(bottom - ownBottom) < 1.5, `${word}: ${bottom} against ${ownBottom} mm from the top`);
  }
});

test("a sweat test is judged, kept in the diary, and read by the next plan", async () => {
  const { page } = await opened(browser);
  await firstRace(page);
  const before = await page.evaluate(() => state.answer.plan.version);
  await page.evaluate(() => go("after"));
  for (const [label, text] of [["Weight before", "71.4"], ["Weight after", "70.3"], ["Drunk", "750"], ["Minutes", "90"]])
    await page.getByLabel(label, { exact: true }).fill(text);
  await page.getByLabel("Air", { exact: true }).first().fill("24");
  await page.getByRole("button", { name: "What it says" }).click();
  // (71.4 - 70.3) kg + 0.75 L over 1.5 h are 1.23 L/h, less breath and burnt fuel (Cheuvront & Montain 2017): below that.
  const said = await page.locator("p.lead").first().innerText();
  const rate = Number(/(\d\.\d+) L\/h/.exec(said)[1]);
  assert.ok(rate > 0.9 && rate < 1.23, said);
  await page.getByRole("button", { name: "Into the diary" }).first().click();
  await until(page, (version) => state.answer.plan.version !== version, before);
  assert.match(await page.evaluate(() => state.diary), /"kind":"sweat_test"/);
  for (const [label, text] of [["Ride, minutes", "150"], ["Eaten on it, carbohydrate", "140"], ["Drunk on it", "1200"]])
    await page.getByLabel(label, { exact: true }).fill(text);
  await page.getByLabel("Air", { exact: true }).last().fill("18");
  await page.getByRole("button", { name: "Into the diary" }).last().click();
  await until(page, () => state.diary.split("\n").filter(Boolean).length === 2);
  assert.equal(await page.evaluate(() => JSON.parse(state.diary.split("\n")[1]).bike_min), 150);
});

test("two minutes of a live session survive a reload and end in the diary", async () => {
  const { page, context } = await opened(browser);
  await context.grantPermissions([]);
  await firstRace(page, { distance: "middle" });
  await page.evaluate(() => go("live"));
  await page.getByRole("button", { name: "Begin" }).click();
  await page.locator(".clock").waitFor();
  // Two minutes go by at once: the start is set back, as a clock would have it.
  await page.evaluate(() => { const live = storedSession(); live.session.start_unix_s -= 120; storeSession(live); show(); });
  await page.getByRole("button", { name: "Taken" }).click();
  await page.getByRole("button", { name: "Half" }).click();
  await page.reload();
  await until(page, () => performance.getEntriesByName("ready").length > 0);
  await firstRace(page, { distance: "middle" });
  await page.evaluate(() => go("live"));
  await page.locator(".clock").waitFor();
  assert.match(await page.locator(".clock").innerText(), /^0:0[2-9]:/);
  assert.match(await page.getByText(/of \d+ marked/).innerText(), /^2 of/);
  await page.getByRole("button", { name: "End it, into the diary" }).click();
  await until(page, () => state.diary);
  const line = JSON.parse(await page.evaluate(() => state.diary));
  assert.equal(line.feeds_taken, 1.5);
  assert.equal(await page.evaluate(() => localStorage.length), 0, "the marks are gone from the device");
});

test("a squad of 40 from a semicolon table: guesses, odd cells in place, risks on top, cards", async () => {
  const { page } = await opened(browser);
  await firstRace(page);
  await page.evaluate(() => go("squad"));
  const rows = Array.from({ length: 40 }, (_, i) => `Athlet ${i + 1};${100 + i};${i === 7 ? "siebzig" : (52 + i * 0.9).toFixed(1).replace(".", ",")};${20 + i};${i % 2 ? "keen" : ""}`);
  await page.locator("textarea").fill(`Name;Startnummer;Gewicht;Alter;Level\n${rows.join("\n")}\n`);
  await page.getByRole("button", { name: "Read it" }).click();
  await until(page, () => squad.table);
  assert.deepEqual(await page.evaluate(() => squad.table.guesses), ["name", "bib", "mass_kg", "age_y", "level"]);
  const started = Date.now();
  await page.getByRole("button", { name: "Plan them all" }).click();
  await page.getByRole("button", { name: "All cards as PDF" }).waitFor({ timeout: 60000 });
  console.log(`40 athletes: ${((Date.now() - started) / 1000).toFixed(1)} s`);
  await page.locator("input.odd").fill("70");
  await page.locator("input.odd").press("Tab");
  await page.getByRole("button", { name: "Plan them all" }).click();
  await until(page, () => squad.athletes.filter((one) => one && !one.odd).length === 40, null, 60000);
  const order = await page.evaluate(() => squad.athletes.slice().sort(riskier).map((one) => one.order[1]));
  assert.deepEqual(order, order.slice().sort((a, b) => b - a));
  await page.getByRole("button", { name: "All cards as PDF" }).waitFor();
  const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "All cards as PDF" }).click()]);
  const path = join(folder, "cards.pdf");
  await download.saveAs(path);
  const text = execFileSync("pdftotext", [path, "-"]).toString();
  for (const name of ["Athlet 1", "Athlet 40"]) assert.ok(text.includes(name), name);
});

test("the whole page speaks German, and shows pounds and miles", async () => {
  const { page } = await opened(browser);
  await firstRace(page);
  await page.getByLabel("Language").selectOption("de");
  await page.getByText("Kurz gesagt").waitFor();
  await page.getByText(/^Nimm mit: /).waitFor();
  assert.match(await page.locator(".stop").first().innerText(), /^STOPP /);
  assert.equal(await page.evaluate(() => document.documentElement.lang), "de");
  await page.getByLabel("Einheiten").selectOption("imperial");
  await page.getByText("fl oz/h").first().waitFor();
  assert.equal(await page.locator("[data-option='--mass']").inputValue(), "154.3"); // 70 kg / 0.45359237
  assert.ok(await page.getByText("24.9 mi").count() > 0);
});
