// @ts-nocheck: runs in the worker, after the engine's own script; checked by the tests that use it.
"use strict";
// The engine behind messages: {id, begin, files}, {id, files}, {id, ask} or {id, open, language, text} in, {id, code, bytes} out.
// Nothing is computed here.

const utf8 = new TextEncoder();
let engine = null;

// Files as "length of the name, name, length, bytes", lengths in four bytes.
function writeFiles(packed) {
  const view = new DataView(packed.buffer, packed.byteOffset);
  const names = new TextDecoder();
  for (let at = 0; at < packed.length; ) {
    const nameSize = view.getUint32(at, true);
    const path = names.decode(packed.subarray(at + 4, at + 4 + nameSize));
    at += 4 + nameSize;
    const size = view.getUint32(at, true);
    engine.FS.mkdirTree(path.slice(0, path.lastIndexOf("/")));
    engine.FS.writeFile(path, packed.subarray(at + 4, at + 4 + size));
    at += 4 + size;
  }
}

async function begin(module) {
  engine = await tuckEngine({
    instantiateWasm(imports, done) {
      WebAssembly.instantiate(module, imports).then((instance) => done(instance, module));
      return {};
    },
    printErr() {},
  });
}

function put(bytes) {
  const at = engine._malloc(bytes.length + 1);
  engine.HEAPU8.set(bytes, at);
  engine.HEAPU8[at + bytes.length] = 0;
  return at;
}

function answer(message) {
  const text = message.ask ? utf8.encode(message.ask) : new Uint8Array(message.text);
  const at = put(text);
  let code;
  if (message.ask) {
    code = engine._tuck_ask(at, text.length);
  } else {
    const words = [message.open, message.language].map((word) => put(utf8.encode(word)));
    code = engine._tuck_open(...words, at, text.length);
    words.forEach(engine._free);
  }
  engine._free(at);
  const from = engine._tuck_reply();
  return { code, bytes: engine.HEAPU8.slice(from, from + engine._tuck_reply_size()) };
}

let turn = Promise.resolve();
self.onmessage = ({ data }) => {
  turn = turn.then(async () => {
    try {
      if (data.begin) await begin(data.begin);
      if (data.files) writeFiles(data.files);
      const reply = data.begin || data.files ? { bytes: new Uint8Array() } : answer(data);
      self.postMessage({ id: data.id, ...reply }, [reply.bytes.buffer]);
    } catch (fault) {
      self.postMessage({ id: data.id, fault: String(fault) });
    }
  });
};
