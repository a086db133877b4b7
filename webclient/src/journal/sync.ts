/** One round trip after the other until nothing is left to push or pull. Safe to stop, repeat and run twice at any point. */

import { ask, Trouble } from "../ask";
import { deviceMillis, localTime } from "../clock";
import { fact, reading, saving, setFact, type Reading, type Settled } from "../db";
import { sendPhotos } from "../photos";
import { canonical, FORM, sha256, type PhoneEntry } from "../rules";
import { readable } from "./form";
import { ifRoom, isFull } from "./full";
import { onScreen } from "./open";
import { nextUp, unsentModules } from "./outbox";
import { load } from "./parts";
import { settle } from "./settle";
import { readState, setBusy, setProblem } from "./state";
import { isAnswer, pack, type Answer, type Call } from "./wire";

const MOST = 500;

let current: Promise<Trouble | null> | null = null;
let wanted = false;

/** Sends and fetches what there is; null when everything went, else why not (also in `state`). Never throws Trouble. */
export function syncNow(): Promise<Trouble | null> {
  wanted = true;
  current ??= run();
  return current;
}

async function run(): Promise<Trouble | null> {
  let trouble: Trouble | null = null;
  setBusy(true);
  try {
    while (wanted && !trouble) {
      wanted = false;
      trouble = await alone("rakelight-sync", whole);
    }
  } finally {
    current = null;
    setBusy(false);
  }
  setProblem(trouble?.key ?? null);
  await Promise.all([load(), readState()]);
  return trouble;
}

/** One page of the browser at a time, where the browser has locks; without them repeats are harmless anyway. */
function alone<T>(name: string, work: () => Promise<T>): Promise<T> {
  const locks = typeof navigator === "undefined" ? undefined : navigator.locks;
  return locks ? (locks.request(name, work) as Promise<T>) : work();
}

async function whole(): Promise<Trouble | null> {
  try {
    let form = await rounds();
    if ((await sendPhotos()) > 0) form = await rounds();
    return form === FORM ? null : new Trouble(form > FORM ? "sync.app_older" : "sync.app_newer");
  } catch (error) {
    // What was answered is asked again; what is written here is kept already.
    if (isFull(error)) return new Trouble("sync.no_room_half");
    if (!(error instanceof Trouble)) throw error;
    if (error.key === "sync.sign_in_again" || error.key === "sync.enrol") await signedOut();
    return error;
  }
}

async function signedOut(): Promise<void> {
  // A full phone is told so by its next sync again.
  await ifRoom(saving(["meta"], (tx) => setFact(tx, "signed_in", false)));
}

/** Until nothing is left; the form of the server's parts. */
async function rounds(): Promise<number> {
  let most = MOST;
  let form = FORM;
  for (;;) {
    const turn = await reading(["meta", "entries"], (tx) => readTurn(tx, most));
    if (!turn) return form;
    try {
      const told = await round(turn);
      form = told.form;
      if (!told.again) return form;
    } catch (error) {
      // A body that is too big goes in halves, down to one entry.
      if (!(error instanceof Trouble) || error.key !== "sync.too_big" || turn.entries.length < 2) throw error;
      most = Math.floor(turn.entries.length / 2);
    }
  }
}

type Turn = Pick<Call, "device" | "entries" | "open" | "aside"> & { n: number; at: Settled; left: boolean };

async function readTurn(tx: Reading<"meta" | "entries">, most: number): Promise<Turn | null> {
  const enrolment = await fact(tx, "enrolment");
  const at = (await fact(tx, "staged")) ?? (await fact(tx, "settled"));
  if (!enrolment || !at) return null;
  const rows = await nextUp(tx, enrolment.device, most + 1);
  const open = [...new Set([...((await fact(tx, "drawn")) ?? []), ...(await unsentModules(tx))])].sort();
  const going = rows.slice(0, most);
  const entries = going.map((row) => row.entry);
  const aside = going.filter((row) => row.reason !== undefined).map((row) => row.id);
  return { device: enrolment.device, n: enrolment.n, at, entries, aside, open, left: rows.length > most };
}

/** `again`: another round is due. */
async function round({ device, n, at, entries, aside, open, left }: Turn): Promise<{ form: number; again: boolean }> {
  const sent = deviceMillis();
  const { epoch, cursor, chain } = at;
  const form = readable(at) ? FORM : 0;
  const call: Call = { device, epoch, cursor, chain, last_n: n, open, sent_at: localTime(), aside, form, entries };
  const answer: unknown = await ask("/api/sync", { method: "POST", ...(await pack(call)) });
  if (!isAnswer(answer)) throw new Trouble("sync.not_ours");
  await compare(answer, entries);
  const more = await settle(answer, { at, device, open, sent }, onScreen());
  const heard = answer.verdicts.length > 0;
  const anew = !readable(at) && readable(answer);
  const onward = answer.cursor !== cursor || (readable(answer) && answer.chain !== chain);
  const moved = heard || anew || onward || answer.epoch !== epoch;
  if (!moved && (more || entries.length > 0)) throw new Trouble("sync.server_trouble");
  return { form: answer.form ?? 0, again: more || left || (!heard && entries.length > 0) };
}

/** Every verdict must be about an entry that was sent, and carry the hash of just what is kept here. */
async function compare(answer: Answer, entries: PhoneEntry[]): Promise<void> {
  const own = new Map(entries.map((entry) => [entry.id, entry]));
  for (const verdict of answer.verdicts) {
    const entry = own.get(verdict.id);
    if (!entry || (await sha256(canonical(entry))) !== verdict.sha256) throw new Trouble("sync.wrong_hash");
  }
}
