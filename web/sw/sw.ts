// Keeps the built files for use without a network. __FILES__ and __BUILD__ are filled in by the build.
declare const self: ServiceWorkerGlobalScope;
declare const __FILES__: string[];
declare const __BUILD__: string;

export {};

const cacheName = `detent-${__BUILD__}`;

self.addEventListener('install', (e) => {
  e.waitUntil(
    caches
      .open(cacheName)
      .then((cache) => cache.addAll(__FILES__))
      .then(() => self.skipWaiting()),
  );
});
self.addEventListener('activate', (e) => {
  const old = caches
    .keys()
    .then((names) => Promise.all(names.filter((n) => n.startsWith('detent-') && n !== cacheName).map((n) => caches.delete(n))));
  e.waitUntil(old.then(() => self.clients.claim()));
});
self.addEventListener('fetch', (e) => {
  if (e.request.method !== 'GET' || new URL(e.request.url).origin !== location.origin) return;
  e.respondWith(caches.match(e.request, { ignoreSearch: true, ignoreVary: true }).then((kept) => kept ?? fetch(e.request)));
});
