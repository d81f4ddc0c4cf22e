"use strict";
// "After training": weigh in and out, how it felt, what it teaches, and the build-up in the calendar.

/** @param {any} place */
function afterScreen(place) {
  place.append(section("sweatTest", ...sweatTestPart()), section("howFelt", rehearsalPart()), section("diary", diaryPart()),
    section("buildUp", seriesPart()), cautionsNow());
}

/** STOP and cautions, wherever a plan or a session is spoken of. */
function cautionsNow() {
  return drawn((answer) => [stopLine(answer), cautions(answer)]);
}

const today = () => {
  const now = new Date();
  return `${now.getFullYear()}-${String(now.getMonth() + 1).padStart(2, "0")}-${String(now.getDate()).padStart(2, "0")}`;
};

/**
 * Fields of an entry: option, words, unit in which a bare number is meant.
 * @param {[string, string, string][]} rows
 */
function entryInputs(rows) {
  /** @type {Record<string, any>} */
  const inputs = Object.fromEntries(rows.map(([option]) => [option, el("input", { inputmode: "decimal", autocomplete: "off", class: "short" })]));
  const fields = rows.map(([option, words, unit]) => field(t(words), inputs[option], "", unit));
  const texts = () => Object.fromEntries(rows.map(([option, , unit]) => {
    const text = inputs[option].value.trim().replace(",", ".");
    return [option, /^[-\d.]+$/.test(text) ? text + unit : text];
  }));
  return { fields, texts };
}

/** @returns {[string, string, string][]} */
function sweatRows() {
  const metric = state.units === "metric";
  return [["--before", "weighBefore", metric ? "kg" : "lb"], ["--after", "weighAfter", metric ? "kg" : "lb"], ["--drank", "drank", metric ? "ml" : "floz"],
    ["--urine", "urine", metric ? "ml" : "floz"], ["--minutes", "minutes", ""], ["--temperature", "air", metric ? "C" : "F"]];
}

function sweatTestPart() {
  const { fields, texts } = entryInputs(sweatRows());
  const sport = el("select", {}, ["bike", "run", "swim"].map((value) => el("option", { value, text: t(value) })));
  const day = el("input", { type: "date", value: today() });
  const told = el("div", { role: "status" });
  const judge = async () => {
    try {
      const result = await engine.ask({ want: "sweat_test", kind: "sweat_test", date: day.value, texts: { ...texts(), "--sport": sport.value },
        athlete: state.event.athlete ?? {}, diary: state.diary, units: state.units, language: speech.language });
      told.replaceChildren(...sweatResult(result, told));
    } catch (fault) {
      told.replaceChildren(faultsOf(fault));
    }
  };
  return [el("p", { class: "quiet", text: t("sweatTestNote") }), el("div", { class: "grid" }, fields, field(t("sport"), sport), field(t("date"), day)),
    el("div", { class: "buttons" }, button(t("judge"), () => void judge(), { class: "main" })), told,
    el("details", {}, el("summary", { text: t("noScales") }), sentences(known.without_scales))];
}

/** @param {Json} result @param {any} told */
function sweatResult(result, told) {
  const keep = button(t("intoDiary"), () => {
    state.diary = result.diary;
    change();
    told.append(el("p", { text: t("inDiary") }));
    keep.remove();
  });
  return [el("p", { class: "lead", text: `${t("yourSweat")} ${result.sweat}, ${t("giveOrTake")} ${result.error}.` }),
    table(t("onRaceDay"), [t("air"), t("sweat"), t("drinkUpTo")], result.days.map((/** @type {Json} */ day) => [day.air, day.sweat, day.up_to])),
    warningList(result.warnings), sentences(result.advice), el("details", {}, el("summary", { text: t("why") }),
      el("ul", {}, result.because.map((/** @type {Json} */ one) => el("li", {}, el("span", said(one)), " ", el("cite", said(one.source))))),
      sentences(result.assumptions)), keep];
}

/** A slider with its number beside its name. @param {string} label @param {any} input */
function marked(label, input) {
  const output = el("output", { text: input.value });
  input.addEventListener("input", () => { output.textContent = input.value; });
  const box = field(label, input);
  box.classList.add("slider");
  box.querySelector("label").append(" ", output);
  return box;
}

function rehearsalPart() {
  const metric = state.units === "metric";
  const { fields, texts } = entryInputs([["--bike", "bikeMinutes", "min"], ["--bike-carb", "bikeCarbs", "g"], ["--bike-fluid", "bikeDrink", metric ? "ml" : "floz"],
    ["--run", "runMinutes", "min"], ["--run-carb", "runCarbs", "g"], ["--temperature", "air", metric ? "C" : "F"]]);
  const [worst, onRun] = [0, 0].map((value) => el("input", { type: "range", min: 0, max: 10, value }));
  const day = el("input", { type: "date", value: today() });
  const told = el("div", { role: "status" });
  const keep = async () => {
    try {
      const made = await engine.ask({ want: "rehearsal_entry", kind: "rehearsal", date: day.value, diary: state.diary, language: speech.language,
        texts: { ...texts(), "--bike-gut": `nausea=${worst.value}`, ...(texts()["--run"] ? { "--run-gut": `nausea=${onRun.value}` } : {}) } });
      state.diary = made.diary;
      change();
      told.replaceChildren(el("p", { text: t("inDiary") }));
    } catch (fault) {
      told.replaceChildren(faultsOf(fault));
    }
  };
  return el("div", {}, el("div", { class: "grid" }, fields, marked(t("worst"), worst), marked(t("worstOnRun"), onRun), field(t("date"), day)),
    el("div", { class: "buttons" }, button(t("intoDiary"), () => void keep())), told);
}

function diaryPart() {
  const place = el("div", {});
  const draw = async () => {
    if (!place.isConnected) return void listeners.delete(draw);
    if (!state.diary) return place.replaceChildren(el("p", { class: "quiet", text: t("diaryEmpty") }));
    if (!complete()) return place.replaceChildren(needRace());
    try {
      place.replaceChildren(...diaryParts(await engine.ask({ want: "diary", ...question() })));
    } catch (fault) {
      place.replaceChildren(faultsOf(fault));
    }
  };
  listeners.add(draw);
  queueMicrotask(() => void draw());
  return place;
}

/** @param {Json} told @returns {any[]} */
function diaryParts(told) {
  const lines = told.lines.map((/** @type {Json} */ line) => [String(line.id), line.date, el("span", said(line)), line.note]);
  return [table(t("diaryLines"), [t("line"), t("day"), t("what"), t("note")], lines), sentences(told.notes), warningList(told.warnings),
    el("h3", { text: t("known") }), sentences(told.known), el("h3", { text: t("nextTest") }), sentences(told.next)];
}

function seriesPart() {
  const weeks = el("input", { type: "range", min: 2, max: 16, value: 6 });
  const told = el("div", { role: "status" });
  const make = async () => {
    if (!complete()) return told.replaceChildren(needRace());
    if (!state.event.date) return told.replaceChildren(el("p", { text: t("needDate") }));
    try {
      const made = await engine.ask({ want: "rehearsal", ...question(), weeks: Number(weeks.value) });
      told.replaceChildren(
        warningList(made.warnings),
        made.days ? table(t("buildUp"), [t("day"), t("what")], made.days.map((/** @type {Json} */ day) => [day.date, el("span", said(day))])) : "",
        sentences(made.series_notes ?? []),
        made.ical ? button(t("calendar"), () => hand("rehearsals.ics", made.ical, "text/calendar")) : "");
    } catch (fault) {
      told.replaceChildren(faultsOf(fault));
    }
  };
  return el("div", {}, marked(t("weeks"), weeks), el("div", { class: "buttons" }, button(t("makeSeries"), () => void make())), told);
}
