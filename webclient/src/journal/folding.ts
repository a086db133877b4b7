/** Pending entries as the rules want them, folded over a copy of what is settled. */

import { clockError, readInstant, stamp } from "../clock";
import type { EntryRow } from "../db";
import type { Entry, Parts } from "./shapes";

/** Later than anything in the journal, in the order written. */
const PENDING = 10 ** 15;

export type Reckoned = Entry & { seq: number; received_at: string; time: string; let_in: 0; seen_to: number };

export function reckoned(row: EntryRow): Reckoned {
  const time = stamp(new Date(readInstant(row.entry.at) + clockError()));
  return { ...row.entry, seq: PENDING + row.n, received_at: time, time, let_in: 0, seen_to: row.entry.seen };
}

export const keyOf = (part: string, id: string): string => `${part}:${id}`;

/** What the screens read; `settled` is left as it is. */
export function foldPending(settled: Parts, rows: EntryRow[]): Parts {
  if (rows.length === 0) return settled;
  return new Map(settled);
}
