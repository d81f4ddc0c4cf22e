"use strict";
// The frame: screens, units, language, and the first start.

/** @type {Record<string, (place: any) => void>} */
const SCREENS = {
  race: raceScreen, have: haveScreen, otherwise: otherwiseScreen, print: printScreen,
  after: afterScreen, live: liveScreen, squad: squadScreen, files: filesScreen,
};

/** @param {string} screen */
function go(screen) {
  location.hash = screen;
}

/** At the foot: whose work the page is made of; the texts are unpacked when somebody opens them. */
function frameLicences() {
  const place = /** @type {HTMLDetailsElement} */ (document.getElementById("licences"));
  const summary = /** @type {HTMLElement} */ (place.querySelector("summary"));
  const text = /** @type {HTMLElement} */ (place.querySelector("pre"));
  summary.textContent = t("licences");
  place.ontoggle = async () => {
    if (place.open && !text.textContent) text.textContent = new TextDecoder().decode(await part("licences"));
  };
}

function frame() {
  document.documentElement.lang = speech.language;
  document.title = t("title");
  const skip = /** @type {HTMLElement} */ (document.querySelector(".skip"));
  skip.textContent = t("skip");
  const units = el("select", { "aria-label": t("units"), onchange: () => { state.units = units.value; whenAnswered(show); change(); } },
    ["metric", "imperial"].map((value) => el("option", { value, text: t(value), selected: value === state.units })));
  const language = el("select", { "aria-label": t("language"), onchange: () => { speech.language = language.value; void start().then(() => { whenAnswered(show); frame(); change(); }); } },
    [["en", "English"], ["de", "Deutsch"]].map(([value, text]) => el("option", { value, text, lang: value, selected: value === speech.language })));
  document.getElementById("settings")?.replaceChildren(units, language);
  frameLicences();
  const nav = /** @type {HTMLElement} */ (document.getElementById("screens"));
  nav.setAttribute("aria-label", t("screens"));
  nav.replaceChildren(el("ul", {}, Object.keys(SCREENS).map((name) =>
    el("li", {}, el("a", { href: "#" + name, text: t(name), "aria-current": name === state.screen && "page" })))));
  const here = /** @type {HTMLElement | null} */ (nav.querySelector("[aria-current]"));
  if (here && nav.firstElementChild) nav.firstElementChild.scrollLeft = here.offsetLeft - 16;
}

function show() {
  const place = /** @type {HTMLElement} */ (document.getElementById("content"));
  listeners.clear();
  place.replaceChildren(el("h1", { class: "unseen", text: t(state.screen) }));
  SCREENS[state.screen](place);
}

function turn() {
  const wanted = location.hash.slice(1);
  if (wanted === "content") return;
  const moved = wanted && wanted !== state.screen;
  if (SCREENS[wanted]) state.screen = wanted;
  frame();
  show();
  if (moved) {
    window.scrollTo(0, 0);
    document.getElementById("content")?.focus({ preventScroll: true });
  }
}

/** What the engine knows before anything is typed, in the reader's language. */
async function start() {
  known = await engine.ask({ want: "start", language: speech.language });
}

async function begin() {
  engine = new Engine(); // first: all else goes on beside it
  restore();
  frame();
  const loading = document.getElementById("loading");
  if (loading) loading.textContent = t("loading");
  try {
    await engine.ready;
    const begun = start();
    await step({}, true, 200); // an answer at once, from code that is not warm yet; the whole one follows
    await begun;
  } catch (fault) {
    if (loading) loading.textContent = fault instanceof Refusal ? fault.message : `${t("noEngine")} (${fault})`;
    return;
  }
  window.addEventListener("hashchange", turn);
  turn();
  if (complete()) change();
  performance.mark("ready");
  if ("serviceWorker" in navigator && document.querySelector("link[rel=manifest]")) void navigator.serviceWorker.register("offline.js");
}

void begin();
