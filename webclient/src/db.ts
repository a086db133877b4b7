/** The phone's one database: its stores, its upgrades, and `saving()`, the only way anything is kept. */

import { openDB, type DBSchema, type IDBPDatabase, type IDBPTransaction, type StoreNames } from "idb";
import type { Part, PhoneEntry } from "./rules";

/** unsent: no verdict yet; taken: has a seq that the cursor has not passed (both are pending); settled: the cursor has
 * passed it; aside: set aside by the server; stranded: its enrolment ended before it could be
 * sent; offer: what a restored server may have lost and no count waits for, such as a release given here. */
export type EntryState = "unsent" | "taken" | "settled" | "aside" | "stranded" | "offer";
/** `reason`: why it was set aside, also when it was let in later. */
export type EntryRow = {
  id: string;
  device: string;
  n: number;
  entry: PhoneEntry;
  state: EntryState;
  seq?: number;
  reason?: string;
  kept?: number;
};
/** `bytes` is an ArrayBuffer because some engines cannot keep a Blob. */
export type PhotoRow = {
  sha256: string;
  bytes: ArrayBuffer;
  media: string;
  entries: string[];
  state: "waiting" | "ready" | "sent";
  kept: number;
};
/** A rendition of the server's, kept for looking at it with no signal. */
export type PictureRow = { sha256: string; size: string; bytes: ArrayBuffer; media: string; kept: number };
export type PersonRow = {
  id: string;
  name: string;
  roles: string[];
  crew: string | null;
  salt: string;
  digest: string;
  rounds: number;
  wrong: number;
  wait: number;
};
/** `earlier`: this phone's ended enrolments in the same yard. */
export type Enrolment = { yard: string; device: string; n: number; last: string | null; anew: boolean; earlier?: string[] };
/** `form`: of the parts that stand here; absent in what was kept before forms were told. */
export type Settled = { epoch: string; cursor: number; chain: string | null; form?: number };
export type Staged = Settled & { reset: boolean; gone: string[] };
/** By item: its number when it was saved here, and when that was (ms). */
export type Expected = Record<string, { number: number; kept: number }>;
export type Meta = {
  enrolment: Enrolment;
  settled: Settled;
  staged: Staged;
  holder: string | null;
  signed_in: boolean;
  device_key: string;
  clock_error: number;
  last_sent: string | null;
  drawn: string[];
  expected: Expected;
  revision: { entries: number; parts: number };
};
export type Ask = { module: string; id: string };

export interface Schema extends DBSchema {
  meta: { key: string; value: Meta[keyof Meta] };
  entries: { key: string; value: EntryRow; indexes: { state: string; place: [string, number] } };
  parts: { key: [string, string]; value: Part; indexes: { module: string } };
  staging: { key: [string, string]; value: Part; indexes: { module: string } };
  shelf: { key: string; value: PhotoRow; indexes: { state: string; entry: string } };
  pictures: { key: [string, string]; value: PictureRow; indexes: { kept: number } };
  drafts: { key: string; value: { value: unknown; kept: number } };
  people: { key: string; value: PersonRow };
  asks: { key: string; value: Ask };
}
export type Store = StoreNames<Schema>;
export type Saving<N extends Store> = IDBPTransaction<Schema, N[], "readwrite">;
export type Reading<N extends Store> = IDBPTransaction<Schema, N[], "readonly">;

const NAME = "rakelight";
const VERSION = 1;
const LOST = ["InvalidStateError", "UnknownError", "AbortError"];

let opened: Promise<IDBPDatabase<Schema>> | null = null;
let channel: BroadcastChannel | null = null;
const listeners = new Set<() => unknown>();

/** Upgrades only ever add: a store that holds unsent work is never dropped or rebuilt. */
function upgrade(db: IDBPDatabase<Schema>, old: number): void {
  if (old >= 1) return;
  db.createObjectStore("meta");
  const entries = db.createObjectStore("entries", { keyPath: "id" });
  entries.createIndex("state", "state");
  entries.createIndex("place", ["device", "n"], { unique: true });
  db.createObjectStore("parts", { keyPath: ["part", "id"] }).createIndex("module", "module");
  db.createObjectStore("staging", { keyPath: ["part", "id"] }).createIndex("module", "module");
  const shelf = db.createObjectStore("shelf", { keyPath: "sha256" });
  shelf.createIndex("state", "state");
  shelf.createIndex("entry", "entries", { multiEntry: true });
  db.createObjectStore("pictures", { keyPath: ["sha256", "size"] }).createIndex("kept", "kept");
  db.createObjectStore("drafts");
  db.createObjectStore("people", { keyPath: "id" });
  db.createObjectStore("asks", { keyPath: "module" });
}

function open(): Promise<IDBPDatabase<Schema>> {
  opened ??= openDB<Schema>(NAME, VERSION, {
    upgrade,
    blocking: (_now, _next, event) => {
      opened = null;
      (event.target as IDBDatabase).close();
    },
    terminated: () => {
      opened = null;
    },
  }).catch((error: unknown) => {
    opened = null;
    throw error;
  });
  return opened;
}

/** Some phones drop the connection while the app is in the background; then it is opened again, once. */
async function steady<T>(work: (db: IDBPDatabase<Schema>) => Promise<T>): Promise<T> {
  try {
    return await work(await open());
  } catch (error) {
    if (!(error instanceof DOMException) || !LOST.includes(error.name)) throw error;
    opened = null;
    return work(await open());
  }
}

/** One transaction over the named stores, with strict durability; resolves only when it is complete, else keeps nothing.
 * `work` awaits nothing but the transaction, and may run twice: ids are made outside it. */
export async function saving<N extends Store, T>(stores: N[], work: (tx: Saving<N>) => Promise<T>): Promise<T> {
  const result = await steady(async (db) => {
    const tx = db.transaction(stores, "readwrite", { durability: "strict" });
    tx.done.catch(heardBelow);
    try {
      const value = await work(tx);
      await tx.done;
      return value;
    } catch (error) {
      const reason = tx.error ?? error;
      abort(tx);
      throw reason;
    }
  });
  tell();
  return result;
}

function abort(tx: { abort(): void }): void {
  try {
    tx.abort();
  } catch (error) {
    // It has ended already: what was asked for has happened.
    if (!(error instanceof DOMException)) throw error;
  }
}

/** One consistent look at the named stores. */
export function reading<N extends Store, T>(stores: N[], work: (tx: Reading<N>) => Promise<T>): Promise<T> {
  return steady(async (db) => {
    const tx = db.transaction(stores, "readonly");
    tx.done.catch(heardBelow);
    return work(tx);
  });
}

/** The end of a transaction is a promise of its own; whoever awaits the work hears of a failure there. */
function heardBelow(): void {
  return;
}

/** The three things that a transaction may do with one fact of `meta`. */
export async function fact<K extends keyof Meta>(
  tx: { objectStore(name: "meta"): { get(key: string): Promise<Meta[keyof Meta] | undefined> } },
  key: K,
): Promise<Meta[K] | undefined> {
  return (await tx.objectStore("meta").get(key)) as Meta[K] | undefined;
}

export async function setFact<K extends keyof Meta>(
  tx: { objectStore(name: "meta"): { put(value: Meta[keyof Meta], key: string): Promise<unknown> } },
  key: K,
  value: Meta[K],
): Promise<void> {
  await tx.objectStore("meta").put(value, key);
}

/** Called after something was kept, by this page or another one of this browser. */
export function onKept(listener: () => unknown): () => void {
  if (!channel && typeof BroadcastChannel !== "undefined") {
    channel = new BroadcastChannel(NAME);
    channel.onmessage = () => {
      for (const each of listeners) each();
    };
    (channel as { unref?: () => void }).unref?.();
  }
  listeners.add(listener);
  return () => listeners.delete(listener);
}

function tell(): void {
  for (const each of listeners) each();
  channel?.postMessage("kept");
}

/** Closes the connection; tests use it as the end of a page. */
export async function closeDb(): Promise<void> {
  const db = await opened;
  opened = null;
  db?.close();
  channel?.close();
  channel = null;
  listeners.clear();
}
