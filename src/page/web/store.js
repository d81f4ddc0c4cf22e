"use strict";
// What the page knows: documents as the command line reads them, and the last answer. Nothing else is kept.

/**
 * @typedef {object} State
 * @property {Json} event the event document, with its athlete
 * @property {string} ownFoods a file of own foods, or nothing
 * @property {string} diary JSON Lines, or nothing
 * @property {{without: string[], pins: string[], bike_rhythm: string, swim: string}} edits
 * @property {Map<string, ArrayBuffer>} files courses and athletes that documents name
 * @property {"metric" | "imperial"} units
 * @property {string} screen
 * @property {Json | null} answer
 * @property {Fault[]} faults of the last question
 * @property {Json | null} kept a plan laid beside
 * @property {boolean} keeps on this device
 */

const emptyEvent = () => ({ schema: "tuck.event/1" });
const noEdits = () => ({ without: [], pins: [], bike_rhythm: "", swim: "" });

/** @type {State} */
const state = {
  event: emptyEvent(), ownFoods: "", diary: "", edits: noEdits(), files: new Map(), units: "metric", screen: "race",
  answer: null, faults: [], kept: null, keeps: false,
};

/** @type {Json} what the engine told at the start: presets, foods, cards */
let known = {};
/** @type {Engine} */
let engine;
/** @type {Json} the fields of the form, in the reader's units */
let form = {};

/** @type {Set<() => void>} */
const listeners = new Set();

/** @returns {Json} */
function question() {
  return {
    event: state.event, units: state.units, language: speech.language, edits: state.edits,
    own_foods: state.ownFoods ? [state.ownFoods] : [], diary: state.diary,
  };
}

function complete() {
  const { event } = state;
  return Boolean((event.distance || event.legs) && event.athlete?.mass_kg && event.weather?.temperature_c !== undefined);
}

/** @type {Record<string, string>} */
let typed = {};
let rough = false, asked = false, running = false;

/**
 * Lays typed fields into the event and plans again. `hasty`: fewer simulated days while a slider moves.
 * @param {Record<string, string>} [texts]
 * @param {boolean} [hasty]
 */
function change(texts = {}, hasty = false) {
  Object.assign(typed, texts);
  rough = hasty;
  asked = true;
  if (!running) void work();
}

/** Once, after the next answer. @param {() => void} act */
function whenAnswered(act) {
  const once = () => {
    listeners.delete(once);
    setTimeout(act); // the others see the answer first
  };
  listeners.add(once);
}

async function work() {
  running = true;
  try {
    while (asked) {
      asked = false;
      const set = typed;
      typed = {};
      await step(set, rough);
    }
  } finally {
    running = false;
  }
}

/** @param {Record<string, string>} set @param {boolean} hasty @param {number} [days] simulated, where hasty */
async function step(set, hasty, days = 1000) {
  const before = JSON.stringify(state.event);
  // What was edited while the engine worked stands; what was typed is laid over it next time.
  const take = (/** @type {Json} */ document) => {
    if (JSON.stringify(state.event) === before) return void (state.event = document);
    typed = { ...set, ...typed };
    asked = true;
  };
  const plan = async () => {
    const started = performance.now();
    const answer = await engine.ask({ want: "plan", ...question(), set, ...(hasty ? { days, hasty } : {}) });
    if (JSON.stringify(set) !== "{}") take(answer.document);
    form = answer.form;
    if (hasty && state.answer) answer.shown.unmet = state.answer.shown.unmet; // told when the slider rests
    state.answer = answer;
    performance.measure(hasty ? "plan-rough" : "plan", { start: started });
  };
  try {
    state.faults = [];
    if (complete() && (await worked(plan, hasty))) return;
    // A plan that cannot be made keeps what was typed all the same; what is not understood is told.
    const fields = await engine.ask({ want: "form", event: state.event, units: state.units, language: speech.language, set });
    take(fields.document);
    if (asked) return;
    form = fields.form;
    set = {};
    if (complete()) await plan();
    else state.answer = null;
  } catch (fault) {
    state.faults = fault instanceof Refusal ? fault.faults : [plainFault(String(fault))];
  } finally {
    if (hasty || !asked) { // else a newer question is on its way, and its answer is drawn
      keepHere();
      for (const listener of [...listeners]) listener();
    }
  }
}

/** True where it could be done; false where it was refused and something else is to be tried. @param {() => Promise<void>} act @param {boolean} hasty */
async function worked(act, hasty) {
  try {
    await act();
    return true;
  } catch (fault) {
    if (hasty || !(fault instanceof Refusal)) throw fault;
    return false;
  }
}

/** The text of a field as it stands, in the reader's units. @param {string} option */
function textOf(option) {
  return form[option]?.text ?? "";
}

/**
 * A typed number gets the unit that the field is shown in; who types a unit is taken at the word.
 * @param {string} option
 * @param {string} text
 */
function withUnit(option, text) {
  const plain = text.trim().replace(",", ".");
  return /^[-\d.]+$/.test(plain) ? plain + (form[option]?.unit ?? "") : text.trim();
}

/** What may stay on this device: everything but health. */
function keepable() {
  const event = structuredClone(state.event);
  if (event.athlete) delete event.athlete.health;
  return {
    event: JSON.stringify(event), ownFoods: state.ownFoods, diary: state.diary,
    edits: JSON.stringify(state.edits), look: JSON.stringify({ units: state.units, language: speech.language }),
  };
}

const KEPT = "tuck.";

function keepHere() {
  if (!state.keeps) return;
  try {
    for (const [key, text] of Object.entries(keepable())) localStorage.setItem(KEPT + key, text);
  } catch {
    state.keeps = false; // no storage here, or no room
  }
}

/** @returns {[string, string][]} */
function keptHere() {
  try {
    return Object.keys(localStorage).filter((key) => key.startsWith(KEPT))
      .map((key) => [key, localStorage.getItem(key) ?? ""]);
  } catch {
    return [];
  }
}

function forgetAll() {
  for (const [key] of keptHere()) localStorage.removeItem(key);
  state.keeps = false;
}

function restore() {
  const stored = Object.fromEntries(keptHere().map(([key, text]) => [key.slice(KEPT.length), text]));
  if (!stored.event) return;
  try {
    const look = JSON.parse(stored.look || "{}");
    state.event = JSON.parse(stored.event);
    state.edits = { ...noEdits(), ...JSON.parse(stored.edits || "{}") };
    state.ownFoods = stored.ownFoods ?? "";
    state.diary = stored.diary ?? "";
    state.units = look.units === "imperial" ? "imperial" : "metric";
    speech.language = look.language === "de" ? "de" : "en";
    state.keeps = true;
  } catch {
    forgetAll(); // what was kept is not whole
  }
}
