// Takes out of a compiled widget what only a stack trace reads: the tables that
// say which line of which file an instruction is from, an eighth of its weight
// when compressed. Traces keep the names of functions; the runtime prints "?"
// for a place it has no table for (runtime.funcline1). Functions, data and what
// the collector needs stay as they are.
//
// The tables are those of Go 1.20 to 1.26 (pcHeader in runtime/symtab.go, _func
// in runtime/runtime2.go). A build whose tables look otherwise is left whole,
// with a word of it; how much a widget may weigh is for its test.
import { readFileSync, writeFileSync } from "node:fs";

const path = process.argv[2];
const file = readFileSync(path);

// segments are where the file holds the program's memory: [memory, file, length].
function segments() {
  let at = 8;
  const unsigned = () => {
    for (let value = 0, scale = 1; ; scale *= 128) {
      const byte = file[at++];
      value += (byte & 127) * scale;
      if (byte < 128) return value;
    }
  };
  const need = (byte) => {
    if (file[at++] !== byte) throw new Error("its data is laid out otherwise");
  };
  while (at < file.length) {
    const section = file[at++], size = unsigned(), end = at + size;
    if (section === 11) {
      const found = [];
      for (let left = unsigned(); left > 0; left--) {
        need(0x00), need(0x41); // a part of memory that starts at a constant
        const memory = unsigned(); // signed, and below 2^31 of a sign that is not set
        need(0x0b);
        const length = unsigned();
        found.push([memory, at, length]);
        at += length;
      }
      return found;
    }
    at = end;
  }
  throw new Error("it has no data");
}

const parts = segments();
const memory = Buffer.alloc(Math.max(...parts.map(([to, , length]) => to + length)));
for (const [to, from, length] of parts) file.copy(memory, to, from, from + length);

try {
  strip();
} catch (fault) {
  console.log(`${path} keeps its line tables: ${fault.message}`);
  process.exit(0);
}
for (const [from, to, length] of parts) memory.copy(file, to, from, from + length);
writeFileSync(path, file);

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
