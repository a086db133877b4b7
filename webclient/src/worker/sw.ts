/** The service worker: the app opens with no signal. It holds no data, sends nothing, and changes versions only when asked. */

import { answerTo, concerns, dropOthers, fill } from "./cache";

const worker = self as unknown as ServiceWorkerGlobalScope;
const { version, files } = __SHELL__;

worker.addEventListener("install", (event) => event.waitUntil(fill(version, files)));

worker.addEventListener("activate", (event) => {
  event.waitUntil(dropOthers(version).then(() => worker.clients.claim()));
});

/** A new version waits until a person says so on the page: nobody's half-written item is reloaded away. */
worker.addEventListener("message", (event) => {
  if (event.data === "rakelight: change over") void worker.skipWaiting();
});

worker.addEventListener("fetch", (event) => {
  if (!concerns(event.request, worker.location.origin)) return;
  event.respondWith(answerTo(event.request, version).then((kept) => kept ?? fetch(event.request)));
});
