"use strict";
// "Your race": three answers, and the plan in three sentences.

/** @param {any} place */
function raceScreen(place) {
  const answer = answerPlace();
  place.append(el("p", { class: "lead", text: t("lead") }), el("p", { class: "quiet", text: t("stays") }),
    el("div", { class: "sides" },
      el("form", { class: "ask", onsubmit: (/** @type {Event} */ e) => e.preventDefault() },
        distances(), weight(), warmth(), experience(), forTheCard(), toPlan(answer)),
      answer));
}

/** On a phone the plan lies below the questions: who has answered is led to it. @param {any} answer */
function toPlan(answer) {
  const lead = button(t("seePlan"), () => answer.scrollIntoView(), { class: "main to-plan", hidden: true });
  let seen = false;
  const show = () => { lead.hidden = seen || !state.answer; };
  new IntersectionObserver(([place]) => { seen = place.isIntersecting || place.boundingClientRect.top < 0; show(); }, { rootMargin: "0px 0px -120px 0px" }).observe(answer);
  listeners.add(show);
  return lead;
}

/** @param {Json} preset */
function presetWords(preset) {
  return preset.legs.map((/** @type {Json} */ leg) => leg[state.units]).join(" · ");
}

function distances() {
  const choices = known.presets.map((/** @type {Json} */ preset) => ({
    value: preset.name, text: t(preset.name), detail: presetWords(preset) }));
  const take = (/** @type {string} */ name) => {
    delete state.event.legs;
    delete state.event.course;
    state.event.distance = name;
    change();
  };
  const triathlon = choices.filter((/** @type {Json} */ c) => !/athlon/.test(c.value));
  const others = choices.filter((/** @type {Json} */ c) => /athlon/.test(c.value));
  return el("div", {}, choice(t("howFar"), triathlon, state.event.distance, take, "rows"),
    el("details", { open: others.some((/** @type {Json} */ c) => c.value === state.event.distance) },
      el("summary", { text: t("moreKinds") }), choice(t("moreKinds"), others, state.event.distance, take, "rows")));
}

/**
 * A field of the form as text.
 * @param {string} option @param {string} label @param {Record<string, any>} [more] @param {string} [help]
 */
function textField(option, label, more = {}, help = "") {
  const shown = more.type ? textOf(option) : form[option]?.number ?? textOf(option);
  const input = el("input", { autocomplete: "off", ...more, value: shown, "data-option": option,
    onchange: () => change({ [option]: withUnit(option, input.value) }) });
  return field(label, input, help, form[option]?.unit ?? "");
}

function weight() {
  return textField("--mass", t("weight"), { inputmode: "decimal", class: "short" });
}

/**
 * A slider that says its value; rough while it moves, whole when it rests.
 * @param {string} option @param {string} label @param {{start: number, none?: string}} more
 */
function slider(option, label, more) {
  const { low = 0, high = 100, step = 1, unit = "", number } = form[option] ?? {};
  const says = (/** @type {number | undefined} */ value) => value === undefined ? more.none ?? `${more.start} ${unit}` : `${value} ${unit}`;
  const output = el("output", { text: says(number) });
  const input = el("input", { type: "range", min: low, max: high, step, value: number ?? more.start, "data-option": option });
  input.setAttribute("aria-valuetext", says(number));
  const take = (/** @type {boolean} */ hasty) => () => {
    output.textContent = says(Number(input.value));
    input.setAttribute("aria-valuetext", says(Number(input.value)));
    change({ [option]: `${input.value}${unit}` }, hasty);
  };
  input.addEventListener("input", take(true));
  input.addEventListener("change", take(false));
  input.addEventListener("click", () => number === undefined && take(false)());
  const box = field(label, input);
  box.classList.add("slider");
  box.querySelector("label").append(" ", output);
  if (more.none && number !== undefined && option !== "--temperature")
    box.append(button(more.none, () => { whenAnswered(show); change({ [option]: "" }); }, { class: "small" }));
  return box;
}

function warmth() {
  const suns = [["none", "sunNone"], ["hazy", "sunHazy"], ["half", "sunHalf"], ["full", "sunFull"]];
  return el("div", { class: "pair" },
    slider("--temperature", t("warm"), { start: state.units === "metric" ? 20 : 68, none: t("notSaid") }),
    choice(t("sun"), suns.map(([value, key]) => ({ value, text: t(key) })), textOf("--sun"), (value) => change({ "--sun": value })));
}

function experience() {
  const levels = [["beginner", "beforeNo"], ["steady", "beforeOnce"], ["keen", "beforeOften"], ["fast", "beforeWin"]];
  return choice(t("before"), levels.map(([value, key]) => ({ value, text: t(key) })), textOf("--level"),
    (value) => change({ "--level": value }));
}

function forTheCard() {
  return el("details", {}, el("summary", { text: t("forCard") }), el("div", { class: "grid" },
    textField("--event-name", t("raceName")), textField("--name", t("yourName")),
    textField("--date", t("day"), { type: "date" }), textField("--start", t("start"), { type: "time" })));
}

/** Where every screen shows its plan; filled anew with each answer. */
function answerPlace() {
  const place = el("div", { class: "answer", "aria-live": "off" });
  const show = () => {
    if (!place.isConnected) return void listeners.delete(show);
    const focus = /** @type {any} */ (document.activeElement)?.dataset?.key;
    place.replaceChildren(...(state.faults.length ? [faultBox()] : []), ...(state.answer ? answerParts(state.answer).filter((part) => part !== null) : []));
    if (focus) place.querySelector(`[data-key="${CSS.escape(focus)}"]`)?.focus();
  };
  listeners.add(show);
  queueMicrotask(show);
  return place;
}

function faultBox() {
  return el("div", { class: "faults", role: "alert" }, el("h2", { text: t("fault") }),
    faultList(state.faults));
}

/** @param {Json} answer */
function answerParts(answer) {
  const { plan, shown } = answer;
  return [
    ...(plan.refused ? warnings(answer) : []),
    inShort(shown),
    stopLine(answer),
    ...(plan.refused ? [] : warnings(answer)),
    section("theDay", dayLine(shown), dayTable(shown)),
    hours(shown),
    ...sure(answer),
    guesses(shown),
    cautions(answer),
  ];
}

/** @param {Json} shown */
function inShort(shown) {
  if (!shown.short.length) return null;
  return section("inShort", el("div", { class: "short" }, shown.short.map((/** @type {string} */ text) => el("p", { text }))));
}

/** @param {Json} answer */
function stopLine({ shown }) {
  return shown.stop.text ? el("p", { class: "stop", ...said(shown.stop) }) : null;
}

/** @param {Json} answer */
function warnings({ plan, shown }) {
  const worst = shown.warnings.filter((/** @type {Json} */ w) => w.severity !== "note");
  const notes = shown.warnings.filter((/** @type {Json} */ w) => w.severity === "note");
  if (!worst.length && !notes.length && !plan.refused) return [];
  return [section(plan.refused ? "refused" : "takeCare",
    warningList(worst),
    notes.length ? el("details", {}, el("summary", { text: t("moreNotes", { n: notes.length }) }), sentences(notes)) : null)];
}

/** A number that tells why. @param {string} text @param {string} pointer */
function number(text, pointer) {
  return button(text, () => void askWhy(pointer), { class: "number", "data-key": pointer, title: t("why") });
}

/** @param {Json} shown */
function hours(shown) {
  const heads = [t("leg"), t("carbs"), t("drinkUpTo"), t("sodium"), t("sweat"), t("likely"), t("range")];
  const cell = (/** @type {Json | undefined} */ value) => value ? number(value.text, value.why) : "";
  const rows = shown.legs.map((/** @type {Json} */ leg) => [
    `${leg.name} ${leg.distance}`.trim(), ...["carb_g_per_h", "fluid_ml_per_h", "sodium_mg_per_h"].map((key) => leg.fed ? cell(leg[key]) : "–"),
    cell(leg.sweat_ml_per_h), number(leg.likely, leg.why), `${leg.fast} – ${leg.slow}`]);
  rows.push([t("total"), ...["carb", "fluid", "sodium", "sweat"].map((key) => number(shown.totals[key], shown.totals.why)),
    number(shown.total.likely, shown.total.why), `${shown.total.fast} – ${shown.total.slow}`]);
  return el("div", {}, table(t("legByLeg"), heads, rows, "numbers"), el("p", { class: "quiet", text: t("drinkNote") }),
    shown.unmet.length ? el("details", {}, el("summary", { text: t("notReached") }), sentences(shown.unmet)) : null);
}

/** @param {Json} answer */
function sure({ shown }) {
  if (!shown.sure.text) return [];
  return [section("howSure", el("p", said(shown.sure)),
    el("h3", { text: t("tellsMost") }),
    el("ol", {}, shown.tells_most.map((/** @type {Json} */ one) => el("li", { text: `${one.text}, ${one.share}` }))))];
}

/** @param {Json} shown */
function guesses(shown) {
  if (!shown.guesses.length) return null;
  return section("guessed", el("p", { class: "quiet", text: t("guessedNote") }),
    el("ul", { class: "chips" }, shown.guesses.map((/** @type {Json} */ guess) => el("li", {}, guess.option
      ? button(guess.text, () => sayIt(guess.option, guess.text), { class: "chip", "data-key": guess.text, lang: foreign(guess) })
      : el("span", said(guess))))));
}

/** @param {Json} answer */
function cautions({ shown }) {
  return section("always", sentences(shown.cautions, "quiet-list"));
}

/** Leads to where a guess can be replaced. @param {string} option @param {string} text */
function sayIt(option, text) {
  if (option === "stations" || option === "kit" || option === "--bottles") return go("have");
  const place = document.querySelector(`main [data-option="${CSS.escape(option)}"]`);
  if (place instanceof HTMLElement) return place.focus();
  const input = el("input", { value: textOf(option), autocomplete: "off" });
  const words = wordsOf(option);
  const answerIt = (/** @type {string} */ value) => { dialog.close(); change({ [option]: value }); };
  const dialog = openDialog(t("say"), el("p", { text }),
    words ? choice(labelOf(option), words, textOf(option), answerIt)
      : el("form", { method: "dialog", onsubmit: () => change({ [option]: withUnit(option, input.value) }) },
        field(labelOf(option), input, exampleOf(option), form[option]?.unit ?? ""), el("button", { text: t("take") })));
}

/** What a field may say, where that is one of few words. @param {string} option */
function wordsOf(option) {
  const { help = "", kind = "" } = form[option] ?? {};
  const found = /: ([a-z]+(?:, [a-z ]+)+)$/.exec(kind === "WORD" || kind === "WORDS" ? help : "");
  return found?.[1].split(", ").map((value) => ({ value, text: t("word " + value) }));
}

/** "178cm, 1.78m": how it is typed, the same in every language. @param {string} option */
function exampleOf(option) {
  return (form[option]?.help ?? "").split(": ").slice(1).join(": ");
}

/** @param {string} pointer */
async function askWhy(pointer) {
  const { chain } = await engine.ask({ want: "why", ...question(), number: pointer });
  openDialog(t("why"), chain.map((/** @type {Json} */ link) => el("section", { class: "link", lang: speech.language === "en" ? undefined : "en" },
    el("h3", {}, link.depth ? el("small", { text: t("whyFrom") + " " }) : null,
      el("span", { lang: speech.language, text: numberName(link) }), link.value ? `: ${link.value}` : ""),
    el("ul", {}, link.because.map((/** @type {Json} */ reason) => el("li", {}, reason.text + " ", el("cite", { text: reason.source })))))),
    speech.language === "en" ? null : el("p", { class: "quiet", text: t("reasonsEnglish") }),
    el("p", { class: "quiet", text: `${t("typed")}: ${whatWasTyped()}` }));
}

/** Where every chain ends. */
function whatWasTyped() {
  return Object.keys(form).filter((option) => textOf(option)).map((option) => `${labelOf(option)} ${textOf(option)}`).join(" · ");
}

/** What a number of the plan is called: fluid_ml_per_h of needs is drink on the bike. @param {Json} link */
function numberName({ leg, part, field }) {
  const words = t("of " + (STRINGS["of " + field] ? field : part));
  return leg ? `${leg}: ${words}` : words;
}

/** @param {string} title @param {...(Child | Child[])} children */
function openDialog(title, ...children) {
  const id = newId("d");
  const dialog = el("dialog", { "aria-labelledby": id, onclose: () => dialog.remove() },
    el("header", {}, el("h2", { id, text: title }), button(t("close"), () => dialog.close())), children.flat());
  document.body.append(dialog);
  dialog.showModal();
  return dialog;
}
