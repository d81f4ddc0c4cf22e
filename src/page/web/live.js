"use strict";
// "Live": a session as it goes. Marks are the lines of the command line's own file, kept until the session ends.

const LIVE = "tuck.live";

/** @typedef {{session: Json, marks: Json[]}} Session */

/** @returns {Session | null} */
function storedSession() {
  try {
    const lines = (localStorage.getItem(LIVE) ?? "").split("\n").filter(Boolean).map((line) => JSON.parse(line));
    return lines.length ? { session: lines[0], marks: lines.slice(1) } : null;
  } catch {
    return liveSession; // no storage in this browser: the session lasts as long as the page
  }
}

/** @type {Session | null} */
let liveSession = null;

/** @param {Session} live */
function storeSession(live) {
  liveSession = live;
  try {
    localStorage.setItem(LIVE, marksText(live));
  } catch { /* see storedSession */ }
}

/** @param {Session} live */
function marksText(live) {
  return [live.session, ...live.marks].map((line) => JSON.stringify(line)).join("\n") + "\n";
}

function endSession() {
  liveSession = null;
  try {
    localStorage.removeItem(LIVE);
  } catch { /* nothing was stored */ }
}

/** @param {any} place */
function liveScreen(place) {
  const going = storedSession();
  if (going) return void place.append(running_(going));
  place.append(el("p", { class: "lead", text: t("liveLead") }));
  if (!complete()) return void place.append(needRace());
  const ride = el("input", { value: "150min", class: "short" }), run = el("input", { value: "20min", class: "short" });
  const told = el("div", { role: "status" });
  const begin = async () => {
    try {
      const made = await engine.ask({ want: "rehearsal", ...question(), ride: ride.value, run: run.value });
      if (!made.session) return told.replaceChildren(warningList(made.warnings));
      storeSession({ session: { schema: made.session.schema, start_unix_s: Math.floor(Date.now() / 1000), ...made.session }, marks: [] });
      show();
    } catch (fault) {
      told.replaceChildren(faultsOf(fault));
    }
  };
  place.append(el("div", { class: "grid" }, field(t("ride"), ride), field(t("runAfter"), run)), el("p", { class: "quiet", text: t("liveKeeps") }),
    el("div", { class: "buttons" }, button(t("begin"), () => void begin(), { class: "main" })), told, cautionsNow());
}

/** @param {number} seconds */
function clockOf(seconds) {
  const s = Math.max(0, Math.round(seconds));
  return `${Math.floor(s / 3600)}:${String(Math.floor(s / 60) % 60).padStart(2, "0")}:${String(s % 60).padStart(2, "0")}`;
}

/** @param {Session} live */
function running_(live) {
  const clock = el("p", { class: "clock", role: "timer", "aria-live": "off" });
  const feed = el("p", { class: "feed" });
  const count = el("p", { class: "quiet" });
  const told = el("div", { role: "status" });
  const elapsed = () => Math.max(0, Date.now() / 1000 - live.session.start_unix_s);
  const open = () => live.marks.filter((mark) => mark.feed !== undefined).length;
  const runAt = () => live.marks.find((mark) => mark.mark === "run")?.at_s ?? live.session.run_at_s;
  const due = (/** @type {number} */ i) => live.session.feeds[i].at_s + (live.session.feeds[i].leg === "run" ? runAt() : 0);
  let rung = -1;
  const draw = () => {
    if (!clock.isConnected) return void stop();
    const i = open(), feeds = live.session.feeds;
    clock.textContent = clockOf(elapsed());
    count.textContent = t("ofFeeds", { a: i, b: feeds.length });
    if (i >= feeds.length) {
      feed.textContent = t("noMore");
      feed.classList.remove("due");
      return;
    }
    const left = due(i) - elapsed();
    feed.textContent = left <= 0 ? `${t("nowFeed")}: ${feeds[i].what}` : `${t("inTime", { t: clockOf(left) })}: ${feeds[i].what}`;
    feed.classList.toggle("due", left <= 0);
    if (left <= 0 && rung !== i) {
      rung = i;
      ring(feed.textContent);
    }
  };
  const mark = (/** @type {string} */ kind, /** @type {Json} */ more = {}) => {
    live.marks.push({ schema: "tuck.marks/1", mark: kind, at_s: Math.round(elapsed()), ...more });
    storeSession(live);
    draw();
  };
  const markFeed = (/** @type {string} */ kind) => { if (open() < live.session.feeds.length) mark(kind, { feed: open() }); };
  const end = async () => {
    try {
      const made = await engine.ask({ want: "rehearsal_entry", kind: "rehearsal", date: today(), diary: state.diary, marks: marksText(live), language: speech.language,
        texts: { "--temperature": textOf("--temperature") || "20C" } });
      state.diary = made.diary;
      hand("marks.jsonl", marksText(live), "application/json");
      endSession();
      change();
      go("after");
    } catch (fault) {
      told.replaceChildren(faultsOf(fault));
    }
  };
  const timer = setInterval(draw, 500);
  const awake = stayAwake();
  const stop = () => { clearInterval(timer); awake(); };
  queueMicrotask(draw);
  const stomach = choice(t("stomach"), ["0", "2", "4", "6", "8", "10"].map((value) => ({ value, text: value })), undefined, (level) => mark("stomach", { level: Number(level) }));
  return el("div", { class: "live" }, clock, feed, el("div", { class: "big" },
    button(t("taken"), () => markFeed("taken"), { class: "main" }), button(t("half"), () => markFeed("half")),
    button(t("skipped"), () => markFeed("skipped")), button(t("runBegins"), () => mark("run"))), stomach, count,
  el("div", { class: "buttons" }, button(t("endSession"), () => void end()), button(t("dropSession"), () => { endSession(); show(); })), told, cautionsNow());
}

/** A tone and a shake; either may be missing. @param {string} text */
function ring(text) {
  announce(text);
  navigator.vibrate?.([300, 150, 300]);
  try {
    const sound = new AudioContext();
    const tone = sound.createOscillator();
    tone.frequency.value = 880;
    tone.connect(sound.destination);
    tone.start();
    tone.stop(sound.currentTime + 0.4);
    tone.onended = () => void sound.close();
  } catch { /* no sound here */ }
}

/** Keeps the screen on while it is seen; returns what lets it go. */
function stayAwake() {
  /** @type {any} */
  let lock = null;
  const take = async () => {
    try {
      lock = await navigator.wakeLock?.request("screen");
    } catch { /* not allowed here, or the battery is low */ }
  };
  const seen = () => { if (document.visibilityState === "visible") void take(); };
  document.addEventListener("visibilitychange", seen);
  void take();
  return () => {
    document.removeEventListener("visibilitychange", seen);
    void lock?.release();
  };
}
