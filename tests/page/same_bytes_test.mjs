// 200 random inputs: plan JSON, card and sheet come out of the page's engine with the very bytes of the program of this
// machine. The program is the judge; nothing is compared with itself.
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync, existsSync, copyFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import test from "node:test";
import { engineOf } from "./engine.mjs";

const { TUCK, TUCK_ROOT, TUCK_PAGE } = process.env;
const courses = ["lake-loop.gpx", "one-climb.gpx", "rolling-lap.gpx"];

/** A generator of its own, so that every machine tries the same 200. */
function draws(seed) {
  let x = seed;
  const next = () => (x = (Math.imul(x, 1664525) + 1013904223) >>> 0) / 2 ** 32;
  return { next, of: (list) => list[Math.floor(next() * list.length)], within: (low, high, step) => low + step * Math.floor((next() * (high - low)) / step) };
}

function randomEvent(seed) {
  const d = draws(seed);
  for (let i = 0; i < 5; ++i) d.next();
  const sometimes = (value) => d.next() < 0.5 ? value : {};
  const distance = d.of(["super-sprint", "sprint", "standard", "standard", "middle", "middle", "long", "duathlon-standard", "aquathlon-sprint"]);
  const ride = ["sprint", "standard", "middle", "long"].includes(distance);
  return {
    schema: "tuck.event/1", name: d.of(["", "Ärmelkanal", "Saltmarsh"]), distance, seed: 1 + seed, days: d.of([0, 500, 500, 2000]),
    weather: { temperature_c: d.within(4, 36, 1), ...sometimes({ humidity_pct: d.within(20, 95, 5) }), ...sometimes({ wind_m_s: d.within(0, 9, 1) }), ...sometimes({ sun: d.of(["none", "hazy", "half", "full"]) }) },
    ...sometimes({ date: "2027-06-13", start_local: d.of(["06:45", "10:00", "17:30"]) }), ...sometimes({ stations: "typical" }),
    ...(ride && d.next() < 0.3 ? { course: { bike: distance === "standard" ? { course_gpx: "lake-loop.gpx" } : { ascent_m: d.within(0, 900, 50) } } } : {}),
    ...(ride && d.next() < 0.4 ? { kit: { bike_bottles_ml: d.of([[500], [750], [750, 750], [600, 950]]) } } : {}),
    ...(d.next() < 0.3 ? { carb_g_per_h: d.within(30, 100, 5) } : {}),
    athlete: {
      mass_kg: d.within(45, 105, 0.5), ...sometimes({ height_m: d.within(1.5, 2, 0.01) }), ...sometimes({ level: d.of(["beginner", "steady", "keen", "fast"]) }),
      ...sometimes({ sex: d.of(["female", "male"]) }), ...sometimes({ age_y: d.within(15, 70, 1) }), ...(d.next() < 0.3 ? { name: "Zoë Nowak" } : {}),
      ...(d.next() < 0.3 ? { rehearsed: { carb_g_per_h: d.within(40, 90, 10) } } : {}), ...(d.next() < 0.2 ? { sweat: { sweat_ml_per_h: d.within(500, 2000, 50) } } : {}),
      ...(d.next() < 0.2 ? { avoid: [d.of(["gel_25", "banana_ripe", "gel_isotonic"])] } : {}),
    },
  };
}

test("200 random inputs give the same bytes under node as from the native program", async () => {
  const engine = await engineOf(TUCK_PAGE);
  const folder = mkdtempSync(join(tmpdir(), "tuck-page-"));
  let papers = 0, faults = 0;
  try {
    for (const name of courses) {
      const from = join(TUCK_ROOT, "samples/courses", name);
      if (!existsSync(from)) continue;
      copyFileSync(from, join(folder, name));
      assert.equal(engine.open(name, readFileSync(from)).code, 0, name);
    }
    for (let i = 0; i < 200; ++i) {
      const event = randomEvent(i);
      const file = join(folder, "event.json"), card = join(folder, "card.pdf"), sheet = join(folder, "sheet.pdf");
      writeFileSync(file, JSON.stringify(event));
      for (const old of [card, sheet]) rmSync(old, { force: true });
      const native = spawnSync(TUCK, ["plan", file, "--json", "--card", card, "--sheet", sheet], { cwd: folder });
      const plan = engine.ask({ want: "plan_json", event });
      const words = `input ${i}: ${JSON.stringify(event)}\n${native.stderr}`;
      assert.equal(plan.code, native.status, words + plan.bytes.subarray(0, 500));
      if (plan.code === 2) {
        ++faults;
        continue;
      }
      assert.equal(plan.bytes.toString(), native.stdout.toString(), words);
      if (plan.code === 0) {
        assert.ok(engine.ask({ want: "card", event }).bytes.equals(readFileSync(card)), "card of " + words);
        ++papers;
      }
      assert.ok(engine.ask({ want: "sheet", event }).bytes.equals(readFileSync(sheet)), "sheet of " + words);
    }
  } finally {
    rmSync(folder, { recursive: true });
  }
  assert.ok(papers >= 180, `only ${papers} of 200 inputs have papers, ${faults} are faulty: they would prove little`);
});
