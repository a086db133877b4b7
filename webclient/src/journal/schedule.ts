/** When to sync: after each write, when the network or the person comes back, and again and again for ever. */

import { computed, effect } from "@preact/signals";
import { random } from "../clock";
import { session } from "../people";
import { bringPictures } from "../photos";
import { peekParts } from "./parts";
import { setProblem } from "./state";
import { syncNow } from "./sync";
import { wantedPictures } from "./wanted";
import { onWritten } from "./write";

const FIRST = 5_000;
const LONGEST = 900_000;
const IDLE = 60_000;
/** Trying again does not help before a person has done something, so not every few seconds. */
const PERSON = 60_000;
const FOR_PERSON = new Set(["sync.sign_in_again", "sync.enrol", "sync.app_older"]);

let timer: ReturnType<typeof setTimeout> | undefined;
let wait = FIRST;
let running = false;
let stopped = true;
let bringing = false;

/** Starts syncing; returns how to stop. */
export function keepSyncing(): () => void {
  const seen = (): void => {
    if (document.visibilityState === "visible") nudge();
  };
  stopped = false;
  onWritten(nudge);
  const signedIn = computed(() => session.value.signedIn);
  const stop = effect(() => {
    if (signedIn.value) nudge();
  });
  globalThis.addEventListener?.("online", nudge);
  globalThis.document?.addEventListener("visibilitychange", seen);
  return () => {
    stopped = true;
    stop();
    clearTimeout(timer);
    globalThis.removeEventListener?.("online", nudge);
    globalThis.document?.removeEventListener("visibilitychange", seen);
  };
}

/** Now rather than later. While an attempt is under way it is enough that it looks once more. */
function nudge(): void {
  if (stopped) return;
  wait = FIRST;
  // Its failure is the attempt's to tell.
  if (running) void syncNow().catch(() => undefined);
  else void attempt();
}

async function attempt(): Promise<void> {
  clearTimeout(timer);
  running = true;
  const next = await once();
  running = false;
  if (stopped) return;
  timer = setTimeout(() => void attempt(), next);
  if (next === IDLE) await pictures();
}

/** After everything that was written has gone: pictures for looking at them with no signal. */
async function pictures(): Promise<void> {
  if (bringing) return;
  bringing = true;
  try {
    await bringPictures(wantedPictures(peekParts()), "screen");
  } catch (error) {
    // A picture that cannot be kept is fetched again when somebody looks at it.
    console.error(error);
  } finally {
    bringing = false;
  }
}

/** Syncs; how long to wait before the next time. */
async function once(): Promise<number> {
  try {
    const trouble = await syncNow();
    if (!trouble) {
      wait = FIRST;
      return IDLE;
    }
    const least = Math.max(trouble.waitSeconds * 1000, FOR_PERSON.has(trouble.key) ? PERSON : 0);
    return Math.max(least, backOff());
  } catch (error) {
    // The phone's own database failed: nothing is lost, the person is told, and it is tried again.
    setProblem("sync.phone_trouble");
    console.error(error);
    return backOff();
  }
}

/** 5 s, 10 s, … 15 min, each between half and the whole of it, so that a yard's phones do not come all at once. */
function backOff(): number {
  const now = wait;
  wait = Math.min(LONGEST, wait * 2);
  return Math.round(now * (0.5 + random() / 2));
}
