// Starts the widget on the first touch, key or focus, or when the browser is
// idle on a fast line. Until then the page is a plain form that answers.
(function () {
  "use strict";

  // The framework reads storage as it starts and would stop where a frame may
  // not have any; a stand-in in memory keeps it going.
  ["localStorage", "sessionStorage"].forEach(function (name) {
    try {
      window[name].getItem("-");
    } catch (refused) {
      var kept = new Map();
      var standIn = {
        getItem: function (k) { return kept.has(String(k)) ? kept.get(String(k)) : null; },
        setItem: function (k, v) { kept.set(String(k), String(v)); },
        removeItem: function (k) { kept.delete(String(k)); },
        clear: function () { kept.clear(); },
        key: function (i) { return Array.from(kept.keys())[i] || null; },
        get length() { return kept.size; }
      };
      try {
        Object.defineProperty(window, name, { configurable: true, value: standIn });
      } catch (fixed) { /* the page stays a plain form */ }
    }
  });

  // A page that answers a sent form is done: starting the widget there would
  // draw the form again.
  if (location.pathname !== "/" || !document.getElementById("book") || typeof WebAssembly !== "object") return;

  // Only a salesperson's tablet keeps anything: the files, so that the page
  // opens without a line, and sealed enquiries. Nothing is kept in a frame.
  var own = document.currentScript.dataset;
  var tablet = window.top === window && new URLSearchParams(location.search).get("mode") === "tablet";
  var workers = navigator.serviceWorker;
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
  var wakers = ["pointerdown", "keydown", "focusin"];
  function add(src, then) {
    var s = document.createElement("script");
    s.src = src;
    s.async = false;
    if (then) s.onload = s.onerror = then;
    document.head.appendChild(s);
  }
  function start() {
    if (started) return;
    started = true;
    wakers.forEach(function (w) { removeEventListener(w, start, true); });
    function framework() { add("/wasm_exec.js", function () { add("/app.js"); }); }
    if (tablet && own.queue && own.seal && window.indexedDB && crypto.subtle) add(own.queue, framework);
    else framework();
  }
  wakers.forEach(function (w) { addEventListener(w, start, true); });

  // Fetching ahead costs a phone on a slow or metered line money, so it waits
  // for a touch there.
  var line = navigator.connection || {};
  var slow = line.saveData || /(^|-)2g$|^3g$/.test(line.effectiveType || "");
  if (tablet) start();
  else if (!slow) {
    var idle = window.requestIdleCallback || function (f) { setTimeout(f, 1500); };
    addEventListener("load", function () { idle(start, { timeout: 4000 }); });
  }
})();
