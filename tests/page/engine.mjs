// The engine out of the finished tuck.html, under node: what is tested is what is shipped.
import { webcrypto } from "node:crypto"; // Debian's node 18 has no global one
import { readFileSync } from "node:fs";
import { gunzipSync } from "node:zlib";
import vm from "node:vm";

/** @param {string} page path of tuck.html */
export async function engineOf(page) {
  const html = readFileSync(page, "utf8");
  const part = (name) => gunzipSync(Buffer.from(html.match(new RegExp(`id="part-${name}">([^]*?)</script>`))[1], "base64"));
  // The module is built for workers: it is told that it runs in one.
  const world = vm.createContext({ console, WebAssembly, TextDecoder, TextEncoder, performance, setTimeout, URL,
    importScripts() {}, location: { href: "" }, self: undefined, crypto: webcrypto });
  world.self = world;
  vm.runInContext(part("worker").toString(), world);
  const module = await world.tuckEngine({
    instantiateWasm(imports, done) {
      WebAssembly.instantiate(part("engine"), imports).then(({ instance, module: compiled }) => done(instance, compiled));
      return {};
    },
    printErr: console.error,
  });
  const names = new TextDecoder();
  for (const name of ["foods", "fonts"]) {
    const files = part(name);
    for (let at = 0; at < files.length;) {
      const nameSize = files.readUInt32LE(at), path = names.decode(files.subarray(at + 4, at + 4 + nameSize));
      at += 4 + nameSize;
      const size = files.readUInt32LE(at);
      module.FS.mkdirTree(path.slice(0, path.lastIndexOf("/")));
      module.FS.writeFile(path, files.subarray(at + 4, at + 4 + size));
      at += 4 + size;
    }
  }
  const put = (bytes) => {
    const at = module._malloc(bytes.length + 1);
    module.HEAPU8.set(bytes, at);
    module.HEAPU8[at + bytes.length] = 0;
    return at;
  };
  const reply = (code) => {
    const at = module._tuck_reply();
    return { code, bytes: Buffer.from(module.HEAPU8.slice(at, at + module._tuck_reply_size())) };
  };
  return {
    memory: () => module.HEAPU8.length,
    ask(question) {
      const text = Buffer.from(JSON.stringify(question)), at = put(text);
      const code = module._tuck_ask(at, text.length);
      module._free(at);
      return reply(code);
    },
    open(name, text) {
      const at = put(text), named = put(Buffer.from(name)), language = put(Buffer.from("en"));
      const code = module._tuck_open(named, language, at, text.length);
      for (const one of [at, named, language]) module._free(one);
      return reply(code);
    },
  };
}
