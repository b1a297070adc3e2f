// Starts the widget on the first touch, key or focus, or when the browser is
// idle on a fast line. Until then the page is a plain form that answers.
(function () {
  "use strict";
  var root = document.documentElement;
  var framed = window.parent !== window;

  // The framework reads storage as it starts and would stop where a frame may
  // not have any; a stand-in in memory keeps it going. A page in a frame gets
  // the stand-in always: it keeps nothing on a device that visits another site.
  ["localStorage", "sessionStorage"].forEach(function (name) {
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
  });

  function hide(owner, name, instead) {
    try {
      Object.defineProperty(owner, name, { configurable: true, value: instead });
    } catch (fixed) { /* the page stays a plain form */ }
  }

  if (framed) {
    hide(window, "indexedDB", undefined);
    hide(window, "caches", undefined);
    delete Navigator.prototype.serviceWorker;
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
    performance.mark("wake");
    wakers.forEach(function (w) { removeEventListener(w, start, true); });
    // The book comes beside the widget, which asks for it when it runs.
    window.tarnwrightBook = fetch(root.dataset.book).then(function (r) {
      if (!r.ok) throw new Error("book: " + r.status);
      return r.text();
    });
    window.tarnwrightBook.catch(function () { /* the widget hears of it */ });
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
