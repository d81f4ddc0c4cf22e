"use strict";
// "Print": the card at its true size, and the papers.

const paperWish = { size: "strip", paper: "a4", scale: 1 };

/** @param {any} place */
function printScreen(place) {
  if (!complete()) return void place.append(needRace());
  const box = el("div", { class: "papers" });
  place.append(box);
  const sizes = el("div", {});
  const papers = el("div", { class: "paper-box", tabindex: "0", role: "region", "aria-label": t("trueSize") });
  const told = el("div", { role: "status" });
  const draw = async () => {
    if (!box.isConnected) return void listeners.delete(draw);
    told.replaceChildren(...(state.faults.length ? [faultBox()] : []));
    try {
      await drawPapers(papers);
      sizes.replaceChildren(await sizeChoice(() => void draw()));
    } catch (fault) {
      papers.replaceChildren();
      told.replaceChildren(faultsOf(fault));
    }
  };
  listeners.add(draw);
  box.append(sizes, choice(t("paper"), [{ value: "a4", text: "A4" }, { value: "letter", text: "Letter" }], paperWish.paper,
    (value) => { paperWish.paper = value; void draw(); }),
  el("div", { class: "buttons" },
    button(t("cardPdf"), () => void paper("card", told), { class: "main" }), button(t("sheetPdf"), () => void paper("sheet", told)),
    button(t("browserPrint"), () => window.print())),
  el("p", { class: "quiet", text: t("printNote") }), told, screenScale(papers), papers,
  drawn((answer) => [answer.card ? section("cardInWords", cardWords(answer.card)) : null, ...warnings(answer), stopLine(answer), cautions(answer)]));
  void draw();
}

/** @param {() => void} draw */
async function sizeChoice(draw) {
  const counted = [];
  for (const card of known.cards) {
    let sides = "–";
    try {
      const { sides: n } = await engine.ask({ want: "card_sides", ...question(), size: card.name, paper: paperWish.paper });
      sides = n === 1 ? t("oneSide") : t("sides", { n });
    } catch { /* this card does not hold this plan */ }
    counted.push({ value: card.name, text: card.name, detail: `${card.width_mm} × ${card.height_mm} mm, ${sides}` });
  }
  return choice(t("cardSize"), counted, paperWish.size, (value) => { paperWish.size = value; draw(); });
}

/** @param {any} place */
async function drawPapers(place) {
  const { pages } = await engine.ask({ want: "card_sides", ...question(), size: paperWish.size, paper: paperWish.paper });
  place.replaceChildren(...pages.map((/** @type {Json} */ page) => {
    const drawing = document.importNode(new DOMParser().parseFromString(page.svg, "image/svg+xml").documentElement, true);
    const sheet = el("div", { class: "paper" }, drawing);
    for (const part of [sheet, drawing]) {
      part.style.width = `${page.width_mm}mm`;
      part.style.height = `${page.height_mm}mm`;
    }
    return sheet;
  }));
  scaleTo(place);
  place.scrollLeft = (place.scrollWidth - place.clientWidth) / 2; // the card stands in the middle of its sheet
}

/** A bank card is 85.60 x 53.98 mm: ISO/IEC 7810, ID-1. @param {any} papers */
function screenScale(papers) {
  const frame = el("div", { class: "bank-card", text: "85.6 × 54 mm" });
  const input = el("input", { type: "range", min: 0.6, max: 1.8, step: 0.01, value: paperWish.scale });
  const show = () => {
    paperWish.scale = Number(input.value);
    frame.style.width = `${85.6 * paperWish.scale}mm`;
    frame.style.height = `${53.98 * paperWish.scale}mm`;
    scaleTo(papers);
  };
  input.addEventListener("input", show);
  queueMicrotask(show);
  return el("details", { class: "sideways" }, el("summary", { text: t("trueSize") }), field(t("screenScale"), input, t("trueSizeHelp")), frame);
}

/** Screens differ, paper does not: the scale ends where printing begins. @param {any} place */
function scaleTo(place) {
  for (const sheet of place.children) sheet.style.zoom = window.matchMedia("print").matches ? "1" : String(paperWish.scale);
}
window.addEventListener("beforeprint", () => document.querySelectorAll(".paper").forEach((sheet) => { /** @type {any} */ (sheet).style.zoom = "1"; }));
window.addEventListener("afterprint", () => document.querySelectorAll(".paper-box").forEach(scaleTo));

/** @param {"card" | "sheet"} want @param {any} told */
async function paper(want, told) {
  told.textContent = t("working");
  try {
    const { bytes } = await engine.bytes({ want, ...question(), size: paperWish.size, paper: paperWish.paper });
    hand(`${want}.pdf`, bytes, "application/pdf");
    told.textContent = t("saved", { name: `${want}.pdf` });
  } catch (fault) {
    told.replaceChildren(faultsOf(fault));
  }
}

/** @param {Json} card */
function cardWords(card) {
  return el("div", { lang: speech.language === "en" ? undefined : "en" }, speech.language === "en" ? null : el("p", { class: "quiet", lang: speech.language, text: t("papersEnglish") }), card.headline ? el("p", { class: "lead", text: card.headline }) : null, card.detail ? el("p", { text: card.detail }) : null,
    card.sections.map((/** @type {Json} */ part) => el("div", {}, el("h3", { text: part.heading }),
      list([...part.before, ...part.rows.map((/** @type {Json} */ row) => [row.when, row.window, row.what, row.from].filter(Boolean).join(" · ")), ...part.after]))),
    el("dl", {}, card.if_then.map((/** @type {Json} */ line) => [el("dt", { text: line.when }), el("dd", { text: line.text })]).flat()));
}
