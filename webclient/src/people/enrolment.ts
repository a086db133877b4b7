/** One enrolment of this phone in one yard, told by the server at sign-in and never used for another count of entries. */

import { fact, setFact, type Enrolment, type Reading, type Saving } from "../db";
import { FORM } from "../rules";

type Told = { yard: string; epoch: string; device: string };
type Held = Saving<"meta" | "entries" | "people" | "parts" | "staging" | "pictures">;

/** The enrolment to sign in on; undefined where a new enrolment is due: none yet, or the count of the old one is broken and
 * everything written under it has been heard. */
export async function asEnrolment(tx: Reading<"meta" | "entries">): Promise<Enrolment | undefined> {
  const enrolment = await fact(tx, "enrolment");
  const unsent = await tx.objectStore("entries").index("state").count("unsent");
  return enrolment?.anew && unsent === 0 ? undefined : enrolment;
}

/** Takes over what the server said at sign-in. Entries that can no longer be sent under their own enrolment are kept. */
export async function adopt(tx: Held, { yard, epoch, device }: Told): Promise<void> {
  const old = await fact(tx, "enrolment");
  if (old?.device === device && old.yard === yard) return;
  await strand(tx);
  if (old?.yard !== yard || !(await fact(tx, "settled"))) {
    await forgetYard(tx);
    await setFact(tx, "settled", { epoch, cursor: 0, chain: null, form: FORM });
  }
  const earlier = old?.yard === yard ? [...(old.earlier ?? []), old.device] : [];
  await setFact(tx, "enrolment", { yard, device, n: 0, last: null, anew: false, earlier });
  await bump(tx);
}

async function strand(tx: Held): Promise<void> {
  const entries = tx.objectStore("entries");
  for (const row of await entries.index("state").getAll("unsent")) await entries.put({ ...row, state: "stranded" });
}

/** Forgets what was pulled; the next sync begins at 0. Nothing written here is touched. */
export async function forgetYard(tx: Saving<"meta" | "people" | "parts" | "staging" | "pictures"> | Held): Promise<void> {
  const held = tx as Held;
  const settled = await fact(held, "settled");
  await held.objectStore("parts").clear();
  await held.objectStore("staging").clear();
  await held.objectStore("pictures").clear();
  await held.objectStore("meta").delete("staged");
  if (settled) await setFact(held, "settled", { ...settled, cursor: 0, chain: null, form: FORM });
  await bump(held);
}

async function bump(tx: Held): Promise<void> {
  const at = (await fact(tx, "revision")) ?? { entries: 0, parts: 0 };
  await setFact(tx, "revision", { entries: at.entries + 1, parts: at.parts + 1 });
}
