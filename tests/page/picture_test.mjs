// The page in the README is today's: samples/page.png, drawn again. TUCK_DRAW=1 keeps what is drawn.
import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import test, { after, before } from "node:test";
import { firstRace, launched, opened } from "./browser.mjs";

const PICTURE = join(process.env.TUCK_ROOT, "samples/page.png");
let browser;
before(async () => { browser = await launched(); });
after(() => browser.close());

/** How far two pictures lie apart: mean difference of a colour, 0 to 255; infinite where their sizes differ. */
async function apart(one, other) {
  const page = await browser.newPage();
  return page.evaluate(async (pictures) => {
    const [a, b] = await Promise.all(pictures.map(async (text) => {
      const bitmap = await createImageBitmap(await (await fetch(`data:image/png;base64,${text}`)).blob());
      const context = new OffscreenCanvas(bitmap.width, bitmap.height).getContext("2d");
      context.drawImage(bitmap, 0, 0);
      return context.getImageData(0, 0, bitmap.width, bitmap.height);
    }));
    if (a.width !== b.width || a.height !== b.height) return Infinity;
    return a.data.reduce((sum, value, i) => sum + Math.abs(value - b.data[i]), 0) / a.data.length;
  }, [one.toString("base64"), other.toString("base64")]);
}

test("the picture in the README is today's page, and another page would be told", async () => {
  const { page } = await opened(browser, { viewport: { width: 1280, height: 800 }, colorScheme: "light", reducedMotion: "reduce" });
  await firstRace(page, { distance: "standard" });
  await page.evaluate(() => { document.activeElement.blur(); scrollTo(0, 0); });
  const today = await page.screenshot({ animations: "disabled" });
  if (process.env.TUCK_DRAW) writeFileSync(PICTURE, today);
  assert.match(readFileSync(join(process.env.TUCK_ROOT, "README.md"), "utf8"), /\(samples\/page\.png\)/);
  // Our choice: another version of a browser or font moves edges; another distance is 0.2 and more.
  const kept = readFileSync(PICTURE);
  assert.ok(await apart(kept, today) < 0.1, "draw it again: TUCK_DRAW=1");
  await firstRace(page, { distance: "long" });
  await page.evaluate(() => { document.activeElement.blur(); scrollTo(0, 0); });
  assert.ok(await apart(kept, await page.screenshot({ animations: "disabled" })) > 0.2);
});
