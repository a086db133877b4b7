/** What has not arrived, in order. Only a verdict takes an entry out of here. */

import { deviceMillis } from "../clock";
import { fact, setFact, type EntryRow, type EntryState, type Saving } from "../db";
import { goAgain, mayGo } from "../photos";
import type { Verdict } from "./wire";

type Entries = {
  objectStore(name: "entries"): { index(name: "state"): { getAll(key: string): Promise<EntryRow[]> } };
};
type Held = Saving<"meta" | "entries" | "parts" | "staging" | "shelf">;

/** After these the count of this enrolment is broken: what follows would rest on what was set aside. */
const BREAKS = new Set(["broken_sequence", "used_number", "same_id_other_bytes", "wrong_device"]);
/** Entries set aside for these used no number of their enrolment's count (as server/journal/judge.py has it), let in later or
 * not. A malformed one may have used one, but only the server can tell. */
const NO_NUMBER = new Set(["malformed", "same_id_other_bytes", "used_number", "broken_sequence", "wrong_device", "release_offered"]);

/** The next entries to send: this enrolment's in order of n, then what is offered again. */
export async function nextUp(tx: Entries, device: string, most: number): Promise<EntryRow[]> {
  const byState = tx.objectStore("entries").index("state");
  const own = (await byState.getAll("unsent")).filter((row) => row.device === device).sort((a, b) => a.n - b.n);
  const offered = (await byState.getAll("offer")).sort((a, b) => compare(a.device, b.device) || a.n - b.n);
  return [...own, ...offered].slice(0, most);
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** Modules with unsent entries. */
export async function unsentModules(tx: Entries): Promise<string[]> {
  const rows = await tx.objectStore("entries").index("state").getAll("unsent");
  return [...new Set(rows.map((row) => row.entry.module).filter((module) => module !== null))];
}

/** Marks what the server has; its photos may go. */
export async function judge(tx: Held, verdicts: Verdict[]): Promise<void> {
  for (const verdict of verdicts) {
    const row = await tx.objectStore("entries").get(verdict.id);
    if (!row || (row.state !== "unsent" && row.state !== "offer")) continue;
    await tx.objectStore("entries").put(judged(row, verdict));
    await mayGo(tx, row.id);
    const own = row.device === (await fact(tx, "enrolment"))?.device;
    if (own && "set_aside" in verdict && BREAKS.has(verdict.set_aside)) await breakCount(tx);
  }
}

function judged({ seq: _old, reason: _why, ...row }: EntryRow, verdict: Verdict): EntryRow {
  if ("set_aside" in verdict) return { ...row, state: "aside", reason: verdict.set_aside, kept: deviceMillis() };
  const state = row.state === "offer" ? "settled" : "taken";
  const was = verdict.let_in === undefined ? {} : { reason: verdict.let_in };
  return { ...row, ...was, state, seq: verdict.seq, kept: deviceMillis() };
}

/** A new enrolment is due as soon as this outbox is empty. */
export async function breakCount(tx: Held): Promise<void> {
  const enrolment = await fact(tx, "enrolment");
  if (enrolment && !enrolment.anew) await setFact(tx, "enrolment", { ...enrolment, anew: true });
}

/** What the server has taken or set aside goes again when an older backup stands there: in the order of its count what that
 * has not heard of (its last number of this phone is `n`), then the rest. `restored`: its past is not the one we knew.
 * Then all goes that used no number, or that an ended enrolment wrote, since no count tells whether it is still there. */
export async function offerAgain(tx: Held, { device, n, restored }: { device: string; n: number; restored: boolean }): Promise<boolean> {
  const enrolment = await fact(tx, "enrolment");
  // Somebody has signed in anew since this was asked: the count is another one.
  const own = enrolment?.device === device ? device : null;
  const mine = new Set([device, ...(enrolment?.earlier ?? [])]);
  const entries = tx.objectStore("entries");
  const next = (row: EntryRow): EntryState | null => {
    if (!["taken", "settled", "aside"].includes(row.state)) return null;
    const counted = !NO_NUMBER.has(row.reason ?? "");
    if (row.device === own && row.n > n) return counted || restored ? "unsent" : null;
    if (!restored) return null;
    if (isRelease(row)) return "offer";
    return mine.has(row.device) && (row.state === "aside" || !counted || row.device !== own) ? "offer" : null;
  };
  let again = false;
  for (const row of restored ? await entries.getAll() : await after(tx, own, n)) {
    const state = next(row);
    if (!state) continue;
    await entries.put({ ...row, state });
    await goAgain(tx, row.id);
    again = true;
  }
  return again;
}

async function after(tx: Held, device: string | null, n: number): Promise<EntryRow[]> {
  if (device === null) return [];
  return tx.objectStore("entries").index("place").getAll(IDBKeyRange.bound([device, n], [device, Infinity], true));
}

const isRelease = ({ entry }: EntryRow): boolean => entry.kind === "release.given";

/** Entries whose number the cursor has passed are in the settled parts now, and pending no longer. */
export async function passCursor(tx: Held, cursor: number): Promise<void> {
  const entries = tx.objectStore("entries");
  for (const row of await entries.index("state").getAll("taken")) {
    if (row.seq !== undefined && row.seq <= cursor) await entries.put({ ...row, state: "settled" });
  }
}
