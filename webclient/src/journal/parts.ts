/** What screens read: settled parts with this phone's pending entries folded over them. */

import { batch, computed, signal, type ReadonlySignal } from "@preact/signals";
import { fact, onKept, reading, type EntryRow, type Expected, type Reading, type Settled } from "../db";
import { setClockError } from "../clock";
import { FORM, partKey, type Part, type PartKind, type PartOf } from "../rules";
import { foldPending, type Parts } from "./folding";
import { readable } from "./form";

type Revision = { entries: number; parts: number };
const NOWHERE: Settled = { epoch: "", cursor: 0, chain: null, form: FORM };
const NOTHING: Revision = { entries: -1, parts: -1 };

/** Which state of the database the screens are drawn from. */
export let revision: Revision = NOTHING;
export const settledAt = signal<Settled>(NOWHERE);
export const pending = signal<EntryRow[]>([]);
export const expected = signal<Expected>({});
const settledParts = signal<Parts>(new Map());
const folded = computed(() => foldPending(settledParts.value, pending.value));

let running: Promise<void> | null = null;
let again = false;

/** Brings memory up to what is kept. Calls made meanwhile share one more look. */
export function load(): Promise<void> {
  again = true;
  running ??= look();
  return running;
}

async function look(): Promise<void> {
  try {
    while (again) {
      again = false;
      const found = await reading(["meta", "entries", "parts"], read);
      batch(() => show(found));
    }
  } finally {
    running = null;
  }
}

type Found = { at: Revision; settled: Settled; error: number; numbers: Expected; rows: EntryRow[] | null; parts: Part[] | null };

async function read(tx: Reading<"meta" | "entries" | "parts">): Promise<Found> {
  const at = (await fact(tx, "revision")) ?? { entries: 0, parts: 0 };
  const kept = (await fact(tx, "settled")) ?? NOWHERE;
  // Rules of another form would stumble over these parts: it is as if nothing had been pulled yet.
  const settled = readable(kept) ? kept : { ...kept, cursor: 0, chain: null };
  const error = (await fact(tx, "clock_error")) ?? 0;
  const numbers = (await fact(tx, "expected")) ?? {};
  const rows = at.entries === revision.entries ? null : await pendingRows(tx);
  const parts = at.parts === revision.parts ? null : readable(kept) ? await tx.objectStore("parts").getAll() : [];
  return { at, settled, error, numbers, rows, parts };
}

function show(found: Found): void {
  setClockError(found.error);
  revision = found.at;
  const sameEpoch = settledAt.peek().epoch === found.settled.epoch;
  settledAt.value = found.settled;
  // The same again is no news: nothing is drawn anew for it.
  if (JSON.stringify(found.numbers) !== JSON.stringify(expected.peek())) expected.value = found.numbers;
  if (found.parts) settledParts.value = recall(found.parts, sameEpoch ? settledParts.peek() : new Map());
  if (found.rows) pending.value = found.rows;
}

/** Parts by key; one that nobody has touched since stays the same object. */
function recall(parts: Part[], before: Parts): Parts {
  const same = (part: Part): Part => {
    const old = before.get(partKey(part.part, part.id));
    return old?.seq === part.seq ? old : part;
  };
  return new Map(parts.map((part) => [partKey(part.part, part.id), same(part)]));
}

/** Every entry that is not yet in the settled parts, in the order written. */
export async function pendingRows(tx: {
  objectStore(name: "entries"): { index(name: "state"): { getAll(key: string): Promise<EntryRow[]> } };
}): Promise<EntryRow[]> {
  const byState = tx.objectStore("entries").index("state");
  const rows = [...(await byState.getAll("unsent")), ...(await byState.getAll("taken"))];
  return rows.sort((a, b) => a.n - b.n);
}

const views = new Map<string, ReadonlySignal<Part[]>>();
const none: Part[] = [];

/** A list that keeps its identity while none of its parts changed, so that a screen is not drawn for nothing. */
function view(name: string, wanted: (part: Part) => boolean): ReadonlySignal<Part[]> {
  const known = views.get(name);
  if (known) return known;
  let last = none;
  const made = computed(() => {
    const found = [...folded.value.values()].filter(wanted);
    const same = found.length === last.length && found.every((part, at) => part === last[at]);
    if (!same) last = found;
    return last;
  });
  views.set(name, made);
  return made;
}

/** All parts of a module. */
export const partsOf = (module: string): ReadonlySignal<Part[]> =>
  view(`module ${module}`, (part) => part.module === module);

/** All parts of one kind. */
export const all = <K extends PartKind>(kind: K): ReadonlySignal<PartOf<K>[]> =>
  view(`kind ${kind}`, (part) => part.part === kind) as ReadonlySignal<PartOf<K>[]>;

/** One part as it stands now, drawn again when it changes; undefined when this phone does not have it. */
export const partNow = <K extends PartKind>(kind: K, id: string): PartOf<K> | undefined =>
  folded.value.get(partKey(kind, id)) as PartOf<K> | undefined;

/** The same, drawing nothing from it. */
export const peekPart = <K extends PartKind>(kind: K, id: string): PartOf<K> | undefined =>
  folded.peek().get(partKey(kind, id)) as PartOf<K> | undefined;

/** Every part, for drawing nothing: comparisons only. */
export const peekParts = (): Parts => folded.peek();

/** Keeps memory up with this and the browser's other pages, from now on. */
export function follow(): () => void {
  return onKept(() => void load());
}
