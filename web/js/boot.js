// Brings the widget when the browser is idle on a fast line, and starts it at
// the first sign of a person: a pointer that moves, a touch, a key. Until then
// the page is a plain form that answers, and its thread has nothing to do.
(function () {
  "use strict";
  var root = document.documentElement;
  var framed = window.parent !== window;

  // The framework reads storage as it starts and would stop where a frame may
  // not have any; a stand-in in memory keeps it going. A page in a frame gets
  // the stand-in always: it keeps nothing on a device that visits another site.
  // To look at storage stops the thread, so a page nobody touches does not.
  function shelter(name) {
    try {
      if (!framed) {
        window[name].getItem("-");
        return;
      }
    } catch (refused) { /* the stand-in it is */ }
    var kept = new Map();
    hide(window, name, {
      getItem: function (k) { return kept.has(String(k)) ? kept.get(String(k)) : null; },
      setItem: function (k, v) { kept.set(String(k), String(v)); },
      removeItem: function (k) { kept.delete(String(k)); },
      clear: function () { kept.clear(); },
      key: function (i) { return Array.from(kept.keys())[i] || null; },
      get length() { return kept.size; }
    });
  }

  function hide(owner, name, instead) {
    try {
      Object.defineProperty(owner, name, { configurable: true, value: instead });
    } catch (fixed) { /* the page stays a plain form */ }
  }

  if (framed) {
    hide(window, "indexedDB", undefined);
    hide(window, "caches", undefined);
    root.classList.add("framed");
    if (!tell()) return;
  }

  // Tells the page around the frame how high this one is, and when an enquiry
  // has gone, with its reference and no more. It returns false when that page
  // is not one that may show this.
  function tell() {
    var host = (location.ancestorOrigins || [])[0];
    if (!host || host === "null") {
      try { host = new URL(document.referrer).origin; } catch (unknown) { host = ""; }
    }
    if (host === location.origin) host = "";
    var hosts = root.dataset.hosts;
    if (hosts && hosts.split(" ").indexOf(host) < 0) {
      root.hidden = true;
      return false;
    }

    // A height is no secret, so it may go to a page whose name is not known.
    function post(what) {
      what.tarnwright = 1;
      if (host || what.height) parent.postMessage(what, host || "*");
    }
    var told = "";
    function sent(reference) {
      if (reference && reference !== told) post({ sent: told = reference });
    }
    document.addEventListener("tarnwright-sent", function (e) { sent(e.detail); });
    var done = document.querySelector("[data-sent]");
    if (done) sent(done.dataset.sent);

    // Growing again and again with nobody at the page is a page that chases
    // its own frame: it stops until somebody does something.
    var high = 0, wide = 0, growths = 0, waits = false, pauseMs = 100;
    function settle() { growths = 0; }
    ["pointerdown", "keydown", "input"].forEach(function (k) { addEventListener(k, settle, true); });
    function measure() {
      waits = false;
      var to = Math.ceil(document.body.getBoundingClientRect().height);
      if (innerWidth !== wide) settle();
      wide = innerWidth;
      if (!to || to === high || (to > high && ++growths > 20)) return;
      post({ height: high = to });
    }
    new ResizeObserver(function () {
      if (waits) return;
      if (!high) return measure();
      waits = true;
      setTimeout(measure, pauseMs);
    }).observe(document.body);
    return true;
  }

  // A page that answers a sent form is done: starting the widget there would
  // draw the form again.
  if (location.pathname !== "/" || !root.dataset.book || typeof WebAssembly !== "object") return;

  // Only a salesperson's tablet keeps anything: the files, so that the page
  // opens without a line, and sealed enquiries. Nothing is kept in a frame.
  var own = document.currentScript.dataset;
  var tablet = !framed && new URLSearchParams(location.search).get("mode") === "tablet";
  var workers = tablet ? navigator.serviceWorker : null;
  if (tablet) {
    document.documentElement.dataset.tablet = "1";
    document.documentElement.dataset.seal = own.seal || "";
    if (workers) watch();
  } else {
    // The framework would have a worker everywhere.
    try {
      Object.defineProperty(navigator, "serviceWorker", { configurable: true, value: {
        register: function () { return Promise.resolve({ addEventListener: function () {}, update: function () {} }); },
        addEventListener: function () {}
      } });
    } catch (fixed) { /* it registers a worker that a plain page does not need */ }
  }

  // A new version waits until the page says that nothing is open.
  function watch() {
    var hear = function () {}, waiting = null, applying = false, hourMs = 3600000;
    function see(reg) {
      if (reg.waiting && workers.controller) { waiting = reg.waiting; hear(); }
      var next = reg.installing;
      if (next) next.addEventListener("statechange", function () { if (next.state === "installed") see(reg); });
    }
    workers.register("/app-worker.js", { updateViaCache: "none" }).then(function (reg) {
      see(reg);
      reg.addEventListener("updatefound", function () { see(reg); });
      function look() { reg.update().catch(function () { /* no line */ }); }
      setInterval(look, hourMs);
      document.addEventListener("visibilitychange", function () { if (!document.hidden) look(); });
    }, function () { /* the page works with a line */ });
    workers.addEventListener("controllerchange", function () { if (applying) location.reload(); });
    window.tarnwrightUpdate = {
      listen: function (f) { hear = f; if (waiting) f(); },
      apply: function () { if (waiting) { applying = true; waiting.postMessage("apply"); } }
    };
  }

  var started = false;
  var wakers = ["pointerdown", "pointermove", "touchstart", "wheel", "keydown", "focusin"];
  function add(src, then) {
    var s = document.createElement("script");
    s.src = src;
    s.async = false;
    if (then) s.onload = s.onerror = then;
    document.head.appendChild(s);
  }
  function text(address) {
    var come = fetch(address).then(function (r) {
      if (!r.ok) throw new Error(address + ": " + r.status);
      return r.text();
    });
    come.catch(function () { /* the widget hears of it */ });
    return come;
  }
  function start() {
    if (started) return;
    started = true;
    performance.mark("wake");
    ["localStorage", "sessionStorage"].forEach(shelter);
    wakers.forEach(function (w) { removeEventListener(w, start, true); });
    // The book and the page's words come beside the widget, which asks for them when it runs.
    window.tarnwrightBook = text(root.dataset.book);
    window.tarnwrightWords = text(root.dataset.words);
    bring();
    // The framework's start is fetched by now, and run when the rest is there.
    var early = document.createElement("link");
    early.rel = "preload";
    early.as = "script";
    early.href = "/app.js";
    document.head.appendChild(early);
    function framework() { add(own.patch); add("/wasm_exec.js", function () { brought(function () { add("/app.js"); }); }); }
    if (tablet && own.queue && own.seal && window.indexedDB && crypto.subtle) add(own.queue, framework);
    else framework();
  }
  wakers.forEach(function (w) { addEventListener(w, start, true); });

  // The widget is compiled and run once on another thread before the page
  // gets it (rehearse.js). Where that cannot be, the framework does as ever.
  var stage;
  function bring() {
    if (stage !== undefined) return;
    try {
      stage = new Worker(own.rehearse);
      stage.onerror = function () { stage = null; };
      stage.postMessage({ query: location.search, narrow: innerWidth < 600, book: root.dataset.book, words: root.dataset.words, packed: own.packed, unpack: own.unpack });
    } catch (refused) { stage = null; }
  }
  function brought(then) {
    if (!stage) return then();
    var played, set = false, longestMs = 6000; // for which a page waits on it
    function out(program) {
      if (set) return;
      set = true;
      if (program) give(program);
      then();
      setTimeout(over, longestMs);
    }
    function over() {
      stage.terminate();
      played("");
      out(null);
    }
    // The widget sets out, and draws when this has come to its end.
    window.tarnwrightPlayed = new Promise(function (done) { played = done; });
    stage.onmessage = function (said) {
      if (said.data === "played") over();
      else out(said.data);
    };
    stage.onerror = over;
    stage.postMessage({});
  }

  // give hands the framework, which would fetch and compile the widget, what
  // is compiled already.
  function give(program) {
    var real = window.fetch, compile = WebAssembly.instantiateStreaming;
    window.fetch = function (address) {
      if (address !== "/web/app.wasm") return real.apply(window, arguments);
      window.fetch = real;
      return Promise.resolve(new Response(""));
    };
    WebAssembly.instantiateStreaming = function (nothing, imports) {
      WebAssembly.instantiateStreaming = compile;
      return WebAssembly.instantiate(program, imports).then(function (it) {
        // To put it in place and to run it are two tasks: a finger may come between.
        return new Promise(function (done) { setTimeout(done, 0, { module: program, instance: it }); });
      });
    };
  }

  // Fetching ahead costs a phone on a slow or metered line money, so it waits
  // for a touch there.
  var line = navigator.connection || {};
  var slow = line.saveData || /(^|-)2g$|^3g$/.test(line.effectiveType || "");
  // A pond in the link's fragment, or what was typed before a reload, is shown
  // by the widget alone.
  var visit = performance.getEntriesByType("navigation")[0];
  var known = location.hash.length > 1 || (visit && visit.type !== "navigate");
  if (tablet || known) start();
  else if (!slow) {
    var idle = window.requestIdleCallback || function (f) { setTimeout(f, 1500); };
    addEventListener("load", function () { idle(bring, { timeout: 4000 }); });
  }
})();
