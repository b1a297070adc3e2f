// Keeps enquiries that could not be sent, on a salesperson's tablet only, and
// sends them when it can. Each is sealed to the builder's public key before it
// is stored, so this device cannot read it again: HPKE in base mode with
// DHKEM(P-256, HKDF-SHA256), HKDF-SHA256 and AES-256-GCM (RFC 9180).
(function () {
  "use strict";
  var text = new TextEncoder();
  var none = new Uint8Array(0);

  function join() {
    var parts = [].slice.call(arguments), n = 0;
    parts.forEach(function (p) { n += p.length; });
    var out = new Uint8Array(n);
    n = 0;
    parts.forEach(function (p) { out.set(p, n); n += p.length; });
    return out;
  }
  function base64(bytes) {
    var s = "";
    bytes.forEach(function (b) { s += String.fromCharCode(b); });
    return btoa(s);
  }
  function bytesOf(b64) { return Uint8Array.from(atob(b64), function (c) { return c.charCodeAt(0); }); }

  async function mac(key, data) {
    // An empty key and one of zeros are the same to HMAC; not every browser
    // takes an empty one.
    var k = await crypto.subtle.importKey("raw", key.length ? key : new Uint8Array(32), { name: "HMAC", hash: "SHA-256" }, false, ["sign"]);
    return new Uint8Array(await crypto.subtle.sign("HMAC", k, data));
  }
  var kem = join(text.encode("KEM"), [0, 16]);
  var suite = join(text.encode("HPKE"), [0, 16, 0, 1, 0, 2]);
  function extract(id, salt, label, input) { return mac(salt, join(text.encode("HPKE-v1"), id, text.encode(label), input)); }
  async function expand(id, key, label, info, n) {
    // One block of 32 bytes is enough for every use here.
    return (await mac(key, join([n >> 8, n & 255], text.encode("HPKE-v1"), id, text.encode(label), info, [1]))).slice(0, n);
  }

  // seal gives the sender's public value and the sealed text.
  async function seal(publicKey, about, beside, plain) {
    var curve = { name: "ECDH", namedCurve: "P-256" };
    var to = await crypto.subtle.importKey("raw", publicKey, curve, false, []);
    var own = await crypto.subtle.generateKey(curve, true, ["deriveBits"]);
    var enc = new Uint8Array(await crypto.subtle.exportKey("raw", own.publicKey));
    var dh = new Uint8Array(await crypto.subtle.deriveBits({ name: "ECDH", public: to }, own.privateKey, 256));
    var shared = await expand(kem, await extract(kem, none, "eae_prk", dh), "shared_secret", join(enc, publicKey), 32);
    var context = join([0], await extract(suite, none, "psk_id_hash", none), await extract(suite, none, "info_hash", about));
    var secret = await extract(suite, shared, "secret", none);
    var key = await crypto.subtle.importKey("raw", await expand(suite, secret, "key", context, 32), "AES-GCM", false, ["encrypt"]);
    var nonce = await expand(suite, secret, "base_nonce", context, 12);
    var box = await crypto.subtle.encrypt({ name: "AES-GCM", iv: nonce, additionalData: beside }, key, plain);
    return { enc: base64(enc), box: base64(new Uint8Array(box)) };
  }

  // The store: one record an enquiry, in the order they were made.
  var opened;
  function store() {
    opened = opened || new Promise(function (done, failed) {
      var ask = indexedDB.open("tarnwright", 1);
      ask.onupgradeneeded = function () { ask.result.createObjectStore("waiting", { keyPath: "order", autoIncrement: true }).createIndex("id", "id", { unique: true }); };
      ask.onsuccess = function () { done(ask.result); };
      ask.onerror = function () { opened = null; failed(ask.error); };
    });
    return opened;
  }
  async function within(mode, work) {
    var db = await store();
    return new Promise(function (done, failed) {
      var t = db.transaction("waiting", mode, { durability: "strict" });
      var ask = work(t.objectStore("waiting"));
      t.oncomplete = function () { done(ask && ask.result); };
      t.onerror = t.onabort = function () { failed(t.error); };
    });
  }
  function all() { return within("readonly", function (s) { return s.getAll(); }); }
  function put(record) { return within("readwrite", function (s) { return s.put(record); }); }
  function drop(order) { return within("readwrite", function (s) { return s.delete(order); }); }

  var hear = function () {};
  async function tell(sent) {
    var list = (await all()).map(function (r) { return { id: r.id, initial: r.initial, made: r.made, tries: r.tries, bad: r.bad || "" }; });
    hear(JSON.stringify({ waiting: list, sent: sent || null }));
  }

  // A refusal for good marks an enquiry and holds no other up; anything else
  // is tried again.
  function forGood(status) { return status >= 400 && status < 500 && [401, 403, 404, 408, 409, 421, 425, 429].indexOf(status) < 0; }

  var sending = null, timer = 0, pause = 0;
  var firstMs = 5000, longestMs = 300000;
  function later(ms) {
    clearTimeout(timer);
    timer = setTimeout(send, ms);
  }
  function send() {
    if (!sending) sending = round().finally(function () { sending = null; });
    return sending;
  }
  async function round() {
    clearTimeout(timer);
    var wait = 0, list = await all();
    for (var i = 0; i < list.length; i++) {
      var r = list[i];
      if (r.bad) continue;
      r.tries++;
      await put(r);
      var reply = await post(r);
      if (reply.reference) {
        await drop(r.order);
        pause = 0;
        await tell({ id: r.id, reference: reply.reference });
        continue;
      }
      if (reply.bad) {
        r.bad = reply.bad;
        await put(r);
        await tell();
        continue;
      }
      await tell();
      wait = reply.wait || -1;
      break; // the line or the server is down for the others too
    }
    if (wait) {
      pause = Math.min(pause ? 2 * pause : firstMs, longestMs);
      later(Math.max(wait, pause * (0.75 + Math.random() / 2)));
    }
  }
  async function post(r) {
    var reply;
    try {
      reply = await fetch("/api/v1/sealed", {
        method: "POST", credentials: "omit", cache: "no-store", body: r.sealed, signal: AbortSignal.timeout(20000),
        headers: { "Content-Type": "application/json", Accept: "application/json", "Idempotency-Key": '"' + r.id + '"' }
      });
      if (reply.ok) return { reference: (await reply.json()).reference };
      if (forGood(reply.status)) return { bad: String(reply.status) };
    } catch (down) {
      return {};
    }
    return { wait: 1000 * (Number(reply.headers.get("Retry-After")) || 0) };
  }

  window.tarnwrightQueue = {
    // listen hears of every change from now on, and of how things stand.
    listen: function (f) { hear = f; return tell(); },
    // keep seals and stores one enquiry; it is safe once the promise is kept.
    keep: async function (publicKey, id, body, initial, made) {
      var key = bytesOf(publicKey);
      var s = await seal(key, text.encode("tarnwright lead 1"), text.encode(id), text.encode(body));
      await put({ id: id, sealed: JSON.stringify({ schema_version: 1, enc: s.enc, box: s.box }), initial: initial, made: made, tries: 0 });
      if (navigator.storage && navigator.storage.persist) navigator.storage.persist();
      await tell();
      later(navigator.onLine ? 0 : firstMs);
    },
    // takeBack removes an enquiry that was never on its way.
    takeBack: async function (id) {
      if (sending) await sending;
      var found = (await all()).filter(function (r) { return r.id === id && r.tries === 0; })[0];
      if (found) { await drop(found.order); await tell(); }
      return !!found;
    },
    // remove removes an enquiry that was refused for good.
    remove: async function (id) {
      var found = (await all()).filter(function (r) { return r.id === id && r.bad; })[0];
      if (found) { await drop(found.order); await tell(); }
    },
    send: send
  };
  addEventListener("online", send);
  document.addEventListener("visibilitychange", function () { if (document.visibilityState === "visible") send(); });
  send();
})();
