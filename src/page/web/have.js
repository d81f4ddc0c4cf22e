"use strict";
// "What I have": bottles and belt, foods, own packets, the road and what its stations hand out.

/** @param {any} place */
function haveScreen(place) {
  place.append(section("onBike", el("div", { class: "grid" },
    textField("--bottles", t("bottles"), {}, t("bottlesHelp")), kitField("run_flask_ml", t("flask")), kitField("run_gels", t("belt")))),
  section("road", ...roadsPart()), section("foods", ...foodsPart()), section("ownFood", ownFoodPart()),
  section("allergies", allergyPart()), answerShort());
}

/** A short answer below what changes it. */
function answerShort() {
  const place = el("div", { class: "answer" });
  const draw = () => {
    if (!place.isConnected) return void listeners.delete(draw);
    const answer = state.answer;
    place.replaceChildren(...(state.faults.length ? [faultBox()] : []), ...(answer
      ? [inShort(answer.shown), stopLine(answer), ...warnings(answer), cautions(answer)].filter(Boolean) : [needRace()]));
  };
  listeners.add(draw);
  queueMicrotask(draw);
  return place;
}

function needRace() {
  return el("div", {}, el("p", { class: "lead", text: t("needRace") }), button(t("toRace"), () => go("race"), { class: "main" }));
}

/** @param {string} key @param {string} label */
function kitField(key, label) {
  const input = el("input", { inputmode: "numeric", class: "short", value: state.event.kit?.[key] ?? "", "data-option": "kit", onchange: () => {
    const kit = { ...(state.event.kit ?? {}) };
    if (input.value.trim() === "") delete kit[key];
    else kit[key] = Number(input.value);
    if (Object.keys(kit).length) state.event.kit = kit;
    else delete state.event.kit;
    change();
  } });
  return field(label, input);
}

/** Where the event speaks of a leg, "/course/bike" or "/legs/2"; nothing where it does not yet. @param {string} at @returns {Json | undefined} */
function courseAt(at) {
  return at.slice(1).split("/").reduce((part, key) => part?.[key], state.event);
}

function dropEmptyCourses() {
  const { course } = state.event;
  if (!course) return;
  for (const leg of Object.keys(course)) if (!Object.keys(course[leg]).length) delete course[leg];
  if (!Object.keys(course).length) delete state.event.course;
}

/** @param {string} at @param {(course: Json) => void} edit */
function editCourse(at, edit) {
  if (!courseAt(at)) (state.event.course ??= {})[at.split("/")[2]] = {};
  edit(courseAt(at) ?? {});
  dropEmptyCourses();
  change();
}

function roadsPart() {
  const place = el("div", {});
  const draw = () => {
    if (!place.isConnected) return void listeners.delete(draw);
    const focus = /** @type {any} */ (document.activeElement)?.dataset?.key;
    place.replaceChildren(...(state.answer ? state.answer.roads.map(roadPart) : [needRace()]));
    if (focus) place.querySelector(`[data-key="${CSS.escape(focus)}"]`)?.focus();
  };
  listeners.add(draw);
  queueMicrotask(draw);
  const typical = el("input", { type: "checkbox", checked: state.event.stations === "typical", "data-option": "stations",
    onchange: () => change({ "--stations": typical.checked ? "typical" : "" }) });
  return [el("label", { class: "check" }, typical, t("typicalStations")), place];
}

/** @param {Json} road */
function roadPart(road) {
  const leg = t(road.leg);
  const file = el("input", { type: "file", accept: ".gpx", onchange: async () => {
    if (file.files[0] && await openFile(file.files[0])) editCourse(road.at, (course) => { course.course_gpx = file.files[0].name; });
  } });
  const laps = el("input", { inputmode: "numeric", class: "short", value: road.laps, onchange: () =>
    editCourse(road.at, (course) => { course.course_laps = Number(laps.value); }) });
  const given = Boolean(courseAt(road.at)?.course_gpx);
  return el("div", { class: "road-part" }, el("div", { class: "grid" }, field(t("gpx", { leg }), file), given ? field(t("laps"), laps) : null),
    profile(road), stationsPart(road));
}

/** The road with its stations on it: carried by finger or arrow keys. @param {Json} road */
function profile(road) {
  const heights = road.profile.length ? road.profile : [[0, 0], [road.length_km, 0]];
  const low = Math.min(...heights.map((/** @type {number[]} */ p) => p[1])), high = Math.max(...heights.map((/** @type {number[]} */ p) => p[1]), low + 30);
  const wide = 1000, tall = road.profile.length ? 120 : 50, flat = road.profile.length ? 100 : 42, lap = heights.at(-1)[0] || 1;
  const x = (/** @type {number} */ km) => (km / (road.length_km || 1)) * wide;
  const y = (/** @type {number} */ m) => flat - ((m - low) / (high - low)) * 70;
  const laps = Math.max(1, Math.round(road.length_km / lap));
  let path = `M0 ${tall}`;
  for (let i = 0; i < laps; ++i) for (const [km, m] of heights) path += `L${x(km + i * lap).toFixed(1)} ${y(m).toFixed(1)}`;
  const place = el("div", { class: "road" });
  const drawing = svg("svg", { viewBox: `0 0 ${wide} ${tall}`, class: road.profile.length ? "profile" : "profile flat", preserveAspectRatio: "none", role: "group", "aria-label": t("stations", { leg: t(road.leg) }) },
    svg("path", { d: path + `L${wide} ${tall}Z` }));
  road.stations.forEach((/** @type {Json} */ station, /** @type {number} */ i) => drawing.append(stationMark(road, station, i, x, drawing)));
  place.append(drawing);
  return place;
}

/** @param {Json} road @param {Json} station @param {number} i @param {(km: number) => number} x @param {any} drawing */
function stationMark(road, station, i, x, drawing) {
  let km = station.km;
  const mark = svg("rect", { class: "food movable", y: 4, width: 14, height: 24, tabindex: 0, role: "slider", "data-key": `station-${road.leg}-${i}`,
    "aria-label": t("moveStation", { at: station.text }), "aria-valuemin": 0, "aria-valuemax": road.length_km, "aria-valuenow": km, "aria-valuetext": station.text });
  const show = () => mark.setAttribute("x", String(x(km) - 7));
  const set = () => setStations(road, (all) => { all[placeOf(station, i)].km = Math.max(0, Math.round((km - (station.offset_km ?? 0)) * 10) / 10); });
  show();
  mark.addEventListener("pointerdown", (/** @type {PointerEvent} */ event) => {
    mark.setPointerCapture(event.pointerId);
    const follow = (/** @type {PointerEvent} */ e) => {
      const box = drawing.getBoundingClientRect();
      km = Math.min(road.length_km, Math.max(0, ((e.clientX - box.left) / box.width) * road.length_km));
      show();
    };
    mark.addEventListener("pointermove", follow);
    mark.addEventListener("pointerup", () => { mark.removeEventListener("pointermove", follow); set(); }, { once: true });
  });
  mark.addEventListener("keydown", (/** @type {KeyboardEvent} */ event) => {
    const way = { ArrowLeft: -0.5, ArrowDown: -0.5, ArrowRight: 0.5, ArrowUp: 0.5 }[event.key];
    if (!way) return;
    event.preventDefault();
    km = Math.min(road.length_km, Math.max(0, km + way));
    set();
  });
  return mark;
}

/** A station that is passed on every lap stands once in the document. @param {Json} station @param {number} i */
function placeOf(station, i) {
  return station.of ?? i;
}

/** @param {Json} road @param {(stations: Json[]) => void} edit */
function setStations(road, edit) {
  editCourse(road.at, (course) => {
    // Usual ones that are assumed stand in no document: once edited, they do.
    const all = road.stations.every((/** @type {Json} */ s) => s.of !== undefined) ? structuredClone(course.stations ?? []) : road.stations.map((/** @type {Json} */ s) => ({ km: s.km, ...(s.serves.length ? { serves: s.serves } : {}), ...(s.form === "bottle" ? { form: "bottle" } : {}) }));
    edit(all);
    all.sort((/** @type {Json} */ a, /** @type {Json} */ b) => a.km - b.km);
    if (all.length) course.stations = all;
    else delete course.stations;
  });
}

/** @param {Json} road */
function stationsPart(road) {
  const served = known.foods.filter((/** @type {Json} */ food) => /drink|cola|water|gel|banana|fruit/.test(food.group + food.form + food.id));
  const once = road.stations.filter((/** @type {Json} */ station) => !station.offset_km);
  const rows = once.map((/** @type {Json} */ station, /** @type {number} */ row) => el("li", {},
    el("span", { text: station.text + (station.laps > 1 ? ` · ${t("eachLap", { n: station.laps })}` : "") }),
    el("span", {}, station.serves.map((/** @type {string} */ id) => foodName(id)).join(", ") || foodName("water_tap"))
    , el("select", { "aria-label": `${station.text}: ${t("serves")}`, onchange: (/** @type {any} */ e) => setStations(road, (all) => {
      const id = e.target.value, i = placeOf(station, row);
      const has = all[i].serves ?? [];
      all[i].serves = has.includes(id) ? has.filter((/** @type {string} */ one) => one !== id) : [...has, id];
      if (!all[i].serves.length) delete all[i].serves;
    }) }, el("option", { value: "", text: t("serves") + " …" }),
    served.map((/** @type {Json} */ food) => el("option", { value: food.id, text: (station.serves.includes(food.id) ? "– " : "+ ") + nameOf(food) }))),
    button(t("remove"), () => setStations(road, (all) => void all.splice(placeOf(station, row), 1)), { "aria-label": `${t("remove")} ${station.text}` })));
  const add = () => setStations(road, (all) => {
    const last = all.at(-1)?.km ?? 0;
    all.push({ km: Math.min(road.length_km, Math.round((last + road.length_km) * 5) / 10) });
  });
  return el("details", { open: rows.length > 0 && rows.length < 8 }, el("summary", { text: `${t("stations", { leg: t(road.leg) })} (${rows.length})` }),
    el("ul", { class: "foods" }, rows), button(t("addStation"), add));
}

/** @param {string} id */
function foodName(id) {
  const food = known.foods.find((/** @type {Json} */ one) => one.id === id);
  return food ? nameOf(food) : id;
}

/** @param {Json} food @returns {string} */
function nameOf(food) {
  return food.said.text;
}

function foodsPart() {
  const shown = el("ul", { class: "foods" });
  const draw = () => {
    const words = search.value.toLowerCase().split(/\s+/).filter(Boolean);
    const athlete = state.event.athlete ?? {};
    shown.replaceChildren(...known.foods
      .filter((/** @type {Json} */ food) => words.every((/** @type {string} */ word) => `${food.name} ${food.group} ${food.label} ${food.said.text}`.toLowerCase().includes(word)))
      .map((/** @type {Json} */ food) => {
        const now = athlete.like?.includes(food.id) ? "like" : athlete.avoid?.includes(food.id) ? "avoid" : "neither";
        const select = el("select", { "aria-label": nameOf(food), onchange: () => taste(food.id, select.value) },
          ["neither", "like", "avoid"].map((value) => el("option", { value, text: t(value), selected: value === now })));
        return el("li", {}, el("span", {}, nameOf(food), " ", el("small", { class: "quiet", text: t("foodHolds", { carb: food.carb, sodium: food.sodium }) })), select);
      }));
  };
  const search = el("input", { type: "search", oninput: draw });
  queueMicrotask(draw);
  return [field(t("search"), search), shown];
}

/** @param {string} id @param {string} wish */
function taste(id, wish) {
  const athlete = (state.event.athlete ??= {});
  for (const key of ["like", "avoid"]) {
    const kept = (athlete[key] ?? []).filter((/** @type {string} */ one) => one !== id);
    if (key === wish) kept.push(id);
    if (kept.length) athlete[key] = kept;
    else delete athlete[key];
  }
  change();
}

function allergyPart() {
  const all = allergenBoxes(new Set(state.event.athlete?.allergy ?? []), () => change({ "--allergy": [...all.chosen].join(",") }));
  return all.boxes;
}

/** A box for each allergen; `chosen` follows them. @param {Set<string>} chosen @param {() => void} act */
function allergenBoxes(chosen, act) {
  const boxes = el("div", { class: "checks" }, known.allergens.map((/** @type {string} */ name) => {
    const box = el("input", { type: "checkbox", checked: chosen.has(name), onchange: () => {
      if (box.checked) chosen.add(name);
      else chosen.delete(name);
      act();
    } });
    return el("label", { class: "check" }, box, t(name));
  }));
  return { boxes, chosen };
}

function ownFoodPart() {
  const keys = /** @type {[string, string, string][]} */ ([["name", "foodName", ""], ["serving", "serving", "40g"], ["carbohydrate", "carbs", "65g"], ["sugars", "sugars", "30g"],
    ["energy", "energy", "260kcal"], ["fat", "fat", "0g"], ["protein", "protein", "0g"], ["salt", "salt", "0.3g"], ["caffeine", "caffeine", "0mg"], ["makes", "makes", "500ml"]]);
  /** @type {Record<string, any>} */
  const inputs = Object.fromEntries(keys.map(([key, , example]) => [key, el("input", { placeholder: example, autocomplete: "off" })]));
  const form = el("select", {}, ["gel", "bar", "chew", "drink", "powder", "solid"].map((value) => el("option", { value, text: t(value) })));
  const per = el("select", {}, ["100g", "100ml", "serving"].map((value) => el("option", { value, text: value === "serving" ? t("perServing") : value })));
  const allergens = allergenBoxes(new Set(), () => {});
  const told = el("div", { role: "status" });
  const add = async () => {
    const name = inputs.name.value.trim();
    const id = name.toLowerCase().normalize("NFD").replace(/[^a-z0-9]+/g, "_").replace(/^_+|_+$/g, "") || "own_food";
    const label = { style: "eu", per: per.value, form: form.value, id, label: name.slice(0, 10), fibre: "0g", allergens: [...allergens.chosen] };
    for (const [key] of keys) /** @type {Json} */ (label)[key] = inputs[key].value.trim();
    try {
      const made = await engine.ask({ want: "food", label, own_foods: state.ownFoods, units: state.units, language: speech.language });
      state.ownFoods = made.own_foods;
      taste(id, "like");
      told.replaceChildren(el("p", { text: `${t("foodAdded")} ${name}: ${made.carb}, ${made.sodium}` }), sentences([...made.assumptions, ...made.notes]));
    } catch (fault) {
      told.replaceChildren(faultsOf(fault));
    }
  };
  return el("details", {}, el("summary", { text: t("addFood") }), el("div", { class: "grid" },
    field(t("foodName"), inputs.name), field(t("form"), form), field(t("per"), per),
    keys.slice(1).map(([key, words]) => field(t(words), inputs[key]))),
  el("fieldset", {}, el("legend", { text: t("allergensIn") }), allergens.boxes),
  el("div", { class: "buttons" }, button(t("addFood"), () => void add(), { class: "main" })), told);
}

/** @param {unknown} fault */
function faultsOf(fault) {
  return el("div", { class: "faults", role: "alert" }, el("p", { text: t("fault") }),
    faultList(fault instanceof Refusal ? fault.faults : [plainFault(String(fault))]));
}
