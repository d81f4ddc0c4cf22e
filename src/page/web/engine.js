"use strict";
// The way to the engine: workers made from what this file itself carries. No request leaves the page.

/** @typedef {{file: string, place: string, what: string, allowed: string, nearest: string, text: string}} Fault */
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

/** @param {string} id */
function carried(id) {
  return document.getElementById(id)?.textContent ?? "";
}

/** @type {WebAssembly.Module | undefined} */
let compiledEngine;

/** One engine in a worker of its own. */
class Engine {
  constructor() {
    const source = [carried("engine-script"), carried("worker-script")].join("\n");
    this.url = URL.createObjectURL(new Blob([source], { type: "text/javascript" }));
    this.worker = new Worker(this.url);
    /** @type {Map<number, {done: (reply: any) => void, fail: (fault: Error) => void}>} */
    this.waiting = new Map();
    this.last = 0;
    this.worker.onmessage = ({ data }) => {
      const open = this.waiting.get(data.id);
      this.waiting.delete(data.id);
      if (data.fault) open?.fail(new Error(data.fault));
      else open?.done(data);
    };
    this.worker.onerror = (event) => {
      for (const open of this.waiting.values()) open.fail(new Error(event.message || t("noEngine")));
      this.waiting.clear();
    };
    const begin = { wasm: compiledEngine ?? carried("engine-wasm"), foods: carried("engine-foods"), fonts: carried("engine-fonts") };
    this.ready = this.send({ begin }).then((reply) => {
      compiledEngine = reply.module;
      URL.revokeObjectURL(this.url);
    });
  }

  /** @param {Json} message @param {Transferable[]} [moved] @returns {Promise<any>} */
  send(message, moved = []) {
    const id = ++this.last;
    return new Promise((done, fail) => {
      this.waiting.set(id, { done, fail });
      this.worker.postMessage({ id, ...message }, moved);
    });
  }

  /**
   * The bytes of an answer, and whether the plan in it is refused as unsafe.
   * @param {Json} question
   * @returns {Promise<{code: number, bytes: Uint8Array}>}
   */
  async bytes(question) {
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
    const reply = Engine.taken(await this.send({ open: name, text }));
    return JSON.parse(new TextDecoder().decode(reply.bytes));
  }

  /** @param {{code: number, bytes: Uint8Array}} reply */
  static taken(reply) {
    if (reply.code <= 1) return reply;
    throw new Refusal(JSON.parse(new TextDecoder().decode(reply.bytes)).faults, reply.code);
  }

  stop() {
    this.worker.terminate();
    for (const open of this.waiting.values()) open.fail(new Error("stopped"));
    this.waiting.clear();
  }
}
