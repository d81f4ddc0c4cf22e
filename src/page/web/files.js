"use strict";
// "Files": in and out, and what stays on this device.

const LARGEST_MB = { ".gpx": 64, other: 4 };

/** @param {File} file @param {number} megabytes */
function tooLarge(file, megabytes) {
  if (file.size <= megabytes * 1e6) return false;
  state.faults = [plainFault(t("tooLarge", { name: file.name, n: megabytes }))];
  for (const listener of listeners) listener();
  return true;
}

/** @param {string} text @returns {Fault} */
function plainFault(text) {
  return { file: "", place: "", what: text, allowed: "", nearest: "", text, said: { text, lang: speech.language } };
}

/** Takes a file by what it holds. True when it was taken; else nothing has changed. @param {File} file */
async function openFile(file) {
  const course = file.name.endsWith(".gpx");
  if (tooLarge(file, course ? LARGEST_MB[".gpx"] : LARGEST_MB.other)) return false;
  try {
    const bytes = await file.arrayBuffer();
    if (course) await openNamed(file.name, bytes);
    else await takeDocument(file.name, bytes);
    state.faults = [];
    return true;
  } catch (fault) {
    state.faults = fault instanceof Refusal ? fault.faults : [plainFault(fault instanceof Error ? fault.message : String(fault))];
    for (const listener of listeners) listener();
    return false;
  }
}

/** @param {string} name @param {ArrayBuffer} bytes */
async function openNamed(name, bytes) {
  await engine.open(name, bytes.slice(0));
  state.files.set(name, bytes);
}

/** @param {string} name @param {ArrayBuffer} bytes */
async function takeDocument(name, bytes) {
  const text = new TextDecoder("utf-8", { fatal: false }).decode(bytes);
  if (name.endsWith(".jsonl")) {
    if (complete()) await engine.ask({ want: "diary", ...question(), diary: text });
    state.diary = text;
    return;
  }
  let document;
  try {
    document = JSON.parse(text);
  } catch (fault) {
    throw new Error(`${name}: ${fault instanceof Error ? fault.message : fault}`);
  }
  if (document?.foods) {
    state.ownFoods = text;
  } else if (document?.schema === "tuck.event/1" || document?.weather) {
    await engine.ask({ want: "form", event: document, units: state.units, language: speech.language });
    state.event = document;
    state.edits = noEdits();
    if (typeof document.athlete === "string" && state.files.has(document.athlete)) await embedAthlete();
  } else if (document?.schema === "tuck.athlete/1" || document?.mass_kg) {
    state.files.set(name, bytes);
    await engine.open(name, bytes.slice(0));
    state.event.athlete = document;
    delete state.event.athlete.schema;
    delete state.event.athlete.about;
  } else {
    throw new Error(t("notKnownFile", { name }));
  }
}

/** An event that names its athlete is edited with the athlete inside. */
async function embedAthlete() {
  const bytes = state.files.get(state.event.athlete);
  if (bytes) state.event.athlete = JSON.parse(new TextDecoder().decode(bytes));
}

/** @param {any} place */
function filesScreen(place) {
  const names = el("ul", {});
  const told = el("div", { role: "status" });
  const input = el("input", { type: "file", multiple: true, onchange: async () => {
    const files = [...input.files].sort((a, b) => rank(a.name) - rank(b.name));
    for (const file of files) if (await openFile(file)) names.append(el("li", { text: `${t("opened")}: ${file.name}` }));
    if (!state.faults.length) change();
    told.replaceChildren(...(state.faults.length ? [faultBox()] : []));
  } });
  place.append(el("p", { class: "lead", text: t("filesLead") }), el("p", { class: "quiet", text: t("stays") }), field(t("openFiles"), input), names, told,
    el("div", { class: "buttons" }, ...saves()), health(), moreAboutYou(), keepPart(),
    el("div", { class: "buttons" }, button(t("startOver"), () => {
      Object.assign(state, { event: emptyEvent(), ownFoods: "", diary: "", edits: noEdits(), answer: null, kept: null, faults: [] });
      change();
      go("race");
    })), cautionsNow());
}

/** Courses and athletes first: events name them. @param {string} name */
function rank(name) {
  return name.endsWith(".gpx") ? 0 : /athlete|person/.test(name) ? 1 : 2;
}

function saves() {
  const pretty = (/** @type {any} */ document) => JSON.stringify(document, null, 2) + "\n";
  const json = "application/json";
  return [
    button(t("saveEvent"), () => hand("event.json", pretty(state.event), json), { class: "main" }),
    button(t("saveAthlete"), () => hand("athlete.json", pretty({ schema: "tuck.athlete/1", ...(state.event.athlete ?? {}) }), json)),
    button(t("saveDiary"), () => hand("diary.jsonl", state.diary, json)),
    button(t("saveFoods"), () => hand("own-foods.json", state.ownFoods, json)),
    button(t("savePlan"), async () => hand("plan.json", (await engine.bytes({ want: "plan_json", ...question() })).bytes, json)),
  ];
}

function health() {
  const rows = [["glucose_lowering_medicine", "hGlucose"], ["heart_kidney_or_blood_pressure", "hHeart"], ["pregnant_or_breastfeeding", "hPregnant"],
    ["coeliac", "hCoeliac"], ["fructose_malabsorption", "hFructose"], ["past_eating_disorder", "hEating"], ["recent_gut_illness", "hGut"]];
  return section("health", el("p", { class: "quiet", text: t("healthNote") }), ...rows.map(([key, words]) => {
    const box = el("input", { type: "checkbox", checked: state.event.athlete?.health?.[key] === true, onchange: () => {
      const athlete = (state.event.athlete ??= {});
      athlete.health = { ...(athlete.health ?? {}) };
      if (box.checked) athlete.health[key] = true;
      else delete athlete.health[key];
      if (!Object.keys(athlete.health).length) delete athlete.health;
      change();
    } });
    return el("label", { class: "check" }, box, t(words));
  }));
}

/** Every field of the athlete that has an option, by its own words. */
function moreAboutYou() {
  const skip = new Set(["--name", "--mass", "--level", "--like", "--avoid", "--allergy"]);
  const options = Object.keys(form).filter((option) => form[option].at.startsWith("/athlete/") && !skip.has(option));
  return el("details", {}, el("summary", { text: t("more") }), el("div", { class: "grid" }, options.map((option) => {
    const words = wordsOf(option);
    if (!words) return textField(option, labelOf(option), {}, exampleOf(option));
    const select = el("select", { "data-option": option, onchange: () => change({ [option]: select.value }) },
      [{ value: "", text: t("forget") }, ...words].map(({ value, text }) => el("option", { value, text, selected: value === textOf(option) })));
    return field(labelOf(option), select);
  })));
}

function keepPart() {
  const shown = el("div", {});
  const draw = () => {
    const rows = keptHere();
    shown.replaceChildren(el("h3", { text: t("keptHere") }), rows.length
      ? el("div", {}, el("ul", {}, rows.map(([key, text]) => el("li", {}, el("details", {}, el("summary", { text: `${key} (${t("letters", { n: text.length })})` }), el("pre", { text }))))),
        button(t("deleteAll"), () => { forgetAll(); endSession(); box.checked = false; draw(); })) : el("p", { class: "quiet", text: t("nothingKept") }));
  };
  const box = el("input", { type: "checkbox", checked: state.keeps, onchange: () => {
    state.keeps = box.checked;
    if (state.keeps) keepHere();
    else forgetAll();
    box.checked = state.keeps;
    draw();
  } });
  draw();
  return section("keepHere", el("label", { class: "check" }, box, t("keepHere")), el("p", { class: "quiet", text: t("keepNote") }), shown);
}
