// Figures of the page, by hand after sh tests/page/build.sh:
//   TUCK_ROOT=$PWD TUCK_PAGE=$PWD/build/page/tuck.html node tests/bench/page_bench.mjs
import { spawn, spawnSync } from "node:child_process";
import { statSync } from "node:fs";
import { loadavg } from "node:os";
import { firstRace, launched, opened, page_file, until } from "../page/browser.mjs";

const median = (list) => list.slice().sort((a, b) => a - b)[Math.floor(list.length / 2)];
/** From opening the file to the first plan of a stored race. */
async function firstAnswer(browser) {
  const context = await browser.newContext();
  const page = await context.newPage();
  await context.addInitScript(() => {
    localStorage.setItem("tuck.event", JSON.stringify({ schema: "tuck.event/1", distance: "standard", weather: { temperature_c: 24 }, athlete: { mass_kg: 70 } }));
  });
  await page.goto(`file://${page_file}`, { timeout: 120000 });
  await until(page, () => document.querySelector(".short p"), null, 120000);
  const ms = await page.evaluate(() => performance.now());
  await context.close();
  return ms;
}

async function firstAnswers() {
  const times = [], browser = await launched();
  for (let i = 0; i < 5; ++i) times.push(await firstAnswer(browser));
  await browser.close();
  return median(times);
}

// DevTools slow a page but none of its workers. So the whole browser shares one core with three busy neighbours: a quarter of
// a core for all that it does. This program starts itself anew for it.
if (process.argv[2] === "slowed") {
  console.log(`first answer on a quarter of one core: ${(await firstAnswers()).toFixed(0)} ms (3000)`);
  process.exit();
}
console.log(`load of this machine before: ${loadavg()[0].toFixed(1)} (a figure counts below 1)`);
console.log(`tuck.html: ${(statSync(page_file).size / 1e6).toFixed(2)} MB (2.00)`);
console.log(`first answer after opening: ${(await firstAnswers()).toFixed(0)} ms (1000)`);
const busy = [1, 2, 3].map(() => spawn("taskset", ["-c", "0", "node", "-e", "for (;;);"]));
const free = () => busy.forEach((one) => one.kill());
process.on("exit", free);
spawnSync("taskset", ["-c", "0", "node", process.argv[1], "slowed"], { stdio: "inherit" });
free();
const browser = await launched();

for (const distance of ["standard", "long"]) {
  const { page, context } = await opened(browser);
  await firstRace(page, { distance });
  await page.evaluate(() => go("otherwise"));
  await page.waitForTimeout(300);
  const times = await page.evaluate(async () => {
    const out = { rough: [], fine: [] };
    for (let i = 0; i < 40; ++i) {
      for (const [kind, hasty] of [["rough", true], ["fine", false]]) {
        const drawn = new Promise((done) => { const l = () => { listeners.delete(l); requestAnimationFrame(() => setTimeout(done)); }; listeners.add(l); });
        const from = performance.now();
        change({ "--temperature": `${15 + (i % 15)}C` }, hasty);
        await drawn;
        document.body.getBoundingClientRect();
        out[kind].push(performance.now() - from);
      }
    }
    return out;
  });
  console.log(`${distance}: slider to redrawn plan, median ${median(times.rough).toFixed(0)} ms with 1,000 days, ${median(times.fine).toFixed(0)} ms with 10,000 (${distance === "long" ? "200 in all" : "30, then 60 more"})`);
  await context.close();
}

const { page } = await opened(browser);
await firstRace(page);
await page.evaluate(() => go("squad"));
for (const size of [40, 500]) {
  const rows = Array.from({ length: size }, (_, i) => `A${i};${i};${50 + (i % 45)}`).join("\n");
  await page.locator("textarea").fill(`name;bib;mass_kg\n${rows}\n`);
  await page.getByRole("button", { name: "Read it" }).click();
  const from = Date.now();
  await page.getByRole("button", { name: "Plan them all" }).click();
  await until(page, (n) => document.querySelector("progress").value === n && document.querySelector(".table table"), size, 300000);
  console.log(`squad of ${size}: ${((Date.now() - from) / 1000).toFixed(1)} s${size === 40 ? " (10)" : ""}`);
}
await browser.close();
