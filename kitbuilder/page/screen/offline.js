// Beside the page on a static host: keeps the page itself, so that it opens without a network.

const KEPT = "kitbuilder-{mark}";

self.addEventListener("install", (event) => {
  event.waitUntil(caches.open(KEPT).then((cache) => cache.add("{page}")).then(() => self.skipWaiting()));
});

self.addEventListener("activate", (event) => {
  const others = (names) => Promise.all(names.filter((name) => name !== KEPT).map((name) => caches.delete(name)));
  event.waitUntil(caches.keys().then(others).then(() => self.clients.claim()));
});

self.addEventListener("fetch", (event) => {
  if (event.request.mode !== "navigate") return;
  event.respondWith(caches.match("{page}").then((kept) => kept ?? fetch(event.request)));
});
