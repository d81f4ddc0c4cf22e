"use strict";
// "My athletes": a table as it is, each column with a guess to correct, risks on top, cards for all or for what changed.

/** @type {{table: Json | null, athletes: Json[], before: Map<string, string>, stop: boolean}} */
const squad = { table: null, athletes: [], before: new Map(), stop: false };

const CHUNK = 4; // rows that a worker takes at once

/** @param {any} place */
function squadScreen(place) {
  place.append(el("p", { class: "lead", text: t("squadLead") }));
  if (!state.event.distance && !state.event.legs || state.event.weather?.temperature_c === undefined) place.append(needRace());
  const input = el("textarea", { spellcheck: "false", "aria-label": t("table") });
  const result = el("div", {});
  const read = async () => {
    try {
      squad.table = await engine.ask({ want: "table", text: input.value, language: speech.language });
      squad.athletes = [];
      result.replaceChildren(...squadParts(result));
    } catch (fault) {
      result.replaceChildren(faultsOf(fault));
    }
  };
  const file = el("input", { type: "file", accept: ".csv,.txt,.tsv", onchange: () => void load(file.files[0]) });
  const load = async (/** @type {File | undefined} */ one) => {
    if (!one || tooLarge(one, 4)) return;
    input.value = await one.text();
    await read();
  };
  input.addEventListener("dragover", (/** @type {DragEvent} */ event) => event.preventDefault());
  input.addEventListener("drop", (/** @type {DragEvent} */ event) => {
    if (!event.dataTransfer?.files.length) return;
    event.preventDefault();
    void load(event.dataTransfer.files[0]);
  });
  input.addEventListener("paste", () => setTimeout(() => void read()));
  place.append(field(t("table"), input), el("div", { class: "grid" }, field(t("chooseTable"), file)),
    el("div", { class: "buttons" }, button(t("readTable"), () => void read(), { class: "main" })), result, cautionsNow());
  if (squad.table) result.replaceChildren(...squadParts(result));
}

/** @param {any} result */
function squadParts(result) {
  const { table: read } = squad;
  if (!read) return [];
  const columns = el("div", { class: "grid" }, read.heads.map((/** @type {string} */ head, /** @type {number} */ i) => {
    const select = el("select", { onchange: () => { read.guesses[i] = select.value; } },
      el("option", { value: "", text: t("ignore") }), read.columns.map((/** @type {string} */ name) =>
        el("option", { value: name, text: name, selected: name === read.guesses[i] })));
    return field(`${head}: ${read.rows.slice(0, 2).map((/** @type {string[]} */ row) => row[i]).join(", ")}`, select);
  }));
  const bar = el("progress", { max: read.rows.length, value: 0, "aria-label": t("planAll") });
  const told = el("p", { role: "status" });
  const out = el("div", {});
  const run = button(t("planAll"), () => void planAll(bar, told, out), { class: "main" });
  return [section("columnsMean", columns), sentences(read.problems),
    el("div", { class: "buttons" }, run, button(t("cancel"), () => { squad.stop = true; })), bar, told, out];
}

/** @param {any} bar @param {any} told @param {any} out */
async function planAll(bar, told, out) {
  const read = /** @type {Json} */ (squad.table);
  const rows = read.rows, total = rows.length;
  squad.stop = false;
  squad.athletes = new Array(total);
  const engines = Array.from({ length: Math.min(navigator.hardwareConcurrency || 2, 8, Math.ceil(total / CHUNK)) }, () => new Engine());
  let next = 0, done = 0;
  const started = performance.now();
  const take = async (/** @type {Engine} */ one) => {
    await one.ready;
    for (const [name, text] of state.files) await one.open(name, text.slice(0));
    while (next < total && !squad.stop) {
      const from = next;
      next += CHUNK;
      const part = rows.slice(from, from + CHUNK);
      const { athletes } = await one.ask({ want: "squad", ...question(), columns: read.guesses, rows: part });
      athletes.forEach((/** @type {Json} */ athlete, /** @type {number} */ i) => { squad.athletes[from + i] = { row: from + i, ...athlete }; });
      done += part.length;
      bar.value = done;
      told.textContent = t("done", { a: done, b: total });
    }
  };
  try {
    await Promise.all(engines.map(take));
    performance.measure("squad", { start: started });
    out.replaceChildren(...squadResult());
  } catch (fault) {
    out.replaceChildren(faultsOf(fault));
  } finally {
    for (const one of engines) one.stop();
  }
}

/** @param {Json} a @param {Json} b */
function riskier(a, b) {
  for (let i = 0; i < a.order.length; ++i) if (a.order[i] !== b.order[i]) return b.order[i] - a.order[i];
  return a.row - b.row;
}

function squadResult() {
  const read = /** @type {Json} */ (squad.table);
  const planned = squad.athletes.filter((one) => one && !one.odd).sort(riskier);
  const odd = squad.athletes.filter((one) => one?.odd);
  const key = (/** @type {Json} */ one) => one.bib || one.name || String(one.row);
  const changed = planned.filter((one) => one.card && squad.before.get(key(one)) !== one.card);
  const cards = async (/** @type {Json[]} */ some, /** @type {string} */ name) => {
    const inOrder = some.filter((one) => one.card).sort((a, b) => a.row - b.row);
    const { bytes } = await engine.bytes({ want: "squad_cards", ...question(), columns: read.guesses,
      rows: inOrder.map((one) => read.rows[one.row]), size: paperWish.size, paper: paperWish.paper });
    hand(name, bytes, "application/pdf");
    for (const one of inOrder) squad.before.set(key(one), one.card);
  };
  return [odd.length ? section("odd", table(t("correct"), [t("row"), t("what"), t("correct")], odd.map(oddRow))) : "",
    section("risks", table(t("squad"), [t("athlete"), t("bib"), t("risks"), t("overDrinking"), t("missing"), t("time"), t("carbs")],
      planned.map((one) => [one.name || `${t("row")} ${one.row + 2}`, one.bib, el("span", { class: one.refused ? "odd" : "", ...said(one.risk) }, one.risk.text ? "" : "–"), one.over_drinking_days_in_100, el("span", said(one.missing)), one.likely_time, one.carb_g + " g"]))),
    el("div", { class: "buttons" }, button(t("allCards"), () => void cards(planned, "cards.pdf"), { class: "main" }),
      button(t("changedCards", { n: changed.length }), () => void cards(changed, "changed.pdf"), { disabled: !changed.length }))];
}

/** The odd cell in its place, to be put right there. @param {Json} one */
function oddRow(one) {
  const read = /** @type {Json} */ (squad.table);
  const inputs = one.odd.map((/** @type {Json} */ fault) => {
    const i = read.guesses.indexOf(fault.column);
    if (i < 0) return el("p", said(fault));
    return el("input", { class: "odd", value: read.rows[one.row][i] ?? "", "aria-label": `${t("row")} ${one.row + 2}, ${read.heads[i]}`,
      onchange: (/** @type {any} */ event) => { read.rows[one.row][i] = event.target.value; } });
  });
  return [String(one.row + 2), el("ul", {}, one.odd.map((/** @type {Json} */ fault) => el("li", {}, fault.column ? fault.column + ": " : null, el("span", said(fault))))), inputs];
}
