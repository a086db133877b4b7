/** When to sync: after each write, when the network or the person comes back, and again and again for ever. */

import { effect } from "@preact/signals";
import { random } from "../clock";
import { session } from "../people";
import { state } from "./state";
import { syncNow } from "./sync";
import { onWritten } from "./write";

const FIRST = 5_000;
const LONGEST = 900_000;
const IDLE = 60_000;
/** Trying again does not help before a person has done something, so not every few seconds. */
const PERSON = 60_000;
const FOR_PERSON = new Set(["sync.sign_in_again", "sync.enrol"]);

let timer: ReturnType<typeof setTimeout> | undefined;
let wait = FIRST;

/** Starts syncing; returns how to stop. */
export function keepSyncing(): () => void {
  const nudge = (): void => {
    wait = FIRST;
    void attempt();
  };
  const seen = (): void => {
    if (document.visibilityState === "visible") nudge();
  };
  onWritten(nudge);
  const stop = effect(() => {
    if (session.value.signedIn) nudge();
  });
  globalThis.addEventListener?.("online", nudge);
  globalThis.document?.addEventListener("visibilitychange", seen);
  return () => {
    stop();
    clearTimeout(timer);
    globalThis.removeEventListener?.("online", nudge);
    globalThis.document?.removeEventListener("visibilitychange", seen);
  };
}

async function attempt(): Promise<void> {
  clearTimeout(timer);
  let next = IDLE;
  try {
    const trouble = await syncNow();
    if (trouble) {
      const least = Math.max(trouble.waitSeconds * 1000, FOR_PERSON.has(trouble.key) ? PERSON : 0);
      next = Math.max(least, backOff());
    } else wait = FIRST;
  } catch (error) {
    // The phone's own database failed: nothing is lost, the person is told, and it is tried again.
    state.value = { ...state.peek(), problem: "sync.phone_trouble" };
    console.error(error);
    next = backOff();
  }
  clearTimeout(timer);
  timer = setTimeout(() => void attempt(), next);
}

/** 5 s, 10 s, … 15 min, each between half and the whole of it, so that a yard's phones do not come all at once. */
function backOff(): number {
  const now = wait;
  wait = Math.min(LONGEST, wait * 2);
  return Math.round(now * (0.5 + random() / 2));
}
