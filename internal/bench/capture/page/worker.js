// Keeps the files of the page, so that it opens where the workroom cannot be
// reached. They are the same for every workroom; what was asked of this one,
// and what was taken down, never comes here.
const version = "VERSION";
const shell = ["SHELL"];

self.addEventListener("install", (event) => {
  event.waitUntil((async () => {
    const kept = await caches.open(version);
    await kept.addAll(shell.map((file) => new Request(file, { cache: "reload" })));
    await self.skipWaiting();
  })());
});

self.addEventListener("activate", (event) => {
  event.waitUntil((async () => {
    for (const name of await caches.keys()) {
      if (name !== version) await caches.delete(name);
    }
    await self.clients.claim();
  })());
});

self.addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== "GET" || url.origin !== location.origin || url.search || !shell.includes(url.pathname)) return;
  event.respondWith((async () => {
    const kept = await (await caches.open(version)).match(url.pathname);
    return kept || fetch(event.request);
  })());
});
