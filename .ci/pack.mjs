// Packs a compiled widget beside itself, app.wasm into app.pack: what can be
// told from the rest is left out, and web/js/unpack.js, which this runs to see
// that it gives the same bytes, puts it back. The compressor comes after it.
// What a call returns to is the number of its function and the number of the
// place in it; a branch is counted from the outside of its function, as most
// go to the same place from every depth; tables are written as steps.
import { readFileSync, writeFileSync } from "node:fs";
import { readUnsigned, unsigned } from "./numbers.mjs";

const path = process.argv[2], file = readFileSync(path);
const self = {};
new Function("self", readFileSync(new URL("../web/js/unpack.js", import.meta.url), "utf8"))(self);

const returnBase = 0x1000n;
const returns = 0xc5, returnsTo = 0xc6, firstWord = 0xc7, words = 0xfc - firstWord;
const aligned = [2, 3, 2, 3, 0, 0, 1, 1, 0, 0, 1, 1, 2, 2, 2, 3, 2, 3, 0, 1, 0, 1, 2];
const partBytes = 16000; // what has to be there before any of it is put back

let at = 8;
const { functions, other } = sections();
const { texts, lexicon } = shorten(functions.map((f) => f.tokens));
const packed = Buffer.concat([...head(), ...other.flatMap((o) => (o.code ? [plain(o.code), ...bodies()] : o.parts)), part(0)]);
if (!unpacked(packed).equals(file)) throw new Error(`${path}: what was packed does not come out as it was`);
writeFileSync(path.replace(/\.wasm$/, ".pack"), packed);

function unpacked(bytes) {
  const out = [], u = self.tarnwrightUnpacker((piece) => out.push(piece));
  for (let i = 0; i < bytes.length; i += 65000) u.push(bytes.subarray(i, i + 65000));
  u.end();
  return Buffer.concat(out);
}

// sections reads the program: its functions as tokens, and all else as parts.
function sections() {
  const functions = [], other = [{ parts: [plain(file.subarray(0, 8))] }];
  while (at < file.length) {
    const start = at, id = file[at++], size = read(), end = at + size;
    if (id === 10) {
      const count = read();
      other.push({ code: file.subarray(start, at) });
      for (let n = 0; n < count; n++) {
        const from = at, length = read(), stop = at + length;
        functions.push({ raw: file.subarray(from, stop), tokens: body(n, stop) });
        at = stop;
      }
    } else if (id === 9) other.push({ parts: elements(start, end) });
    else if (id === 11) other.push({ parts: data(start, end) });
    else other.push({ parts: [plain(file.subarray(start, end))] });
    at = end;
  }
  return { functions, other };
}

// body is one function as tokens, or null where it holds something not known.
function body(n, stop) {
  const tokens = [], self = returnBase + BigInt(n);
  let from = at;
  const keep = () => tokens.push(file.toString("latin1", from, at));
  const put = (...bytes) => tokens.push(String.fromCharCode(...bytes));
  for (let groups = read(); groups > 0; groups--) read(), at++;
  keep();
  let depth = 0, ended = 0, chosenDepth = -1, first = null;
  while (at < stop) {
    from = at;
    const op = file[at++];
    if (op >= 0x02 && op <= 0x04) {
      depth++;
      read();
      keep();
    } else if (op === 0x0b) {
      if (--depth < chosenDepth) chosenDepth = depth, ended++;
      keep();
    } else if (op === 0x0c || op === 0x0d) put(op, ...unsigned(depth - read()));
    else if (op === 0x0e) {
      const count = read(), steps = [];
      first = new Map();
      for (let k = 0, before = 0; k <= count; k++) {
        const to = read(), step = to - before;
        if (step < -60 || step > 60) return null;
        steps.push(step < 0 ? -2 * step - 1 : 2 * step);
        if (!first.has(to)) first.set(to, k);
        before = to;
      }
      chosenDepth = depth;
      put(op, ...unsigned(count), ...steps);
    } else if (op === 0x42) {
      const value = signed();
      if (value >> 16n !== self) keep();
      else if (Number(value & 0xffffn) === (first ? first.get(ended) : 0)) put(returns);
      else put(returnsTo, ...unsigned(Number(value & 0xffffn)));
    } else if (op >= 0x28 && op <= 0x3e) {
      if (read() !== aligned[op - 0x28]) return null;
      from = at;
      read();
      tokens.push(String.fromCharCode(op) + file.toString("latin1", from, at));
    } else {
      if (op === 0x41) signed();
      else if (op === 0x10 || (op >= 0x20 && op <= 0x24) || op === 0x3f || op === 0x40) read();
      else if (op === 0x11) read(), read();
      else if (op === 0x43) at += 4;
      else if (op === 0x44) at += 8;
      else if (op === 0xfc) {
        const more = file[at++];
        if (more === 10) at += 2;
        else if (more === 11) at++;
        else if (more > 7) return null;
      } else if (!(op <= 0x01 || op === 0x05 || op === 0x0f || op === 0x1a || op === 0x1b || (op >= 0x45 && op <= 0xc4))) return null;
      keep();
    }
  }
  return at === stop && depth === -1 ? tokens : null;
}

// shorten gives the commonest pairs of tokens a word of their own, one after
// the other, and returns the functions' texts and what the words stand for.
function shorten(bodies) {
  const ids = new Map(), texts = [], lexicon = [];
  const id = (text) => {
    if (!ids.has(text)) ids.set(text, texts.push(text) - 1);
    return ids.get(text);
  };
  const sequences = bodies.map((tokens) => tokens && Int32Array.from(tokens, id));
  const lengths = sequences.map((s) => s && s.length);
  const most = 2 ** 26; // more tokens than there can be
  for (let w = 0; w < words; w++) {
    const counts = new Map();
    sequences.forEach((s, f) => {
      // What stands first is a function's locals, which are no instruction.
      for (let i = 1; s && i + 1 < lengths[f]; i++) {
        const pair = s[i] * most + s[i + 1];
        counts.set(pair, (counts.get(pair) ?? 0) + 1);
      }
    });
    let best = 0, pair = 0;
    for (const [p, count] of counts) {
      const saves = count * (texts[Math.floor(p / most)].length + texts[p % most].length - 1);
      if (saves > best) best = saves, pair = p;
    }
    if (!best) break;
    const a = Math.floor(pair / most), b = pair % most;
    lexicon.push(texts[a] + texts[b]);
    const word = texts.push(String.fromCharCode(firstWord + w)) - 1;
    sequences.forEach((s, f) => {
      if (!s) return;
      let to = 1;
      for (let i = 1; i < lengths[f]; i++) {
        if (i + 1 < lengths[f] && s[i] === a && s[i + 1] === b) s[to++] = word, i++;
        else s[to++] = s[i];
      }
      lengths[f] = to;
    });
  }
  return { lexicon, texts: sequences.map((s, f) => s && Buffer.from(Array.from(s.subarray(0, lengths[f]), (t) => texts[t]).join(""), "latin1")) };
}

function head() {
  const all = lexicon.flatMap((text) => [Buffer.from(unsigned(text.length)), Buffer.from(text, "latin1")]);
  const bytes = Buffer.concat(all);
  return [Buffer.from(unsigned(bytes.length)), bytes];
}

function bodies() {
  const out = [];
  let some = [], bytes = 0;
  const close = () => {
    if (bytes) out.push(part(2, ...some));
    some = [], bytes = 0;
  };
  functions.forEach((f, n) => {
    if (!texts[n]) {
      close();
      out.push(part(5, f.raw));
      return;
    }
    some.push(texts[n]);
    bytes += texts[n].length;
    if (bytes >= partBytes) close();
  });
  close();
  return out;
}

// elements is the list of functions that may be called by number: all of them.
function elements(start, end) {
  for (let i = start; i < end; i++) {
    at = i;
    const count = read(), from = at, first = read();
    if (count < 1000) continue;
    at = from;
    for (let k = 0; k < count; k++) if (read() !== first + k) break;
    if (at === end) return [plain(file.subarray(start, from)), part(4, Buffer.from([...unsigned(first), ...unsigned(count)]))];
  }
  return [plain(file.subarray(start, end))];
}

// data is the program's memory, with the runtime's table of functions in it.
function data(start, end) {
  const cut = (from, to) => {
    const out = [];
    for (; from < to; from += partBytes) out.push(plain(file.subarray(from, Math.min(from + partBytes, to))));
    return out;
  };
  const mark = Buffer.from([0xf1, 0xff, 0xff, 0xff, 0, 0, 1, 8]);
  const top = file.subarray(start, end).indexOf(mark) + start;
  if (top < start) return cut(start, end);
  const count = Number(file.readBigUInt64LE(top + 8)), table = top + Number(file.readBigUInt64LE(top + 64));
  const records = [];
  let stop = table;
  for (let n = 0; n < count; n++) {
    const record = table + file.readUInt32LE(table + 8 * n + 4), places = file.readUInt32LE(record + 28), data = file[record + 43];
    records.push({ record, places, data });
    stop = record + 4 * (11 + places + data);
  }
  const columns = [Buffer.from(unsigned(count))];
  const column = (of, place, steps) => {
    const bytes = Buffer.alloc(4 * of.length);
    let before = 0;
    of.forEach((r, n) => {
      const word = file.readUInt32LE(place(r));
      bytes.writeUInt32LE((word - before) >>> 0, 4 * n);
      if (steps) before = word;
    });
    columns.push(bytes);
  };
  for (let k = 0; k < 11; k++) column(records, (r) => r.record + 4 * k, k < 2);
  for (let k = 0; records.some((r) => r.places > k); k++) column(records.filter((r) => r.places > k), (r) => r.record + 44 + 4 * k, false);
  for (let k = 0; records.some((r) => r.data > k); k++) column(records.filter((r) => r.data > k), (r) => r.record + 44 + 4 * (r.places + k), false);
  return [...cut(start, table), part(3, ...columns), ...cut(stop, end)];
}

function plain(bytes) { return part(1, bytes); }

function part(kind, ...bytes) {
  const all = Buffer.concat(bytes);
  return Buffer.concat([Buffer.from([kind, ...unsigned(all.length)]), all]);
}

function read() {
  const [value, next] = readUnsigned(file, at);
  at = next;
  return value;
}

function signed() {
  let value = 0n, shift = 0n, byte;
  do {
    byte = file[at++];
    value |= BigInt(byte & 127) << shift;
    shift += 7n;
  } while (byte & 128);
  return byte & 64 ? value - (1n << shift) : value;
}
