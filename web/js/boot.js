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

  var started = false;
  var wakers = ["pointerdown", "keydown", "focusin"];
  function add(src, then) {
    var s = document.createElement("script");
    s.src = src;
    s.async = false;
    if (then) s.onload = then;
    document.head.appendChild(s);
  }
  function start() {
    if (started) return;
    started = true;
    wakers.forEach(function (w) { removeEventListener(w, start, true); });
    add("/wasm_exec.js", function () { add("/app.js"); });
  }
  wakers.forEach(function (w) { addEventListener(w, start, true); });

  // Fetching ahead costs a phone on a slow or metered line money, so it waits
  // for a touch there.
  var line = navigator.connection || {};
  var slow = line.saveData || /(^|-)2g$|^3g$/.test(line.effectiveType || "");
  if (!slow) {
    var idle = window.requestIdleCallback || function (f) { setTimeout(f, 1500); };
    addEventListener("load", function () { idle(start, { timeout: 4000 }); });
  }
})();
