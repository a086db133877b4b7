/**
 * Who knew what. A reference to an entry is [seq, device, n, aside]; aside is 1 once it was set aside.
 *
 * On a phone a pending entry has seq 10^15 + n: later than anything in the journal.
 */

import { own, put } from "./own";
import type { Entry, Objections, Ref } from "./types";

const LET_IN = "*";
/** What tells of an entry what its author had seen. */
export type Author = Pick<Entry, "seen_to" | "device" | "n" | "let_in">;

/** The reference by which parts remember an entry. */
export function refOf(entry: Entry): Ref {
  return [entry.seq, entry.device, entry.n, entry.let_in];
}

/**
 * Whether the author of `later` had seen `earlier`, which stands before it in the journal.
 *
 * The count of a phone says so only when neither was ever set aside: a copy of a phone uses numbers a second time
 * without having seen what the first use of them said.
 */
export function hasSeen(later: Author, earlier: Ref): boolean {
  const [seq, device, n, aside] = earlier;
  if (seq <= later.seen_to) return true;
  return device === later.device && n < later.n && !aside && !later.let_in;
}

/**
 * Remembers an objection.
 *
 * Only the latest of each device is kept: a device's entries stand in order of n, so who has seen its latest has
 * seen them all. Those once set aside count by seq alone, under "*".
 */
export function note(objections: Objections, entry: Entry): void {
  if (entry.let_in) put(objections, LET_IN, entry.seq);
  else put(objections, entry.device, [entry.seq, entry.n]);
}

/** Remembers objections to another thing as well: the latest of each device of both. */
export function hear(objections: Objections, others: Objections): void {
  for (const device of Object.keys(others)) {
    const latest = own(others, device);
    if (latest === undefined) continue;
    const before = own(objections, device);
    if (before === undefined || seqOf(before) < seqOf(latest)) put(objections, device, Array.isArray(latest) ? [...latest] : latest);
  }
}

const seqOf = (latest: Objections[string]): number => (typeof latest === "number" ? latest : latest[0]);

/** Whether the author of `later` had seen every objection noted so far. */
export function seenAll(later: Author, objections: Objections): boolean {
  for (const device of Object.keys(objections)) {
    const latest = own(objections, device);
    if (typeof latest === "number") {
      if (latest > later.seen_to) return false;
    } else if (latest && !hasSeen(later, [latest[0], device, latest[1], 0])) return false;
  }
  return true;
}
