/** The line that is never hidden: what has been sent and what is only on this phone. */

import { signal } from "@preact/signals";
import { fact, reading, type Enrolment, type Settled } from "../db";
import { readable } from "./form";
import { evicted, remember } from "./marker";

export type State = {
  /** Entries without a verdict, those of an ended enrolment included. */
  unsent: number;
  photosUnsent: number;
  /** Entries of this phone that the server set aside. */
  setAside: number;
  /** Of `unsent`, entries that no sync can send any more: save them to a file. */
  stranded: number;
  lastSent: string | null;
  /** A key of words/sync.json, with `lost` for sync.evicted; null when all is well. */
  problem: string | null;
  /** How many unsent entries were lost when the browser cleared this phone's storage. */
  lost: number;
  signedIn: boolean;
  busy: boolean;
};

export const state = signal<State>({
  unsent: 0,
  photosUnsent: 0,
  setAside: 0,
  stranded: 0,
  lastSent: null,
  problem: null,
  lost: 0,
  signedIn: false,
  busy: false,
});

/** A sync that goes well says nothing about room for what is half written: that ends when it is kept again. */
const HALF = "sync.no_room_half";
let halfNotKept = false;

export function setProblem(problem: string | null): void {
  state.value = { ...state.peek(), problem: problem ?? (halfNotKept ? HALF : null) };
}

/** Whether the last thing half written was kept; the line that is never hidden says so until it is. */
export function halfKept(kept: boolean): void {
  halfNotKept = !kept;
  const { problem } = state.peek();
  if (!kept) setProblem(HALF);
  else if (problem === HALF) setProblem(null);
}

export function setBusy(busy: boolean): void {
  state.value = { ...state.peek(), busy };
}

/** Counts anew; called whenever something was kept. */
export async function readState(): Promise<void> {
  const found = await reading(["meta", "entries", "shelf"], async (tx) => {
    const entries = tx.objectStore("entries").index("state");
    const shelf = tx.objectStore("shelf").index("state");
    const stranded = await entries.count("stranded");
    const enrolment = await fact(tx, "enrolment");
    return {
      unsent: (await entries.count("unsent")) + stranded,
      photosUnsent: (await shelf.count("waiting")) + (await shelf.count("ready")),
      setAside: await entries.count("aside"),
      stranded,
      lastSent: (await fact(tx, "last_sent")) ?? null,
      signedIn: (await fact(tx, "signed_in")) ?? false,
      enrolment,
      settled: await fact(tx, "settled"),
    };
  });
  const { enrolment, settled, ...counts } = found;
  const lost = enrolment ? null : evicted();
  if (enrolment) remember(enrolment.device, counts.unsent + counts.photosUnsent);
  const standing = lost !== null ? "sync.evicted" : found.stranded > 0 ? "sync.stranded" : dueAnew(enrolment, counts.unsent);
  const last = state.peek().problem;
  const told = last && STANDING.has(last) ? null : last;
  const problem = standing ?? (told === null || UNHEARD.has(told) ? (unread(settled) ?? told) : told);
  state.value = { ...state.peek(), ...counts, lost: lost ?? 0, problem };
}

function dueAnew(enrolment: Enrolment | undefined, unsent: number): string | null {
  return enrolment?.anew && unsent === 0 ? "sync.enrol_anew" : null;
}

/** Why the screens are empty though this phone has pulled: its parts are of another version's form. Which of the two is the
 * older one only a sync tells: an app that was put back to fit its server fetches all of it just as an updated one does. */
const unread = (settled: Settled | undefined): string | null => (!settled || readable(settled) ? null : "sync.anew");

/** Those that are found here, not by a sync. */
const STANDING = new Set(["sync.evicted", "sync.stranded", "sync.enrol_anew", "sync.anew"]);
/** Of less weight to somebody who looks at an empty yard than why it is empty. */
const UNHEARD = new Set(["sync.no_signal", "sync.no_answer"]);
