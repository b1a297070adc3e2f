// Compiles the widget on a thread of its own and runs it there once, without a
// page. A browser compiles a function when it is first called, and what is
// compiled here is compiled for the page as well: without this the page stands
// still for a second and more on a phone while the widget starts.
(function () {
  "use strict";
  self.onmessage = function (ask) {
    var about = ask.data, told = false;
    function text(address) {
      var come = fetch(address).then(function (r) { return r.text(); });
      come.catch(function () { /* the widget hears of it */ });
      return come;
    }
    WebAssembly.compileStreaming(fetch("/web/app.wasm")).then(function (program) {
      function tell() {
        if (!told) postMessage(program);
        told = true;
      }
      self.tarnwrightRehearsal = { query: about.query, narrow: about.narrow, done: tell };
      self.tarnwrightBook = text(about.book);
      self.tarnwrightWords = text(about.words);
      importScripts("/wasm_exec.js");
      var go = new Go();
      return WebAssembly.instantiate(program, go.importObject).then(function (it) { return go.run(it); }).then(tell, tell).then(close);
    }).catch(function () {
      postMessage(null); // the page compiles it itself
      close();
    });
  };
})();
