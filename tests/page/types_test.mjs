// The page's script holds its types: JSDoc read by the TypeScript compiler, strict.
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import test from "node:test";
import vm from "node:vm";

const { TUCK_ROOT } = process.env;
const web = join(TUCK_ROOT, "src/page/web");

test("the compiler finds no fault", () => {
  const done = spawnSync("node", [join(TUCK_ROOT, "build/page/judges/node_modules/typescript/bin/tsc"), "-p", join(TUCK_ROOT, "tests/page/tsconfig.json")]);
  assert.equal(done.status, 0, done.stdout.toString());
});

test("every word of the table is said in every language, with the same places to fill", () => {
  const world = vm.createContext({});
  const strings = vm.runInContext(readFileSync(join(web, "strings.js"), "utf8") + "; STRINGS", world);
  const places = (text) => [...text.matchAll(/\{\w+\}/g)].map(String).sort().join();
  for (const [key, row] of Object.entries(strings)) {
    assert.ok(row.en && row.de, key);
    assert.equal(places(row.en), places(row.de), key);
  }
});
