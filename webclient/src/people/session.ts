/** Whose hands the phone is in. Several people may be signed in on one phone; all of it works offline after the first time. */

import { signal } from "@preact/signals";
import { ask, post, Trouble } from "../ask";
import { deviceMillis, randomBytes } from "../clock";
import { fact, reading, saving, setFact, type PersonRow, type Saving } from "../db";
import { adopt, asEnrolment, forgetYard } from "./enrolment";
import { canDigest, digestOf, matches } from "./passcode";

export type Person = { id: string; name: string; roles: string[]; crew: string | null };
export type Session = {
  /** Who holds the phone and signs what is written on it. */
  holder: Person | null;
  /** Everyone who has signed in on this phone and may take it over with a passcode, offline too. */
  people: Person[];
  /** False when the server wants a sign-in before it takes anything more; writing goes on. */
  signedIn: boolean;
  device: string | null;
};
/** `key` is a sentence of words/signin.json, `seconds` how long to wait before another try. */
export type SignInResult = { ok: true } | { ok: false; key: string; seconds: number };

const NOBODY: Session = { holder: null, people: [], signedIn: false, device: null };
const FREE_TRIES = 5;
const FIRST_WAIT = 30_000;
const LONGEST_WAIT = 900_000;

export const session = signal<Session>(NOBODY);

/** Brings `session` up to what is kept. */
export async function readSession(): Promise<Session> {
  const found = await reading(["meta", "people"], async (tx) => {
    const people = (await tx.objectStore("people").getAll()).map(asPerson);
    const holder = await fact(tx, "holder");
    return {
      holder: people.find(({ id }) => id === holder) ?? null,
      people,
      signedIn: (await fact(tx, "signed_in")) ?? false,
      device: (await fact(tx, "enrolment"))?.device ?? null,
    };
  });
  // The same again is no news: nothing is drawn anew for it.
  if (JSON.stringify(found) !== JSON.stringify(session.peek())) session.value = found;
  return session.peek();
}

/** Signs in with the server; afterwards the phone works without it. */
export async function signIn(name: string, passcode: string): Promise<SignInResult> {
  if (!canDigest()) return { ok: false, key: "signin.insecure", seconds: 0 };
  const enrolment = await reading(["meta", "entries"], asEnrolment);
  try {
    const key = await deviceKey();
    let answer = await askSignIn(name, passcode, key, enrolment?.device);
    // The address serves another yard now: what was counted for the old one does not go on there.
    if (enrolment && answer.yard !== enrolment.yard) answer = await askSignIn(name, passcode, key);
    const digest = await digestOf(passcode);
    await saving(["meta", "entries", "people", "parts", "staging", "pictures"], async (tx) => {
      await tx.objectStore("people").put({ ...answer.person, ...digest, wrong: 0, wait: 0 });
      await adopt(tx, answer);
      await setFact(tx, "holder", answer.person.id);
      await setFact(tx, "signed_in", true);
    });
    await readSession();
    return { ok: true };
  } catch (error) {
    if (error instanceof Trouble) return { ok: false, key: signInKey(error), seconds: error.waitSeconds };
    throw error;
  }
}

/** By this the server knows the phone again: made and kept before it first goes out, so that a lost answer changes nothing. */
async function deviceKey(): Promise<string> {
  return saving(["meta"], async (tx) => {
    const kept = await fact(tx, "device_key");
    if (kept) return kept;
    const made = Array.from(randomBytes(32), (byte) => byte.toString(16).padStart(2, "0")).join("");
    await setFact(tx, "device_key", made);
    return made;
  });
}

async function askSignIn(name: string, passcode: string, key: string, device?: string): Promise<SignedIn> {
  return readSignIn(await post("/api/sign-in", { name, passcode, device_key: key, ...(device ? { device } : {}) }));
}

function signInKey(trouble: Trouble): string {
  if (trouble.status === 401) return "signin.wrong";
  if (trouble.status === 403) return "signin.other_phone";
  if (trouble.status === 409) return "signin.no_yard";
  if (trouble.status === 429) return "signin.wait";
  if (trouble.key === "sync.no_signal" || trouble.key === "sync.no_answer") return "signin.no_signal";
  return trouble.key;
}

type SignedIn = { person: Person; yard: string; epoch: string; device: string };

function readSignIn(answer: Record<string, unknown>): SignedIn {
  const { person, yard, epoch, device } = answer as Partial<SignedIn>;
  const texts = [yard, epoch, device, person?.id, person?.name].every((text) => typeof text === "string");
  if (!texts || !Array.isArray(person?.roles)) throw new Trouble("sync.not_ours");
  return { person: asPerson(person), yard: yard ?? "", epoch: epoch ?? "", device: device ?? "" };
}

const asPerson = ({ id, name, roles, crew }: Person): Person => ({ id, name, roles, crew: crew ?? null });

/** Hands the phone to another of its people: their passcode against the digest kept here; needs no signal. */
export async function switchTo(person: string, passcode: string): Promise<SignInResult> {
  const row = await reading(["people"], (tx) => tx.objectStore("people").get(person));
  if (!row) return { ok: false, key: "signin.not_here", seconds: 0 };
  const left = row.wait - deviceMillis();
  if (left > 0 && left <= LONGEST_WAIT) return { ok: false, key: "signin.wait", seconds: Math.ceil(left / 1000) };
  const right = await matches(passcode, row);
  await saving(["meta", "people"], async (tx) => {
    await tx.objectStore("people").put(right ? { ...row, wrong: 0, wait: 0 } : missed(row));
    if (right) await setFact(tx, "holder", person);
  });
  await readSession();
  return right ? { ok: true } : { ok: false, key: "signin.wrong", seconds: 0 };
}

function missed(row: PersonRow): PersonRow {
  const wrong = row.wrong + 1;
  const wait = wrong < FREE_TRIES ? 0 : Math.min(LONGEST_WAIT, FIRST_WAIT * 2 ** (wrong - FREE_TRIES));
  return { ...row, wrong, wait: wait ? deviceMillis() + wait : 0 };
}

/** Takes the holder off this phone. Unsent entries, their photos and drafts stay until they are sent, whoever signs in
 * next; when nobody is left, what the phone knew of the yard goes. */
export async function signOut(): Promise<void> {
  const holder = session.peek().holder?.id;
  await saving(["meta", "people", "parts", "staging", "pictures"], (tx) => leave(tx, holder));
  await readSession();
  try {
    await ask("/api/sign-out", { method: "POST" });
  } catch (error) {
    // Without signal the server's session simply runs out.
    if (!(error instanceof Trouble)) throw error;
  }
}

async function leave(tx: Saving<"meta" | "people" | "parts" | "staging" | "pictures">, holder: string | undefined): Promise<void> {
  if (holder) await tx.objectStore("people").delete(holder);
  await setFact(tx, "holder", null);
  await setFact(tx, "signed_in", false);
  if ((await tx.objectStore("people").count()) === 0) await forgetYard(tx);
}

/** Names for the sign-in list; those known to this phone when the server cannot be asked. */
export async function yardNames(): Promise<string[]> {
  try {
    const answer = await ask("/api/people/names");
    const names = answer["names"];
    if (Array.isArray(names)) return names.filter((name) => typeof name === "string");
  } catch (error) {
    if (!(error instanceof Trouble)) throw error;
  }
  return session.peek().people.map(({ name }) => name);
}
