// Keeps the whole page for use without a network. The workbench fills in the two names at the top
// when it builds a release; nothing is fetched from anywhere but the page's own folder.
//
// A newer release is fetched in the background and waits until it is taken over by a press, or until
// the page is closed everywhere and opened again: the page in use never changes under the hand.
const VERSION = "__VERSION__";
const FILES = __FILES__;

// Caches belong to the origin, which other pages may share: the scope keeps them apart.
const OURS = `borewright ${self.registration.scope} `;
const CACHE = OURS + VERSION;

self.addEventListener("install", (event) => {
  const fresh = FILES.map((file) => new Request(file, { cache: "reload" }));
  event.waitUntil(caches.open(CACHE).then((cache) => cache.addAll(fresh)));
});

self.addEventListener("message", (event) => {
  if (event.data === "take over") self.skipWaiting();
});

self.addEventListener("activate", (event) => {
  const old = (name) => name.startsWith(OURS) && name !== CACHE;
  const cleaned = caches
    .keys()
    .then((names) => Promise.all(names.filter(old).map((name) => caches.delete(name))));
  event.waitUntil(cleaned.then(() => self.clients.claim()));
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || !request.url.startsWith(self.registration.scope)) return;
  event.respondWith(kept(request).then((found) => found ?? fetched(request)));
});

// Whether an address is the page's own. Any other below it is the host's to answer, or to deny.
function isPage(url) {
  const home = new URL(self.registration.scope).pathname;
  return [home, `${home}index.html`].includes(new URL(url).pathname);
}

// What the network answers. Where there is none, an address that is not the page gets one sentence at
// once: a browser may try for minutes.
async function fetched(request) {
  if (request.mode !== "navigate") return fetch(request);
  const unknown = () => {
    const home = self.registration.scope;
    const words = `This address is not kept on this device, and there is no network. <a href="${home}">Borewright is here.</a>`;
    const headers = { "Content-Type": "text/html; charset=utf-8" };
    return new Response(`<!doctype html><title>Borewright</title><p>${words}`, { status: 504, headers });
  };
  return navigator.onLine ? fetch(request).catch(unknown) : unknown();
}

// What is kept for a request.
async function kept(request) {
  const cache = await caches.open(CACHE);
  const same = await cache.match(request, { ignoreSearch: true });
  // A worker takes the address of what is answered for its own, and ours reads what stands after
  // the question mark there. A fresh answer has no address, so the worker keeps the one asked for.
  if (same && request.destination === "worker") return new Response(same.body, { headers: same.headers });
  return same ?? (isPage(request.url) ? cache.match("./") : undefined);
}
