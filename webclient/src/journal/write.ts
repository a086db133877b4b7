/** The only place where an entry is born. What is returned is kept: the transaction is complete and durable. */

import { localTime, newId } from "../clock";
import { fact, saving, setFact, type Enrolment, type EntryRow, type Saving, type Settled } from "../db";
import { layOn, type NewPhoto } from "../photos";
import { session } from "../people";
import { CURRENT, may, tables, type Bodies, type Kind, type PartKind, type PhoneEntry } from "../rules";
import { understood, type Drawn } from "./drawn";
import { expectNumbers } from "./expected";
import { readable } from "./form";
import { isFull } from "./full";
import { load, peekPart, peekParts, revision } from "./parts";
import { readState } from "./state";

export type Draft = { [K in Kind]: { kind: K; module: string | null; about: string; body: Bodies[K] } }[Kind];
export type Options = {
  /** What the screen was drawn from; needed before an approval. */
  drawn?: Drawn;
  /** The half-written item that this makes whole; it goes in the same transaction. */
  draft?: string;
};

/** Nothing was written; `key` is a sentence. `sync.redraw`: draw anew and ask again. */
export class NotWritten extends Error {
  constructor(readonly key: "sync.redraw" | "sync.anew" | "sync.nobody" | "sync.no_room" | "sync.not_your_role" | "sync.not_understood") {
    super(key);
  }
}

type Born = Draft & { id: string; at: string };
const STORES: ("meta" | "entries" | "shelf" | "drafts")[] = ["meta", "entries", "shelf", "drafts"];
const listeners = new Set<() => unknown>();

/** Keeps all drafts and their photos, or none. */
export async function write(drafts: Draft[], photos: NewPhoto[] = [], options: Options = {}): Promise<PhoneEntry[]> {
  const by = session.peek().holder?.id;
  if (!by) throw new NotWritten("sync.nobody");
  // Ids are made here so that a second try after a lost connection writes the same entries.
  const born = drafts.map((draft) => ({ ...draft, id: newId(), at: localTime() }));
  for (;;) {
    if (options.drawn?.changed()) throw new NotWritten("sync.redraw");
    drafts.forEach((draft) => check(draft, by));
    const entries = await keep(born, by, photos, options);
    // The screens last: whoever sees it there may press the next thing at once.
    await readState();
    await load();
    if (!entries) continue;
    for (const each of listeners) each();
    return entries;
  }
}

/** What the server would set aside, and what this version cannot judge, is not written in the first place. */
function check({ kind, module, about, body }: Draft, by: string): void {
  const row = tables(CURRENT).kinds[kind];
  const existing = (row && peekPart(row.part as PartKind, about)) ?? null;
  const person = peekPart("person", by) ?? session.peek().holder;
  if (may(person, kind, body, existing, CURRENT)) throw new NotWritten("sync.not_your_role");
  if (row?.says !== "approval") return;
  const parts = kind.startsWith("release.") ? [...peekParts().values()].filter((part) => part.module === module) : [existing];
  if (!parts.every(understood)) throw new NotWritten("sync.not_understood");
}

/** Called after each write, to send it. */
export function onWritten(listener: () => unknown): void {
  listeners.add(listener);
}

async function keep(born: Born[], by: string, photos: NewPhoto[], options: Options): Promise<PhoneEntry[] | null> {
  try {
    return await saving(STORES, (tx) => add(tx, born, by, photos, options));
  } catch (error) {
    if (isFull(error)) throw new NotWritten("sync.no_room");
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
): Promise<PhoneEntry[] | null> {
  const at = (await fact(tx, "revision")) ?? { entries: 0, parts: 0 };
  const known = [];
  for (const { id } of born) known.push(await tx.objectStore("entries").get(id));
  if (known.every((row) => row !== undefined)) return known.map((row) => row.entry);
  if (at.entries !== revision.entries || at.parts !== revision.parts) return null;
  const enrolment = await fact(tx, "enrolment");
  const settled = await fact(tx, "settled");
  if (!enrolment || !settled) throw new NotWritten("sync.nobody");
  const entries = number(born, by, enrolment, settled);
  for (const entry of entries) await tx.objectStore("entries").add(rowOf(entry));
  await expectNumbers(tx, entries);
  for (const photo of photos) await layOn(tx, photo, entries.filter((entry) => names(entry, photo)).map(({ id }) => id));
  if (options.draft !== undefined) await tx.objectStore("drafts").delete(options.draft);
  const last = entries.at(-1);
  if (last) await setFact(tx, "enrolment", { ...enrolment, n: last.n, last: last.id });
  await setFact(tx, "revision", { ...at, entries: at.entries + 1 });
  return entries;
}

function number(born: Born[], by: string, enrolment: Enrolment, settled: Settled): PhoneEntry[] {
  let { n, last: prev } = enrolment;
  // Where the parts cannot be read no screen has shown them.
  const seen = readable(settled) ? settled.cursor : 0;
  return born.map(({ id, at, kind, module, about, body }) => {
    n += 1;
    const place = { id, device: enrolment.device, n, prev, epoch: settled.epoch, seen };
    prev = id;
    return { ...place, at, by, module, about, kind, body, rules: CURRENT };
  });
}

const names = (entry: PhoneEntry, photo: NewPhoto): boolean =>
  "sha256" in entry.body && entry.body.sha256 === photo.sha256;

const rowOf = (entry: PhoneEntry): EntryRow => ({
  id: entry.id,
  device: entry.device,
  n: entry.n,
  entry,
  state: "unsent",
});
