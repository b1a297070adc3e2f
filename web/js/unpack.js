// Unpacks the widget while it comes. A compiled program says much twice: where
// each call returns to, how far each branch leaps, what stands next in a table
// of all its functions. .ci/pack.mjs leaves out what can be told from the rest,
// a quarter of what comes over the line; here it is put back, byte for byte.
//
// What comes is a list of short words for common runs of instructions, and then
// parts, each with its kind and its length: 1 as it stands, 2 functions, 3 the
// runtime's table of functions, 4 numbers that rise by one, 5 one function as it
// stands, 0 the end. Numbers are in steps of seven bits, as in the program.
(function () {
  "use strict";
  var returnBase = 0x1000; // function 0 in the addresses that calls return to (cmd/link/internal/wasm)
  var returns = 0xc5, returnsTo = 0xc6, firstWord = 0xc7; // bytes that are no instruction

  // What stands behind an instruction, by its byte.
  var nothing = 0, number = 1, numbers = 2, opens = 3, ends = 4, leaps = 5, chooses = 6, touches = 7, four = 8, eight = 9, long = 10, unknown = 11;
  var behind = new Uint8Array(256).fill(unknown);
  [[0x00, 0x01, nothing], [0x02, 0x04, opens], [0x05, 0x05, nothing], [0x0b, 0x0b, ends], [0x0c, 0x0d, leaps],
    [0x0e, 0x0e, chooses], [0x0f, 0x0f, nothing], [0x10, 0x10, number], [0x11, 0x11, numbers], [0x1a, 0x1b, nothing],
    [0x20, 0x24, number], [0x28, 0x3e, touches], [0x3f, 0x42, number], [0x43, 0x43, four], [0x44, 0x44, eight],
    [0x45, 0xc4, nothing], [0xfc, 0xfc, long]].forEach(function (k) { behind.fill(k[2], k[0], k[1] + 1); });
  // How an instruction on memory, from 0x28 on, is aligned if nothing else is said.
  var aligned = [2, 3, 2, 3, 0, 0, 1, 1, 0, 0, 1, 1, 2, 2, 2, 3, 2, 3, 0, 1, 0, 1, 2];

  function wrong() { throw new Error("the packed widget is broken"); }

  // unpacker gives emit the program in pieces, as it is given what has come.
  function unpacker(emit) {
    var come = new Uint8Array(0), at = 0, limit = 0; // a part is from at to limit
    var out = new Uint8Array(1 << 20), to = 0;
    var words = null, functions = 0, over = false;

    function room(more) {
      if (to + more <= out.length) return;
      var wider = new Uint8Array(2 * (to + more));
      wider.set(out.subarray(0, to));
      out = wider;
    }
    function read() {
      for (var value = 0, scale = 1; at < limit; scale *= 128) {
        var b = come[at++];
        value += (b & 127) * scale;
        if (b < 128) return value;
      }
      return wrong();
    }
    function write(n) {
      for (; n >= 128; n = Math.floor(n / 128)) out[to++] = n & 127 | 128;
      out[to++] = n;
    }

    // A function: how deep its blocks are, how many of those that calls return
    // to have ended, and which number each of them is returned to by first.
    var depth, ended, chosenDepth, firstFor;
    function body() {
      room(1 << 12);
      var start = to;
      depth = ended = 0;
      chosenDepth = -1;
      firstFor = null;
      for (var groups = read(), g = (write(groups), 0); g < groups; g++) {
        room(16);
        write(read());
        out[to++] = come[at++];
      }
      at = run(come, at, limit);
      if (depth >= 0) wrong();
      functions++;
      // Its length stands before it.
      var length = to - start;
      room(5);
      for (var rest = length, bytes = 1; rest >= 128; bytes++) rest = Math.floor(rest / 128);
      out.copyWithin(start + bytes, start, to);
      to = start;
      write(length);
      to += length;
    }

    // numberIn is the number at a place among instructions; past is where the
    // next stands.
    var past;
    function numberIn(from, i) {
      for (var value = 0, scale = 1; ; scale *= 128) {
        var b = from[i++];
        value += (b & 127) * scale;
        if (!(b >= 128)) break; // behind the end there is nothing
      }
      past = i;
      return value;
    }

    // run puts instructions back, to the end of what it is given or of the
    // function, and returns where it stopped.
    function run(from, i, end) {
      var b, k, n, before;
      while (i < end) {
        room(32);
        var op = from[i++];
        if (op >= returns && op !== 0xfc) {
          if (op >= firstWord) {
            n = words[op - firstWord] || wrong();
            run(n, 0, n.length);
            if (depth < 0) return i;
            continue;
          }
          b = firstFor ? firstFor[ended] : 0;
          if (op === returnsTo) {
            b = numberIn(from, i);
            i = past;
          }
          out[to++] = 0x42;
          for (n = (returnBase + functions) * 65536 + b; n >= 64; n = Math.floor(n / 128)) out[to++] = n & 127 | 128;
          out[to++] = n;
          continue;
        }
        out[to++] = op;
        switch (behind[op]) {
        case nothing:
          break;
        case touches:
          out[to++] = aligned[op - 0x28];
          do out[to++] = b = from[i++]; while (b >= 128);
          break;
        case numbers:
          do out[to++] = b = from[i++]; while (b >= 128);
          // falls through
        case number:
          do out[to++] = b = from[i++]; while (b >= 128);
          break;
        case opens:
          depth++;
          do out[to++] = b = from[i++]; while (b >= 128);
          break;
        case ends:
          if (--depth < chosenDepth) {
            chosenDepth = depth;
            ended++;
          }
          if (depth < 0) return i;
          break;
        case leaps: // counted from without, not from within
          write(depth - numberIn(from, i));
          i = past;
          break;
        case chooses: // a list of steps
          n = numberIn(from, i);
          i = past;
          if (n > end - i) wrong();
          room(5 * n + 32);
          write(n);
          chosenDepth = depth;
          firstFor = [];
          for (k = before = 0; k <= n; k++) {
            b = from[i++];
            before += b & 1 ? -(b + 1) / 2 : b / 2;
            write(before);
            if (firstFor[before] === undefined) firstFor[before] = k;
          }
          break;
        case four:
          for (k = 0; k < 4; k++) out[to++] = from[i++];
          break;
        case eight:
          for (k = 0; k < 8; k++) out[to++] = from[i++];
          break;
        case long:
          out[to++] = b = from[i++];
          for (k = b < 8 ? 0 : b === 10 ? 2 : b === 11 ? 1 : wrong(); k > 0; k--) out[to++] = from[i++];
          break;
        default:
          wrong();
        }
      }
      return i;
    }

    // table is the runtime's table of functions with their records, each field
    // of all records together (runtime/symtab.go, _func in runtime2.go).
    function table() {
      var count = read(), fixed = 11, k;
      if (count * fixed * 4 > limit - at) wrong();
      function column(many, steps) {
        var all = new Uint32Array(many);
        for (var n = 0, before = 0; n < many; n++, at += 4) {
          all[n] = (come[at] | come[at + 1] << 8 | come[at + 2] << 16 | come[at + 3] << 24) + before;
          if (steps) before = all[n];
        }
        return all;
      }
      // Records have so many more fields; those that have a k-th stand together.
      function more(counts) {
        for (var columns = [], k = 0; ; k++) {
          var many = 0;
          for (var n = 0; n < count; n++) if (counts(n) > k) many++;
          if (!many) return columns;
          if (many * 4 > limit - at) wrong();
          columns.push({ words: column(many, false), next: 0 });
        }
      }
      function word(v) {
        out[to] = v;
        out[to + 1] = v >>> 8;
        out[to + 2] = v >>> 16;
        out[to + 3] = v >>> 24;
        to += 4;
      }
      var field = [];
      for (k = 0; k < fixed; k++) field.push(column(count, k < 2));
      function places(n) { return field[7][n]; }
      function data(n) { return field[10][n] >>> 24; }
      var extra = [[places, more(places)], [data, more(data)]];
      function whole(n) { return Math.ceil(n / 8) * 8; }
      var first = whole(8 * count + 4), place = first;
      room(first);
      for (var n = 0; n < count; n++) {
        word(field[0][n]);
        word(place);
        place = whole(place + 4 * (fixed + places(n) + data(n)));
      }
      word(count ? field[0][count - 1] + 1 : 0);
      room(place);
      for (n = 0; n < count; n++) {
        if (to & 7) word(0); // each starts on a whole word of eight, as out itself does here
        for (k = 0; k < fixed; k++) word(field[k][n]);
        extra.forEach(function (e) {
          for (var k = 0; k < e[0](n); k++) word(e[1][k].words[e[1][k].next++]);
        });
      }
    }

    function flush() {
      if (to) emit(out.slice(0, to));
      to = 0;
    }

    // part takes the next part, if all of it is there.
    function part() {
      var start = at, kind = words ? come[at++] : -1, length, k;
      limit = come.length;
      for (length = 0, k = 1; ; k *= 128) {
        if (at >= limit) return at = start, false;
        length += (come[at] & 127) * k;
        if (come[at++] < 128) break;
      }
      if (over) wrong();
      if (length > limit - at) return at = start, false;
      limit = at + length;
      switch (kind) {
      case -1:
        for (words = []; at < limit;) {
          length = read();
          words.push(come.subarray(at, at += length));
        }
        break;
      case 0:
        over = true;
        break;
      case 5:
        functions++;
        // falls through
      case 1:
        room(length);
        out.set(come.subarray(at, limit), to);
        to += length;
        at = limit;
        break;
      case 2:
        while (at < limit) body();
        break;
      case 3:
        flush();
        table();
        break;
      case 4:
        var first = read(), count = read();
        if (count > 1e6) wrong();
        room(5 * count);
        for (k = 0; k < count; k++) write(first + k);
        break;
      default:
        wrong();
      }
      if (at !== limit) wrong();
      flush();
      return true;
    }
    return {
      push: function (bytes) {
        var all = new Uint8Array(come.length - at + bytes.length);
        all.set(come.subarray(at));
        all.set(bytes, come.length - at);
        come = all;
        at = 0;
        while (part()) { /* the next */ }
      },
      end: function () { if (!over || at !== come.length) wrong(); }
    };
  }

  // tarnwrightUnpack makes the answer of a server into one that holds the program.
  self.tarnwrightUnpack = function (answer) {
    if (!answer.ok) throw new Error(answer.url + ": " + answer.status);
    var reader = answer.body.getReader(), emitted;
    return new Response(new ReadableStream({
      start: function (controller) {
        this.unpacker = unpacker(function (piece) {
          emitted = true;
          controller.enqueue(piece);
        });
      },
      pull: function (controller) {
        var it = this.unpacker;
        emitted = false;
        // Nobody asks again after an answer with nothing in it.
        return (function next() {
          return reader.read().then(function (some) {
            if (some.done) {
              it.end();
              controller.close();
              return null;
            }
            it.push(some.value);
            return emitted ? null : next();
          });
        })();
      },
      cancel: function (why) { return reader.cancel(why); }
    }), { headers: { "Content-Type": "application/wasm" } });
  };
  self.tarnwrightUnpacker = unpacker;
})();
