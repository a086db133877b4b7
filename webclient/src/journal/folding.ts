/** Pending entries as the rules want them, folded over copies of the parts they touch. */

import { clockError, readInstant, stamp } from "../clock";
import type { EntryRow } from "../db";
import { fold, partKey, Workspace, type Entry, type Part } from "../rules";

export type Parts = ReadonlyMap<string, Part>;

/** Later than anything in the journal, in the order written. */
const PENDING = 10 ** 15;

/** A pending entry with what the server will give it, as far as this phone can reckon. */
export function reckoned({ entry, n }: EntryRow): Entry {
  const meant = readInstant(entry.at);
  const time = Number.isNaN(meant) ? entry.at : stamp(new Date(meant + clockError()));
  return { ...entry, seq: PENDING + n, time, let_in: 0, seen_to: entry.seen } as Entry;
}

/** What the screens read; `settled` is left as it is, and a part that no pending entry touches is the same object. */
export function foldPending(settled: Parts, rows: readonly EntryRow[]): Parts {
  if (rows.length === 0) return settled;
  const work = new Workspace((kind, id) => structuredClone(settled.get(partKey(kind, id)) ?? null));
  fold(work, rows.map(reckoned));
  return new Map([...settled, ...work.changed]);
}
