// Runs the page's own queue.js, with just enough of a browser round it, and
// prints what it stores for the enquiry of the arguments: file, public key,
// id, text.
import { readFileSync } from "node:fs";
import vm from "node:vm";

const [file, key, id, text] = process.argv.slice(2);
let stored = null;
const request = (result) => {
  const r = { result };
  queueMicrotask(() => r.onsuccess?.());
  return r;
};
const transaction = () => {
  const t = { objectStore: () => ({ getAll: () => ({ result: [] }), put: (v) => { stored = v; return {}; }, delete: () => ({}) }) };
  queueMicrotask(() => t.oncomplete());
  return t;
};
const world = {
  crypto: globalThis.crypto, TextEncoder, btoa, atob, setTimeout: () => 0, clearTimeout() {}, AbortSignal,
  navigator: { onLine: false }, document: { addEventListener() {} }, addEventListener() {}, Uint8Array,
  indexedDB: { open: () => request({ transaction }) },
};
world.window = world;
vm.runInNewContext(readFileSync(file, "utf8"), world);
await world.tarnwrightQueue.keep(key, id, text, "M", "2026-11-25T14:40:00Z");
console.log(stored.sealed);
