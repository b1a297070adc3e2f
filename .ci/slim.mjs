// Makes a compiled widget lighter without a change in what it does.
//
// The linker leaves out every short run of noughts in the program's memory, and
// writes a hundred thousand pieces instead, each with its place: one part in fifteen
// of the weight when compressed, and slow to lay out. They are joined here.
//
// What only a stack trace reads is taken out: the tables that say which line of
// which file an instruction is from, an eighth of the weight. Traces keep the
// names of functions; the runtime prints "?" for a place it has no table for
// (runtime.funcline1). Functions, data and what the collector needs stay as
// they are. The tables are those of Go 1.20 to 1.26 (pcHeader in
// runtime/symtab.go, _func in runtime/runtime2.go). A build whose tables look
// otherwise keeps them, with a word of it; how much a widget may weigh is for
// its test.
import { readFileSync, writeFileSync } from "node:fs";
import { readUnsigned, unsigned } from "./numbers.mjs";

const path = process.argv[2];
const file = readFileSync(path);
const data = dataSection();
const memory = Buffer.alloc(Math.max(...data.parts.map(([to, , length]) => to + length)));
for (const [to, from, length] of data.parts) file.copy(memory, to, from, from + length);

try {
  strip();
} catch (fault) {
  console.log(`${path} keeps its line tables: ${fault.message}`);
}
const body = joined();
writeFileSync(path, Buffer.concat([file.subarray(0, data.start), Buffer.from([11, ...unsigned(body.length)]), body, file.subarray(data.end)]));

// dataSection is where it stands in the file, and its parts: where each goes in
// memory, where it stands, how long it is.
function dataSection() {
  let at = 8;
  const number = () => {
    const [value, next] = readUnsigned(file, at);
    at = next;
    return value;
  };
  const need = (byte) => {
    if (file[at++] !== byte) throw new Error("its data is laid out otherwise");
  };
  while (at < file.length) {
    const start = at, section = file[at++], size = number(), end = at + size;
    if (section === 11) {
      const parts = [];
      for (let left = number(); left > 0; left--) {
        need(0x00), need(0x41); // a part of memory that starts at a constant
        const to = number(); // signed, and below 2^31 of a sign that is not set
        need(0x0b);
        const length = number();
        parts.push([to, at, length]);
        at += length;
      }
      return { start, end, parts: parts.sort(([a], [b]) => a - b) };
    }
    if (section === 12) throw new Error("it counts its parts elsewhere too");
    at = end;
  }
  throw new Error("it has no data");
}

// joined is the same memory in as few parts as is worth while: a run of noughts
// that is shorter than a part's own head and what it breaks is written out.
function joined() {
  const short = 64, parts = [];
  for (const [to, , length] of data.parts) {
    const last = parts.at(-1);
    if (last && to - last[1] < short) last[1] = to + length;
    else parts.push([to, to + length]);
  }
  const out = [Buffer.from(unsigned(parts.length))];
  for (const [from, to] of parts) out.push(Buffer.from([0x00, 0x41, ...signed(from), 0x0b, ...unsigned(to - from)]), memory.subarray(from, to));
  return Buffer.concat(out);
}

// signed is a number that is not below nought with room for its sign.
function signed(n) {
  const out = [];
  for (; n >= 64; n = Math.floor(n / 128)) out.push((n % 128) | 128);
  return [...out, n];
}

function strip() {
  const head = header();
  const word = (offset) => Number(memory.readBigUInt64LE(head + offset));
  const count = word(8);
  const [units, files, tables, functions] = [40, 48, 56, 64].map((o) => head + word(o));
  if (!(head < units && units < files && files < tables && tables < functions)) throw new Error("its tables are in another order");

  const [places, kept] = [new Set(), new Set([0])];
  const records = [];
  for (let n = 0; n < count; n++) {
    const f = functions + memory.readUInt32LE(functions + 8 * n + 4);
    const field = (offset) => memory.readUInt32LE(f + offset);
    kept.add(field(16)); // how deep the stack is
    places.add(field(20)).add(field(24)); // the file, the line
    for (let k = 0; k < field(28); k++) kept.add(field(44 + 4 * k));
    records.push(f);
  }
  for (const table of places) {
    if (!kept.has(table)) memory.fill(0, tables + table, end(tables + table, functions));
  }
  for (const f of records) {
    memory.fill(0, f + 20, f + 28); // no file, no line
    memory.fill(0, f + 32, f + 40); // nor which files, nor the first line
  }
  memory.fill(0, units, tables);
}

// header is where the table of functions starts: its mark, a step of one byte,
// words of eight.
function header() {
  const mark = Buffer.from([0xf1, 0xff, 0xff, 0xff, 0, 0, 1, 8]);
  const at = memory.indexOf(mark);
  if (at < 0 || memory.indexOf(mark, at + 1) >= 0) throw new Error("its table of functions is not where it is known to be");
  return at;
}

// end is behind a table: pairs of numbers in steps of seven bits, until a value
// that changes by nothing.
function end(at, limit) {
  for (let first = true; at < limit; first = false) {
    if (memory[at] === 0 && !first) return at + 1;
    while (memory[at++] >= 128);
    while (memory[at++] >= 128);
  }
  throw new Error("a table has no end");
}
