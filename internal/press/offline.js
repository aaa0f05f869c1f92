// Pages that were read are kept, and shown again where there is no line. With a line every
// page is asked for anew; a file whose name holds the hash of its contents never changes,
// and is asked for once. What is kept has a bound, and goes with the look it belongs to.
const mine = "notebook " + self.registration.scope + " ";
const kept = mine + "VERSION";
const first = ["FIRST"];
const most = 400;

// What a host led on from another address must not answer for that address: it is kept as
// if it had stood there.
const keep = async (store, key, answer) => {
  await store.put(key, answer.redirected ? new Response(await answer.blob(), { headers: answer.headers }) : answer);
  const all = await store.keys();
  await Promise.all(all.slice(0, Math.max(0, all.length - most)).map((old) => store.delete(old)));
};

self.addEventListener("install", (e) => {
  e.waitUntil((async () => {
    const store = await caches.open(kept);
    await Promise.all(first.map(async (name) => {
      const key = new URL(name, self.registration.scope).href;
      const answer = await fetch(key);
      if (answer.ok) await keep(store, key, answer);
    }));
    await self.skipWaiting();
  })());
});

self.addEventListener("activate", (e) => {
  e.waitUntil((async () => {
    const all = await caches.keys();
    await Promise.all(all.filter((name) => name.startsWith(mine) && name !== kept).map((name) => caches.delete(name)));
    await self.clients.claim();
  })());
});

self.addEventListener("fetch", (e) => {
  const to = new URL(e.request.url);
  if (e.request.method !== "GET" || !to.href.startsWith(self.registration.scope)) return;
  const key = to.origin + to.pathname + (to.pathname.endsWith("/") ? "index.html" : "");
  e.respondWith((async () => {
    const store = await caches.open(kept);
    const have = await store.match(key);
    if (have && /\.[0-9a-f]{16}\.\w+$/.test(to.pathname)) return have;
    try {
      const got = await fetch(e.request);
      if (got.ok && got.type === "basic" && got.status === 200) e.waitUntil(keep(store, key, got.clone()));
      return got;
    } catch (err) {
      if (have) return have;
      if (e.request.mode === "navigate") {
        const lost = await store.match(new URL("404.html", self.registration.scope).href);
        if (lost) return lost;
      }
      return Response.error();
    }
  })());
});
