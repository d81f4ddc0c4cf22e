"use strict";
// The day as one line: legs in their lengths, what is eaten above, what is drunk below.

const LINE = { top: 34, height: 92, edge: 10 };

/**
 * @param {Json} shown
 * @param {{move?: (feed: Json, atS: number) => void}} [more] `move`: feeds that are eaten can be carried elsewhere
 */
function dayLine(shown, more = {}) {
  const holder = el("div", { class: "day-line" });
  const draw = () => {
    const width = Math.max(280, holder.clientWidth || 320);
    holder.replaceChildren(picture(shown, width, more), el("p", { class: "key", "aria-hidden": "true" },
      el("span", { class: "key-food", text: "●" }), " " + t("eaten"), el("span", { class: "key-drink", text: "┃" }), " " + t("drunk")));
  };
  new ResizeObserver(draw).observe(holder);
  return holder;
}

/** @param {Json} shown @param {number} width @param {{move?: (feed: Json, atS: number) => void}} more */
function picture(shown, width, more) {
  const all = shown.total.takes_s || 1;
  const x = (/** @type {number} */ s) => LINE.edge + (s / all) * (width - 2 * LINE.edge);
  const label = shown.legs.map((/** @type {Json} */ leg) => `${leg.name} ${leg.likely}`).join(", ");
  const legs = shown.legs.map((/** @type {Json} */ leg) => {
    const from = x(leg.at_s), to = x(leg.at_s + leg.takes_s);
    const room = to - from;
    return [
      svg("line", { class: `leg ${leg.leg}`, x1: from + 1, x2: Math.max(from + 2, to - 1), y1: LINE.top + 24, y2: LINE.top + 24 }),
      room > 44 ? svg("text", { class: "leg-name", x: from + 2, y: LINE.top + 46, text: leg.name }) : null,
      room > 60 ? svg("text", { class: "leg-time", x: from + 2, y: LINE.top + 61, text: leg.likely }) : null,
    ];
  });
  const feeds = shown.feeds.map((/** @type {Json} */ feed) => feed.eaten
    ? eaten(feed, x, more)
    : svg("line", { class: "drink", x1: x(feed.day_s), x2: x(feed.day_s), y1: LINE.top + 12, y2: LINE.top + 18 }));
  const drunk = shown.feeds.filter((/** @type {Json} */ feed) => feed.eaten && feed.foods.some((/** @type {Json} */ f) => f.drink))
    .map((/** @type {Json} */ feed) => svg("line", { class: "drink", x1: x(feed.day_s), x2: x(feed.day_s), y1: LINE.top + 12, y2: LINE.top + 18 }));
  return svg("svg", {
    role: more.move ? "group" : "img", "aria-label": label, width, height: LINE.height + 10, viewBox: `0 0 ${width} ${LINE.height + 10}`,
  }, legs.flat(), drunk, feeds);
}

/** @param {Json} feed @param {(s: number) => number} x @param {{move?: (feed: Json, atS: number) => void}} more */
function eaten(feed, x, more) {
  const dot = svg("circle", { class: "food", cx: x(feed.day_s), cy: LINE.top, r: more.move ? 9 : 5 },
    svg("title", { text: `${feed.clock}: ${feed.text}` }));
  if (!more.move) return dot;
  return movable(dot, feed, x, more.move);
}

/**
 * Along the line by finger, mouse or arrow keys.
 * @param {any} dot @param {Json} feed @param {(s: number) => number} x @param {(feed: Json, atS: number) => void} move
 */
function movable(dot, feed, x, move) {
  const perPixel = 1 / (x(1) - x(0));
  const step = 300; // s, a press of an arrow key
  let atS = feed.at_s;
  const show = () => {
    dot.setAttribute("cx", x(feed.day_s + atS - feed.at_s));
    dot.setAttribute("aria-valuetext", `${clockText(atS)}: ${feed.text}`);
  };
  for (const [name, value] of Object.entries({ tabindex: 0, role: "slider", "aria-label": feed.text, "aria-valuenow": Math.round(atS / 60),
    "aria-valuemin": 0, "aria-valuemax": 2880, class: "food movable" })) dot.setAttribute(name, String(value));
  show();
  dot.addEventListener("pointerdown", (/** @type {PointerEvent} */ event) => {
    dot.setPointerCapture(event.pointerId);
    const from = event.clientX;
    const follow = (/** @type {PointerEvent} */ e) => { atS = Math.max(0, feed.at_s + (e.clientX - from) * perPixel); show(); };
    dot.addEventListener("pointermove", follow);
    dot.addEventListener("pointerup", () => {
      dot.removeEventListener("pointermove", follow);
      if (Math.abs(atS - feed.at_s) > 60) move(feed, atS);
    }, { once: true });
  });
  dot.addEventListener("keydown", (/** @type {KeyboardEvent} */ event) => {
    const way = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1 }[event.key];
    if (way) {
      atS = Math.max(0, atS + way * step);
      show();
      event.preventDefault();
    } else if (event.key === "Enter") {
      move(feed, atS);
    }
  });
  return dot;
}

/** A place on the line as the clock of its leg, for a label. @param {number} seconds */
function clockText(seconds) {
  const minutes = Math.round(seconds / 60);
  return `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, "0")}`;
}

/** The same as a table. @param {Json} shown */
function dayTable(shown) {
  return el("details", {}, el("summary", { text: t("asTable") }),
    table(t("feedByFeed"), [t("leg"), t("when"), t("what"), t("carbs")], shown.feeds.map((/** @type {Json} */ feed) => [
      shown.legs[feed.leg_index].name, `${feed.clock} · ${feed.road.replace(" ", "\u00a0")}`, feed.text, feed.carb])));
}
