// Compiles the widget on a thread of its own and runs it there once, without a
// page. A browser compiles a function when it is first called, and what is
// compiled here is compiled for the page as well: without this the page stands
// still for a second and more on a phone while the widget starts. The page
// gets it when it asks, as even to receive it takes a while: the program as
// soon as it is compiled, so that it sets out, and a word when it was played.
(function () {
  "use strict";
  var program = null, compiled = false, handed = false, ready = false, wanted = false;
  function hand() {
    if (!wanted) return;
    if (compiled && !handed) {
      handed = true;
      postMessage(program); // null: the page compiles it itself
    }
    if (ready) postMessage("played");
  }
  function done() {
    compiled = ready = true;
    hand();
  }
  function text(address) {
    var come = fetch(address).then(function (r) { return r.text(); });
    come.catch(function () { /* the widget hears of it */ });
    return come;
  }
  function play(about) {
    var come = fetch(about.packed || "/web/app.wasm");
    if (about.packed) {
      importScripts(about.unpack);
      come = come.then(self.tarnwrightUnpack);
    }
    WebAssembly.compileStreaming(come).then(function (it) {
      program = it;
      compiled = true;
      hand();
      self.tarnwrightRehearsal = { query: about.query, narrow: about.narrow, done: done };
      self.tarnwrightBook = text(about.book);
      self.tarnwrightWords = text(about.words);
      importScripts("/wasm_exec.js");
      var go = new Go();
      // A timer that is still set would go on asking for a program that is gone.
      go.exit = function () {
        go._scheduledTimeouts.forEach(function (timer) { clearTimeout(timer); });
        go._scheduledTimeouts.clear();
        go._resume = function () {};
      };
      return WebAssembly.instantiate(program, go.importObject).then(function (it) { return go.run(it); });
    }).then(done, done);
  }
  self.onmessage = function (said) {
    if (said.data.book) play(said.data);
    else {
      wanted = true;
      hand();
    }
  };
})();
