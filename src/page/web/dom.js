"use strict";
// Small helpers around the document. No text ever becomes markup.

/** @typedef {Node | string | null | undefined | false} Child */

/**
 * An element. Attributes by name; "on..." are listeners, "text" its text, and properties that are no attributes are set.
 * @param {string} name
 * @param {Record<string, any>} [given]
 * @param {...(Child | Child[])} children
 * @returns {any}
 */
function el(name, given = {}, ...children) {
  const element = document.createElement(name);
  fill(element, given, children);
  return element;
}

/**
 * The same for pictures.
 * @param {string} name
 * @param {Record<string, any>} [given]
 * @param {...(Child | Child[])} children
 * @returns {any}
 */
function svg(name, given = {}, ...children) {
  const element = document.createElementNS("http://www.w3.org/2000/svg", name);
  fill(element, given, children);
  return element;
}

/** @param {Element} element @param {Record<string, any>} given @param {(Child | Child[])[]} children */
function fill(element, given, children) {
  for (const [key, value] of Object.entries(given)) {
    if (value === undefined || value === null || value === false) continue;
    if (key.startsWith("on")) element.addEventListener(key.slice(2), value);
    else if (key === "text") element.textContent = value;
    else if (key === "value" || key === "checked") /** @type {any} */ (element)[key] = value;
    else element.setAttribute(key, value === true ? "" : String(value));
  }
  for (const child of children.flat()) if (child) element.append(child);
}

let lastId = 0;
/** @param {string} [start] */
function newId(start = "f") {
  return `${start}${++lastId}`;
}

/**
 * A labelled field. Help and faults are tied to it.
 * @param {string} label
 * @param {any} input
 * @param {string} [help]
 * @param {string} [unit]
 */
function field(label, input, help = "", unit = "") {
  input.id ||= newId();
  const helpId = help ? newId("h") : "";
  if (helpId) input.setAttribute("aria-describedby", helpId);
  return el("div", { class: "field" },
    el("label", { for: input.id, text: label }),
    el("div", { class: "with-unit" }, input, unit ? el("span", { class: "unit", "aria-hidden": "true", text: unit }) : null),
    help ? el("p", { class: "help", id: helpId, text: help }) : null);
}

/**
 * A choice of one among few.
 * @param {string} legend
 * @param {{value: string, text: string, detail?: string}[]} choices
 * @param {string | undefined} chosen
 * @param {(value: string) => void} take
 * @param {string} [cls]
 */
function choice(legend, choices, chosen, take, cls = "") {
  const name = newId("c");
  return el("fieldset", { class: `choice ${cls}` }, el("legend", { text: legend }),
    el("div", { class: "choices" }, choices.map(({ value, text, detail }) => {
      const input = el("input", { type: "radio", name, value, checked: value === chosen, onchange: () => take(value) });
      return el("label", {}, input, el("span", { class: "choice-text" }, el("span", { text }),
        detail ? el("small", { text: detail }) : null));
    })));
}

/**
 * A table with its caption, for what a picture shows or numbers say.
 * @param {string} caption
 * @param {string[]} heads
 * @param {(Child | Child[])[][]} rows
 * @param {string} [cls]
 */
function table(caption, heads, rows, cls = "") {
  return el("div", { class: `table ${cls}`, tabindex: "0", role: "region", "aria-label": caption },
    el("table", {}, el("caption", { text: caption }),
      el("thead", {}, el("tr", {}, heads.map((head) => el("th", { scope: "col", text: head })))),
      el("tbody", {}, rows.map((cells) => el("tr", {}, cells.map((cell, i) =>
        el(i === 0 ? "th" : "td", i === 0 ? { scope: "row" } : {}, cell)))))));
}

/** @param {string} key @param {...Child} children */
function section(key, ...children) {
  const id = newId("s");
  return el("section", { "aria-labelledby": id }, el("h2", { id, text: t(key) }), children);
}

/** @param {string} text @param {() => void} act @param {Record<string, any>} [more] */
function button(text, act, more = {}) {
  return el("button", { type: "button", text, onclick: act, ...more });
}

/**
 * A sentence of the plan: its text, and its language where that is not the page's.
 * @param {Json} one
 */
function said(one) {
  return { text: one.text, lang: foreign(one) };
}

/** @param {Json} one @returns {string | undefined} */
function foreign(one) {
  return one.lang === speech.language ? undefined : one.lang;
}

/** @param {string[]} items */
function list(items) {
  return el("ul", {}, items.map((text) => el("li", { text })));
}

/** @param {Json[]} all @param {string} [cls] */
function sentences(all, cls) {
  return el("ul", cls ? { class: cls } : {}, all.map((one) => el("li", said(one))));
}

/** @param {Json[]} all */
function warningList(all) {
  return el("ul", { class: "warnings" }, all.map((one) => el("li", { class: one.severity, ...said(one) })));
}

/**
 * What is wrong, each with the field that it is about.
 * @param {Fault[]} faults
 */
function faultList(faults) {
  return el("ul", {}, faults.map((fault) => {
    const where = fieldOf(fault) ?? [fault.file, fault.place].filter(Boolean).join(": ");
    return el("li", {}, where ? where + ": " : null, el("span", said(fault.said)));
  }));
}

/** The words of the field that an option or a place in a document is. @param {Fault} fault @returns {string | undefined} */
function fieldOf(fault) {
  const option = Object.keys(form).find((one) => one === fault.file || (fault.place && form[one].at === fault.place));
  const other = OTHER_FIELDS[fault.file] ?? OTHER_FIELDS[fault.place.slice(1)];
  return option ? labelOf(option) : other && t(other);
}

/** @param {string} option */
function labelOf(option) {
  return t("field " + option.slice(2));
}

/** Says something to a screen reader without moving anything. @param {string} text */
function announce(text) {
  const place = document.getElementById("announce");
  if (place) place.textContent = text;
}

/** Hands a file to the user. @param {string} name @param {BlobPart} bytes @param {string} type */
function hand(name, bytes, type) {
  const url = URL.createObjectURL(new Blob([bytes], { type }));
  const link = el("a", { href: url, download: name });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(url), 10000);
  announce(t("saved", { name }));
}
