/** The page's side of the service worker: starts it, and says when a new version waits. */

import { computed, effect, signal } from "@preact/signals";
import { state } from "./journal";

const HOURLY = 3_600_000;
/** What is said where this app and the office's machine do not fit. */
export const UNLIKE = new Set(["sync.app_older", "sync.app_newer"]);

/** True when a new version has been fetched and waits for a person to say so. */
export const updateWaits = signal(false);

let registration: ServiceWorkerRegistration | undefined;

/** Starts the worker; call once. Without one (no https) the app works as long as there is signal. */
export async function startWorker(): Promise<void> {
  if (!import.meta.env.PROD || !("serviceWorker" in navigator)) return;
  const found = await navigator.serviceWorker.register("/sw.js", { updateViaCache: "none" });
  registration = found;
  watch(found.waiting);
  found.addEventListener("updatefound", () => watch(found.installing));
  const look = (): void => void found.update().catch(noSignal);
  setInterval(look, HOURLY);
  const due = computed(() => UNLIKE.has(state.value.problem ?? ""));
  // The office has another version already, newer or put back: this is no time to wait for the hour.
  effect(() => {
    if (due.value) look();
  });
}

function watch(next: ServiceWorker | null): void {
  const tell = (): void => {
    // The very first worker has nothing to change over from.
    if (next?.state === "installed" && navigator.serviceWorker.controller) updateWaits.value = true;
  };
  next?.addEventListener("statechange", tell);
  tell();
}

/** Asking for an update without signal fails, and is asked again in an hour. */
function noSignal(): void {
  return;
}

/** Changes to the waiting version and loads the page anew. Half-written items have been kept by their screens. */
export function changeOver(): void {
  const next = registration?.waiting;
  // Where another window has changed over already, nothing waits any more: the page alone is still the old one.
  if (!next) return location.reload();
  navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
  next.postMessage("rakelight: change over");
}
