"use strict";
// "Otherwise": what if. The day redraws at once; what a rule forbids says the numbers that stand in its way.

/** @param {any} place */
function otherwiseScreen(place) {
  if (!complete()) return void place.append(needRace());
  // The sliders stand right above what they move.
  place.append(section("wishes", el("div", { class: "pair" },
    slider("--temperature", t("airSlider"), { start: state.units === "metric" ? 20 : 68 }),
    slider("--carb", t("carbSlider"), { start: 60, none: t("asPlanned") }))),
  movingDay(), section("moreWishes", el("div", { class: "pair" },
    textField("--bottles", t("bottles"), {}, t("bottlesHelp")),
    textField("--bike-time", t("bikeTime"), {}, t("timeHelp")), textField("--run-time", t("runTime"), {}, t("timeHelp")), rhythm()), cancelled()),
  pins(), lines(), beside(), answerShort());
}

function rhythm() {
  return choice(t("rhythm"), [{ value: "", text: t("rhythmBest") }, ...["10min", "15min", "20min"].map((value) => ({ value, text: value }))],
    state.edits.bike_rhythm, (value) => { state.edits.bike_rhythm = value; change(); });
}

function cancelled() {
  const box = el("input", { type: "checkbox", checked: state.edits.swim === "cancelled", onchange: () => {
    state.edits.swim = box.checked ? "cancelled" : "";
    change();
  } });
  return el("label", { class: "check" }, box, t("noSwim"));
}

/**
 * A part that is drawn anew with each answer.
 * @param {(answer: Json) => Child[]} parts
 */
function drawn(parts) {
  const place = el("div", {});
  const draw = () => {
    if (!place.isConnected) return void listeners.delete(draw);
    const focus = /** @type {any} */ (document.activeElement)?.dataset?.key;
    if (state.answer) place.replaceChildren(.../** @type {Node[]} */ (parts(state.answer).filter(Boolean)));
    if (focus) place.querySelector(`[data-key="${CSS.escape(focus)}"]`)?.focus();
  };
  listeners.add(draw);
  queueMicrotask(draw);
  return place;
}

function movingDay() {
  return section("theDay", drawn(({ shown }) => [dayLine(shown, { move: moveFeed }), el("p", { class: "quiet", text: t("dragFeed") }), dayTable(shown)]));
}

/** @param {Json} feed @param {number} atS */
function moveFeed(feed, atS) {
  const food = feed.foods.find((/** @type {Json} */ one) => !one.drink)?.food;
  const leg = state.answer?.shown.legs[feed.leg_index];
  if (!food || !leg) return;
  if (leg.leg === "bike") state.edits.pins.push(`${clockText(atS)}=${food}`);
  else state.edits.pins.push(`${Math.max(0, (atS / leg.takes_s) * roadKm(feed.leg_index)).toFixed(1)}km=${food}`);
  change();
}

/** @param {number} index */
function roadKm(index) {
  return state.answer?.roads.find((/** @type {Json} */ road) => road.leg_index === index)?.length_km ?? 0;
}

function pins() {
  const at = el("input", { autocomplete: "off" });
  const food = el("select", {}, known.foods.filter((/** @type {Json} */ one) => /gel|bar|chew|solid/.test(one.form))
    .map((/** @type {Json} */ one) => el("option", { value: one.id, text: nameOf(one), selected: one.id === "gel_25" })));
  const add = () => {
    if (!at.value.trim()) return at.focus();
    state.edits.pins.push(`${at.value.trim()}=${food.value}`);
    change();
  };
  return section("pinFeed", el("div", { class: "grid" }, field(t("pinAt"), at, t("pinHelp")), field(t("what"), food)),
    el("div", { class: "buttons" }, button(t("pin"), add)),
    drawn(() => [...state.edits.pins.map((pin, i) => held(`${t("pinned")}: ${pin.replace("=", ", ")}`, t("unpin"), () => state.edits.pins.splice(i, 1))),
      ...state.edits.without.map((id, i) => held(`${t("leftOut")}: ${foodName(id)}`, t("unpin"), () => state.edits.without.splice(i, 1)))]));
}

/** @param {string} text @param {string} act @param {() => void} undo */
function held(text, act, undo) {
  return el("p", {}, text, " ", button(act, () => { undo(); change(); }, { "aria-label": `${act}: ${text}` }));
}

/** Lines of the plan, or the user's own, which are taken as they stand. */
function lines() {
  return section("lines", drawn(({ plan, shown }) => state.event.own_lines
    ? [el("p", { class: "quiet", text: t("linesNote") }), ...ownLines(), brokenRules(shown)]
    : [...plan.lines.map((/** @type {Json} */ line, /** @type {number} */ i) => el("p", {}, `${lineText(shown, i)} `, ...leaveOut(line))),
      button(t("linesMine"), () => { state.event.own_lines = [...plan.lines.map((/** @type {Json} */ line) => asTyped(plan, line)), ...plan.mix.map((/** @type {Json} */ row) => row.text)]; change(); })]));
}

/** @param {Json} line */
function leaveOut(line) {
  return line.items.filter((/** @type {Json} */ item) => item.unit !== "swallow" && item.unit !== "cup").map((/** @type {Json} */ item) =>
    button(t("withoutFood"), () => { state.edits.without.push(item.food); change(); }, { "aria-label": `${t("withoutFood")}: ${item.label}` }));
}

/** A line of the plan as it would be typed: "bike 2 every 15': gel" where two legs are rides. @param {Json} plan @param {Json} line */
function asTyped(plan, line) {
  const same = plan.durations.filter((/** @type {Json} */ leg) => leg.leg === line.leg);
  const which = same.findIndex((/** @type {Json} */ leg) => leg.leg_index === line.leg_index) + 1;
  return `${line.leg}${same.length > 1 ? " " + which : ""} ${line.text}`;
}

function ownLines() {
  const set = (/** @type {(all: string[]) => void} */ edit) => {
    edit(state.event.own_lines);
    if (!state.event.own_lines.length) delete state.event.own_lines;
    change();
  };
  return [...state.event.own_lines.map((/** @type {string} */ text, /** @type {number} */ i) => {
    const input = el("input", { value: text, "data-key": `line-${i}`, onchange: () => set((all) => { all[i] = input.value; }) });
    return el("div", { class: "with-unit" }, field(t("ownLine", { n: i + 1 }), input),
      button(t("remove"), () => set((all) => void all.splice(i, 1)), { "aria-label": `${t("remove")} ${text}` }));
  }), el("div", { class: "buttons" }, button(t("addLine"), () => set((all) => void all.push("bike 1:00: gel"))),
    button(t("linesBack"), () => { delete state.event.own_lines; change(); }))];
}

/** @param {Json} shown @param {number} i */
function lineText(shown, i) {
  return `${shown.legs[shown.lines[i].leg_index].name}: ${shown.lines[i].text}`;
}

/** @param {Json} shown */
function brokenRules(shown) {
  if (!shown.broken_rules.length) return null;
  return el("div", {}, el("h3", { text: t("broken") }), el("ul", { class: "warnings" },
    shown.broken_rules.map((/** @type {Json} */ one) => el("li", { class: one.danger ? "danger" : "", ...said(one) }))));
}

function beside() {
  return section("beside", drawn((answer) => [
    button(state.kept ? t("putAway") : t("keepForComparison"), () => { state.kept = state.kept ? null : structuredClone(answer); change(); }, { "data-key": "beside" }),
    state.kept && twoPlans(state.kept, answer)]));
}

/** @param {Json} a @param {Json} b */
function twoPlans(a, b) {
  const totals = [["total", "total", "likely"], ["carbs", "totals", "carb"], ["drinkUpTo", "totals", "fluid"], ["sodium", "totals", "sodium"], ["sweat", "totals", "sweat"]];
  const plan = (/** @type {Json} */ one, /** @type {string} */ name) => el("div", {}, el("h3", { text: name }),
    el("p", { class: "quiet", text: one.shown.air }), dayLine(one.shown), list(one.shown.lines.map((/** @type {Json} */ _, /** @type {number} */ i) => lineText(one.shown, i))));
  return el("div", {}, el("div", { class: "two" }, plan(a, t("kept")), plan(b, t("now"))),
    table(t("beside"), ["", t("kept"), t("now")], totals.map(([key, part, name]) => [t(key), a.shown[part][name], b.shown[part][name]])));
}
