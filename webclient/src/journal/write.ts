/** The only place where an entry is born. What is returned is kept: the transaction is complete and durable. */

import { localTime, newId } from "../clock";
import { fact, saving, setFact, type Enrolment, type EntryRow, type Saving, type Settled } from "../db";
import { layOn, type NewPhoto } from "../photos";
import { session } from "../people";
import type { Drawn } from "./drawn";
import { load, revision } from "./parts";
import type { Entry } from "./shapes";

export type Draft = { kind: string; module: string | null; about: string; body: Record<string, unknown> };
export type Options = {
  /** What the screen was drawn from; needed before an approval. */
  drawn?: Drawn;
  /** The half-written item that this makes whole; it goes in the same transaction. */
  draft?: string;
};

/** Nothing was written; `key` is a sentence. `journal.redraw`: draw anew and ask again. */
export class NotWritten extends Error {
  constructor(readonly key: "sync.redraw" | "sync.nobody" | "sync.no_room") {
    super(key);
  }
}

type Born = Draft & { id: string; at: string };
const STORES: ("meta" | "entries" | "shelf" | "drafts")[] = ["meta", "entries", "shelf", "drafts"];
const listeners = new Set<() => unknown>();

/** Keeps all drafts and their photos, or none. */
export async function write(drafts: Draft[], photos: NewPhoto[] = [], options: Options = {}): Promise<Entry[]> {
  const by = session.peek().holder?.id;
  if (!by) throw new NotWritten("sync.nobody");
  // Ids are made here so that a second try after a lost connection writes the same entries.
  const born = drafts.map((draft) => ({ ...draft, id: newId(), at: localTime() }));
  for (;;) {
    if (options.drawn?.changed()) throw new NotWritten("sync.redraw");
    const entries = await keep(born, by, photos, options);
    await load();
    if (!entries) continue;
    for (const each of listeners) each();
    return entries;
  }
}

/** Called after each write, to send it. */
export function onWritten(listener: () => unknown): void {
  listeners.add(listener);
}

async function keep(born: Born[], by: string, photos: NewPhoto[], options: Options): Promise<Entry[] | null> {
  try {
    return await saving(STORES, (tx) => add(tx, born, by, photos, options));
  } catch (error) {
    if (error instanceof DOMException && error.name === "QuotaExceededError") throw new NotWritten("sync.no_room");
    throw error;
  }
}

/** Null when memory is behind what is kept: `seen` must be no more than what a screen here can have shown. */
async function add(
  tx: Saving<"meta" | "entries" | "shelf" | "drafts">,
  born: Born[],
  by: string,
  photos: NewPhoto[],
  options: Options,
): Promise<Entry[] | null> {
  const at = (await fact(tx, "revision")) ?? { entries: 0, parts: 0 };
  const known = await Promise.all(born.map(({ id }) => tx.objectStore("entries").get(id)));
  if (known.every((row) => row !== undefined)) return known.map((row) => row.entry);
  if (at.entries !== revision.entries || at.parts !== revision.parts) return null;
  const enrolment = await fact(tx, "enrolment");
  const settled = await fact(tx, "settled");
  if (!enrolment || !settled) throw new NotWritten("sync.nobody");
  const entries = number(born, by, enrolment, settled);
  for (const entry of entries) await tx.objectStore("entries").add(rowOf(entry));
  for (const photo of photos) await layOn(tx, photo, entries.filter((entry) => names(entry, photo)).map(({ id }) => id));
  if (options.draft !== undefined) await tx.objectStore("drafts").delete(options.draft);
  const last = entries.at(-1);
  if (last) await setFact(tx, "enrolment", { ...enrolment, n: last.n, last: last.id });
  await setFact(tx, "revision", { ...at, entries: at.entries + 1 });
  return entries;
}

function number(born: Born[], by: string, enrolment: Enrolment, settled: Settled): Entry[] {
  let { n, last: prev } = enrolment;
  return born.map(({ id, at, kind, module, about, body }) => {
    n += 1;
    const place = { id, device: enrolment.device, n, prev, epoch: settled.epoch, seen: settled.cursor };
    prev = id;
    return { ...place, at, by, module, about, kind, body, rules: 1 };
  });
}

const names = (entry: Entry, photo: NewPhoto): boolean => entry.body["sha256"] === photo.sha256;

const rowOf = (entry: Entry): EntryRow => ({
  id: entry.id,
  device: entry.device,
  n: entry.n,
  entry,
  state: "unsent",
});
