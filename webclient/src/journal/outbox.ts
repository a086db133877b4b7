/** What has not arrived, in order. Only a verdict takes an entry out of here. */

import { deviceMillis } from "../clock";
import { fact, setFact, type EntryRow, type Saving } from "../db";
import { goAgain, mayGo } from "../photos";
import type { Verdict } from "./wire";

type Entries = {
  objectStore(name: "entries"): { index(name: "state"): { getAll(key: string): Promise<EntryRow[]> } };
};
type Held = Saving<"meta" | "entries" | "parts" | "staging" | "shelf">;

/** After these the count of this enrolment is broken: what follows would rest on what was set aside. */
const BREAKS = new Set(["broken_sequence", "used_number", "same_id_other_bytes", "wrong_device"]);

/** The next entries to send: this enrolment's in order of n, then releases to be offered again. */
export async function nextUp(tx: Entries, device: string, most: number): Promise<EntryRow[]> {
  const byState = tx.objectStore("entries").index("state");
  const own = (await byState.getAll("unsent")).filter((row) => row.device === device).sort((a, b) => a.n - b.n);
  return [...own, ...(await byState.getAll("offer"))].slice(0, most);
}

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
    if ("set_aside" in verdict && BREAKS.has(verdict.set_aside)) await breakCount(tx);
  }
}

function judged({ seq: _old, reason: _why, ...row }: EntryRow, verdict: Verdict): EntryRow {
  if ("set_aside" in verdict) return { ...row, state: "aside", reason: verdict.set_aside, kept: deviceMillis() };
  const state = row.state === "offer" ? "settled" : "taken";
  return { ...row, state, seq: verdict.seq, kept: deviceMillis() };
}

/** A new enrolment is due as soon as this outbox is empty. */
export async function breakCount(tx: Held): Promise<void> {
  const enrolment = await fact(tx, "enrolment");
  if (enrolment && !enrolment.anew) await setFact(tx, "enrolment", { ...enrolment, anew: true });
}

/** The server's n-th entry is the last it has of this phone: an older backup stands there now. What it had taken after that
 * goes again, in order, before anything new; after a new epoch what it had set aside, and the releases given here, too. */
export async function offerAgain(tx: Held, device: string, n: number, newEpoch: boolean): Promise<boolean> {
  const entries = tx.objectStore("entries");
  const later = IDBKeyRange.bound([device, n], [device, Infinity], true);
  const lost = (await entries.index("place").getAll(later)).filter(
    ({ state }) => state === "taken" || state === "settled" || (newEpoch && state === "aside"),
  );
  for (const row of lost) {
    await entries.put({ ...row, state: "unsent" });
    await goAgain(tx, row.id);
  }
  const releases = newEpoch ? (await entries.index("state").getAll("settled")).filter(isRelease) : [];
  for (const row of releases) await entries.put({ ...row, state: "offer" });
  return lost.length + releases.length > 0;
}

const isRelease = ({ entry }: EntryRow): boolean => entry.kind === "release.given";

/** Entries whose number the cursor has passed are in the settled parts now, and pending no longer. */
export async function passCursor(tx: Held, cursor: number): Promise<void> {
  const entries = tx.objectStore("entries");
  for (const row of await entries.index("state").getAll("taken")) {
    if (row.seq !== undefined && row.seq <= cursor) await entries.put({ ...row, state: "settled" });
  }
}
