"use strict";
// The way to the engine: workers made from what this file itself carries. No request leaves the page.

/** @typedef {{file: string, place: string, what: string, allowed: string, nearest: string, text: string, said: Json}} Fault */
/** @typedef {Record<string, any>} Json */

/** What the engine does not take: every fault, each with its place. */
class Refusal extends Error {
  /** @param {Fault[]} faults @param {number} code */
  constructor(faults, code) {
    super(faults.map((fault) => fault.text).join("\n"));
    this.faults = faults;
    this.code = code;
  }
}

/** @param {string} base64 @returns {Uint8Array} */
function bytesOf(base64) {
  const quick = /** @type {any} */ (Uint8Array).fromBase64;
  if (quick) return quick.call(Uint8Array, base64);
  const text = atob(base64), out = new Uint8Array(text.length);
  for (let i = 0; i < text.length; ++i) out[i] = text.charCodeAt(i);
  return out;
}

/**
 * A part of the page, unpacked as it comes: carried in this file, or beside it on its own host.
 * @param {"worker" | "engine" | "foods" | "fonts" | "licences"} name
 * @returns {Promise<ReadableStream>}
 */
async function stream(name) {
  const carried = () => document.getElementById("part-" + name);
  // Fonts and licences lie behind this script, which may be here before they are.
  if (!carried() && document.readyState === "loading") await new Promise((done) => document.addEventListener("DOMContentLoaded", done));
  const text = carried()?.textContent;
  const packed = text ? new Blob([bytesOf(text)]).stream() : (await fetch(name + ".bin")).body;
  return /** @type {ReadableStream} */ (packed).pipeThrough(new DecompressionStream("gzip"));
}

/** @type {Map<string, Promise<Uint8Array>>} */
const parts = new Map();

/** @param {"worker" | "foods" | "fonts" | "licences"} name @returns {Promise<Uint8Array>} */
function part(name) {
  const whole = async () => new Uint8Array(await new Response(await stream(name)).arrayBuffer());
  if (!parts.has(name)) parts.set(name, whole());
  return /** @type {Promise<Uint8Array>} */ (parts.get(name));
}

/** Compiled while it is being unpacked. */
async function compile() {
  return WebAssembly.compileStreaming(new Response(await stream("engine"), { headers: { "content-type": "application/wasm" } }));
}

/** @type {Promise<WebAssembly.Module> | undefined} */
let compiled;

const PAPERS = new Set(["card", "sheet", "card_sides", "squad_cards"]); // they need fonts

/** One engine in a worker of its own. */
class Engine {
  constructor() {
    /** @type {Map<number, {done: (reply: any) => void, fail: (fault: Error) => void}>} */
    this.waiting = new Map();
    this.last = 0;
    /** @type {Worker | undefined} */
    this.worker = undefined;
    /** @type {Promise<void> | undefined} */
    this.fonts = undefined;
    this.stopped = false;
    this.ready = this.begin();
  }

  async begin() {
    const [source, foods] = [part("worker"), part("foods")];
    compiled ??= compile();
    const script = await source; // the worker starts while the engine is being compiled
    if (this.stopped) return;
    const url = URL.createObjectURL(new Blob([script], { type: "text/javascript" }));
    const worker = this.worker = new Worker(url);
    worker.onmessage = ({ data }) => {
      const open = this.waiting.get(data.id);
      this.waiting.delete(data.id);
      if (data.fault) open?.fail(new Error(data.fault));
      else open?.done(data);
    };
    worker.onerror = (event) => {
      for (const open of this.waiting.values()) open.fail(new Error(event.message || t("noEngine")));
      this.waiting.clear();
    };
    await this.send({ begin: await compiled, files: await foods });
    URL.revokeObjectURL(url);
  }

  /** @param {Json} message @param {Transferable[]} [moved] @returns {Promise<any>} */
  send(message, moved = []) {
    const id = ++this.last;
    return new Promise((done, fail) => {
      this.waiting.set(id, { done, fail });
      this.worker?.postMessage({ id, ...message }, moved);
    });
  }

  /**
   * The bytes of an answer, and whether the plan in it is refused as unsafe.
   * @param {Json} question
   * @returns {Promise<{code: number, bytes: Uint8Array}>}
   */
  async bytes(question) {
    if (PAPERS.has(question.want)) await (this.fonts ??= part("fonts").then((files) => this.send({ files })));
    const reply = await this.send({ ask: JSON.stringify(question) });
    return Engine.taken(reply);
  }

  /** @param {Json} question @returns {Promise<Json>} */
  async ask(question) {
    const reply = await this.bytes(question);
    return JSON.parse(new TextDecoder().decode(reply.bytes));
  }

  /** @param {string} name @param {ArrayBuffer} text @returns {Promise<Json>} */
  async open(name, text) {
    const reply = Engine.taken(await this.send({ open: name, language: speech.language, text }));
    return JSON.parse(new TextDecoder().decode(reply.bytes));
  }

  /** @param {{code: number, bytes: Uint8Array}} reply */
  static taken(reply) {
    if (reply.code <= 1) return reply;
    throw new Refusal(JSON.parse(new TextDecoder().decode(reply.bytes)).faults, reply.code);
  }

  stop() {
    this.stopped = true;
    this.worker?.terminate();
    for (const open of this.waiting.values()) open.fail(new Error("stopped"));
    this.waiting.clear();
  }
}
