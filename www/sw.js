// Keeps the page on the device, so that it answers without a network. Its address never changes. The list of files and the version
// made from their contents stand in sw-files.js, which scripts/build writes: when a file changes, so does the version, and the
// browser fetches a new worker. The new one waits until the page says so: the page offers it, and nobody loses what they typed.

/** @typedef {Event & { waitUntil(work: Promise<unknown>): void }} Lasting */
/** @typedef {Lasting & { request: Request, respondWith(answer: Promise<Response>): void }} Fetching */
/**
 * What a service worker has beside a window; the page's own declarations are those of a window.
 * @typedef {object} Own
 * @property {(file: string) => void} importScripts
 * @property {() => Promise<void>} skipWaiting
 * @property {{ claim(): Promise<void> }} clients
 * @property {{ version: string, files: string[] }} STAND_IN
 */

const worker = /** @type {typeof self & Own} */ (self);
worker.importScripts("sw-files.js");

const PREFIX = "stand-in-";
const CACHE = PREFIX + worker.STAND_IN.version;

self.addEventListener("install", (event) => {
  const keep = async () => {
    const cache = await caches.open(CACHE);
    // "reload" goes past the browser's own cache, which may hold a file of the version before.
    await cache.addAll(worker.STAND_IN.files.map((file) => new Request(file, { cache: "reload" })));
  };
  /** @type {Lasting} */ (event).waitUntil(keep());
});

self.addEventListener("activate", (event) => {
  const tidy = async () => {
    const old = (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== CACHE);
    await Promise.all(old.map((name) => caches.delete(name)));
    await worker.clients.claim();
  };
  /** @type {Lasting} */ (event).waitUntil(tidy());
});

self.addEventListener("message", (event) => {
  if (/** @type {MessageEvent} */ (event).data === "take over") worker.skipWaiting();
});

self.addEventListener("fetch", (event) => {
  const fetching = /** @type {Fetching} */ (event);
  const { request } = fetching;
  if (request.method !== "GET" || new URL(request.url).origin !== location.origin) return;
  const answer = async () => {
    const cache = await caches.open(CACHE);
    // What follows a question mark only asks for a fresh copy of the same file.
    return (await cache.match(request, { ignoreSearch: true })) ?? fetch(request);
  };
  fetching.respondWith(answer());
});
