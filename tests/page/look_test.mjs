// How the page is reached and read: zoomed to 400 %, with a thumb, without motion, in the other language and the other units.
import assert from "node:assert/strict";
import test, { after, before } from "node:test";
import { firstRace, launched, opened, until } from "./browser.mjs";

const SCREENS = ["race", "have", "otherwise", "print", "after", "live", "squad", "files"];
let browser;
before(async () => { browser = await launched(); });
after(() => browser.close());

async function eachScreen(page, look) {
  for (const screen of SCREENS) {
    await page.evaluate((name) => go(name), screen);
    await until(page, (name) => state.screen === name && document.querySelector("main .stop"), screen);
    if (screen === "print") await page.locator(".paper svg").first().waitFor();
    await page.evaluate(() => document.querySelectorAll("details").forEach((one) => { one.open = true; }));
    await page.waitForTimeout(50);
    await look(screen);
  }
}

test("at 400 % nothing but tables and papers is scrolled sideways, and nothing covers what has the focus", async () => {
  // 1280 x 1024 zoomed to 400 % has 320 x 256 CSS pixels: WCAG 2.2, 1.4.10 Reflow; 2.4.11 Focus Not Obscured.
  for (const language of ["en", "de"]) {
    const { page, context } = await opened(browser, { viewport: { width: 320, height: 256 } });
    await firstRace(page, { distance: "middle" });
    await page.locator("#settings select").last().selectOption(language);
    await until(page, (wanted) => document.documentElement.lang === wanted && !running && !asked, language);
    await eachScreen(page, async (screen) => {
      assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), `${screen} scrolls sideways, ${language}`);
      const cut = await page.evaluate(() => [...document.querySelectorAll("main *")].filter((one) => {
        const box = one.getBoundingClientRect();
        return box.width > 0 && box.right > innerWidth + 1 && !one.closest(".table, .paper-box, pre, svg, .unseen, .bank-card");
      }).map((one) => one.outerHTML.slice(0, 120)));
      assert.deepEqual(cut, [], `${screen}, ${language}`);
      const covered = await page.evaluate(() => getComputedStyle(document.querySelector("nav")).position === "fixed");
      assert.equal(covered, false, "a fixed bar would cover a quarter of so little room");
    });
    await context.close();
  }
});

test("with a thumb: targets are large enough, and the screens lie at the lower edge of a phone", async () => {
  // 24 x 24 CSS pixels: WCAG 2.2, 2.5.8 Target Size (Minimum), which excepts targets in a sentence or table row.
  const { page } = await opened(browser, { viewport: { width: 360, height: 740 }, hasTouch: true });
  await firstRace(page, { distance: "middle" });
  // Who has answered the three questions is led to the plan below them.
  await page.getByRole("button", { name: "See your plan" }).tap();
  await until(page, () => document.querySelector(".short").getBoundingClientRect().top < 400);
  await until(page, () => document.querySelector(".to-plan").hidden);
  await eachScreen(page, async (screen) => {
    const small = await page.evaluate(() => [...document.querySelectorAll("main a, main button, main select, main summary, main input, main [role=slider], nav a, header select")]
      .filter((one) => one.offsetParent !== null || one instanceof SVGElement).map((one) => {
        const box = (one.closest(".choices label") ?? one.closest(".check") ?? one).getBoundingClientRect();
        return { what: one.outerHTML.slice(0, 100), width: box.width, height: box.height, mark: one instanceof SVGElement };
      }).filter((one) => (!one.mark && (one.width < 24 || one.height < 24)) || (one.mark && (one.width < 5 || one.height < 17))));
    assert.deepEqual(small, [], screen);
    assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), screen);
    const here = await page.evaluate(() => { const box = document.querySelector("nav [aria-current]").getBoundingClientRect(); return [box.left, box.right, box.top]; });
    assert.ok(here[0] >= 0 && here[1] <= 360 && here[2] > 740 * 0.75, `${screen}: its own name lies at ${here}`);
  });
  // Tab: nothing that has the focus lies under the bar.
  await page.evaluate(() => go("have"));
  await page.locator("main .stop").waitFor();
  for (let i = 0; i < 60; ++i) {
    await page.keyboard.press("Tab");
    const hidden = await page.evaluate(() => {
      const one = document.activeElement, bar = document.querySelector("nav").getBoundingClientRect();
      return one.closest("main") && one.getBoundingClientRect().top >= bar.top ? one.outerHTML.slice(0, 100) : "";
    });
    assert.equal(hidden, "");
  }
});

test("who asks for less motion gets none", async () => {
  const { page } = await opened(browser, { reducedMotion: "reduce" });
  await firstRace(page);
  await eachScreen(page, async (screen) => {
    const moving = await page.evaluate(() => [...document.querySelectorAll("*")].filter((one) => {
      const style = getComputedStyle(one);
      return style.animationName !== "none" || style.transitionDuration.split(",").some((time) => parseFloat(time) > 0) || style.scrollBehavior === "smooth";
    }).map((one) => one.outerHTML.slice(0, 80)));
    assert.deepEqual(moving, [], screen);
  });
});

test("in German, what is still English says so to a screen reader", async () => {
  const { page } = await opened(browser);
  await firstRace(page, { distance: "middle" });
  await page.getByLabel("Language").selectOption("de");
  await page.getByText("Kurz gesagt").waitFor();
  // Words that only English has; they may stand in what is marked as English alone, in file names and the pantry's long names.
  const english = /\b(the|and|with|your|every|swallows?|drink|carry|never|than|given|assumed)\b/i;
  await eachScreen(page, async (screen) => {
    const unmarked = await page.evaluate((source) => {
      const found = [], walk = document.createTreeWalker(document.querySelector("main"), NodeFilter.SHOW_TEXT);
      while (walk.nextNode()) {
        const node = walk.currentNode;
        if (!new RegExp(source, "i").test(node.textContent) || node.parentElement.closest("[lang=en], .paper, .foods, option")) continue;
        found.push(node.textContent.slice(0, 120));
      }
      return found;
    }, english.source);
    assert.deepEqual(unmarked, [], screen);
  });
});

test("the licences of all that the page is made of stand at its foot, in whole texts", async () => {
  const { page, context, requests, complaints } = await opened(browser);
  assert.equal(await page.locator("#licences pre").textContent(), "");
  await page.locator("#licences > summary").click();
  await until(page, () => document.querySelector("#licences pre").textContent.length > 50000);
  const text = await page.locator("#licences pre").textContent();
  // From Debian's copyright files of the packages, and the licences that these name.
  for (const words of ["Takeshi Kanno", "Jean-loup Gailly", "Expat maintainers", "Niels Lohmann", "Victor Zverovich", "Daniel Lemire",
    "Nemanja Trifunovic", "Red Hat, Inc.", "Google Inc.", "The Emscripten Authors", "Rich Felker", "LLVM", "GNU GENERAL PUBLIC LICENSE", "Apache License"]) {
    assert.ok(text.includes(words) || text.toLowerCase().includes(words.toLowerCase()), words);
  }
  assert.deepEqual([requests, complaints], [[], []]);
  await context.close();
});
