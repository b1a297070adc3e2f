// Lets a salesperson's tablet open the page without a line. It counts as
// installed only when every file is kept, so one that is missing leaves the
// version before it as it was; it touches no cache but its own; a new version
// waits until the page says that nothing is open. The server fills in the
// version and the list.
"use strict";
const version = "VERSION";
const files = ["FILES"];
const own = "tarnwright-";
const shell = "/shell"; // kept once for each language: /shell?lang=es
const chosen = "/chosen-language"; // what the page was last asked for

self.addEventListener("install", (e) => e.waitUntil((async () => {
  const cache = await caches.open(own + version);
  try {
    await cache.addAll(files.map((f) => new Request(f, { cache: "no-cache" })));
  } catch (missing) {
    await caches.delete(own + version);
    throw missing;
  }
})()));

self.addEventListener("activate", (e) => e.waitUntil((async () => {
  for (const name of await caches.keys()) {
    if (!name.startsWith(own) || name === own + version) continue;
    const last = await caches.match(chosen, { cacheName: name });
    if (last) await (await caches.open(own + version)).put(chosen, last);
    await caches.delete(name);
  }
  await self.clients.claim();
})()));

self.addEventListener("message", (e) => {
  if (e.data === "apply") self.skipWaiting();
});

self.addEventListener("fetch", (e) => {
  const r = e.request, u = new URL(r.url);
  if (r.method !== "GET" || u.origin !== self.location.origin || u.pathname.startsWith("/api/")) return;
  if (r.mode === "navigate") {
    if (u.pathname === "/") e.respondWith(page(u).then((at) => tablet(u) ? keptFirst(at, r) : lineFirst(at, r)));
    return;
  }
  if (u.pathname === shell || !files.includes(u.pathname)) return;
  e.respondWith((async () => {
    if (u.pathname.startsWith("/assets/")) return keptFirst(u.pathname, r);
    // Names without a hash belong to the page that asks for them: a page from
    // the cache needs its own version, one from the line the newest.
    const page = e.clientId && (await self.clients.get(e.clientId));
    return page && tablet(new URL(page.url)) ? keptFirst(u.pathname, r) : lineFirst(u.pathname, r);
  })());
});

function tablet(u) { return u.searchParams.get("mode") === "tablet"; }

// page is the kept page in the language of the address, else in the one that
// this tablet was last asked for, else in the device's own, else in the first.
async function page(u) {
  const all = files.filter((f) => f.startsWith(shell));
  const into = (language) => all.find((f) => f === shell + "?lang=" + language);
  const asked = into(u.searchParams.get("lang"));
  const cache = await caches.open(own + version);
  if (asked && tablet(u)) await cache.put(chosen, new Response(asked));
  if (asked) return asked;
  const last = await cache.match(chosen), before = last && await last.text();
  if (all.includes(before)) return before;
  return navigator.languages.map((l) => into(l.toLowerCase().split("-")[0])).find((at) => at) || all[0];
}

function kept(path) { return caches.match(path, { cacheName: own + version, ignoreVary: true }); }

async function keptFirst(path, r) { return (await kept(path)) || fetch(r); }

// lineFirst takes what is kept when the line is down, or slow for 3 seconds.
async function lineFirst(path, r) {
  const line = fetch(r);
  const slow = new Promise((done) => setTimeout(done, 3000)).then(() => kept(path));
  try {
    return (await Promise.race([line, slow])) || (await line);
  } catch (down) {
    return (await kept(path)) || Response.error();
  }
}
