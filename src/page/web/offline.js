// @ts-nocheck: a service worker; it keeps the page with its parts, and asks for nothing else.
"use strict";
const KEEP = "tuck-@VERSION@";
const OWN = "@FILES@";

self.addEventListener("install", (event) => {
  event.waitUntil(caches.open(KEEP).then((cache) => cache.addAll(OWN)).then(() => self.skipWaiting()));
});
self.addEventListener("activate", (event) => {
  event.waitUntil(caches.keys()
    .then((names) => Promise.all(names.filter((name) => name.startsWith("tuck-") && name !== KEEP).map((name) => caches.delete(name))))
    .then(() => self.clients.claim()));
});
self.addEventListener("fetch", (event) => {
  event.respondWith(caches.open(KEEP).then((cache) => cache.match(event.request, { ignoreSearch: true }))
    .then((kept) => kept ?? fetch(event.request)));
});
