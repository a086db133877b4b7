/** The journal's day begins: memory from what is kept, counts, and syncing from now on. */

import { onKept } from "../db";
import { readSession } from "../people";
import { ifRoom } from "./full";
import { dropOld } from "./keep";
import { follow, load } from "./parts";
import { keepSyncing } from "./schedule";
import { readState } from "./state";

/** Call once, before the first screen; resolves when screens can read. Returns how to stop. */
export async function openJournal(): Promise<() => void> {
  // Asked, never awaited: one browser never answers.
  void globalThis.navigator?.storage?.persist?.();
  follow();
  onKept(() => void readState());
  onKept(() => void readSession());
  await Promise.all([readSession(), load(), readState()]);
  const stop = keepSyncing();
  void ifRoom(dropOld());
  return stop;
}
