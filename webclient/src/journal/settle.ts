/** One answer of the server, taken in whole or not at all. */

import { deviceMillis, readInstant } from "../clock";
import { fact, saving, setFact, type Saving, type Settled, type Staged } from "../db";
import { FORM } from "../rules";
import { forgetMet } from "./expected";
import { readable } from "./form";
import { breakCount, judge, nextUp, offerAgain, passCursor } from "./outbox";
import type { Answer } from "./wire";

/** What was asked: where the phone stood, which modules it called open, and when, by its own clock. */
export type Asked = { at: Settled; device: string; open: string[]; sent: number };
type Held = Saving<"meta" | "entries" | "parts" | "staging" | "shelf">;
const STORES: ("meta" | "entries" | "parts" | "staging" | "shelf")[] = ["meta", "entries", "parts", "staging", "shelf"];

/** True when there is more to pull or to offer again. Verdicts count at once; parts wait in staging until the last page. */
export async function settle(answer: Answer, asked: Asked, onScreen: string | null): Promise<boolean> {
  const received = deviceMillis();
  return saving(STORES, async (tx) => {
    await setFact(tx, "clock_error", Math.round(readInstant(answer.now) - (asked.sent + received) / 2));
    await setFact(tx, "signed_in", true);
    const newEpoch = answer.epoch !== asked.at.epoch;
    await judge(tx, answer.verdicts);
    const restored = newEpoch || (asked.at.cursor > 0 && startsOver(answer, asked, newEpoch) !== "no");
    const again = await offerAgain(tx, { device: asked.device, n: answer.n, restored });
    if (answer.verdicts.length > 0 || !answer.more) await setFact(tx, "last_sent", answer.now);
    const enrolment = await fact(tx, "enrolment");
    if (enrolment?.device === asked.device && answer.n > enrolment.n) await breakCount(tx);
    const more = (await movedOn(tx, asked)) || (await takeIn(tx, answer, asked, newEpoch));
    if (!more) await setFact(tx, "drawn", await stillOpen(tx, asked.open, onScreen));
    await bump(tx, again || answer.verdicts.length > 0, !more);
    return more || again;
  });
}

async function bump(tx: Held, entries: boolean, parts: boolean): Promise<void> {
  const at = (await fact(tx, "revision")) ?? { entries: 0, parts: 0 };
  const next = { entries: at.entries + (entries || parts ? 1 : 0), parts: at.parts + (parts ? 1 : 0) };
  await setFact(tx, "revision", next);
}

/** Whether another page of this browser has pulled meanwhile: then these parts may be older than what is here. */
async function movedOn(tx: Held, { at }: Asked): Promise<boolean> {
  const now = (await fact(tx, "staged")) ?? (await fact(tx, "settled"));
  return now?.epoch !== at.epoch || now.cursor !== at.cursor || now.chain !== at.chain || now.form !== at.form;
}

async function stillOpen(tx: Held, told: string[], onScreen: string | null): Promise<string[]> {
  const later = ((await fact(tx, "drawn")) ?? []).filter((module) => !told.includes(module));
  return [...new Set(onScreen ? [...later, onScreen] : later)];
}

/** Whether the parts are those of a fresh start. A server that does not say where it went on from is asked again from 0. */
function startsOver(answer: Answer, asked: Asked, newEpoch: boolean): "no" | "yes" | "ask" {
  if (asked.at.cursor === 0) return "yes";
  if (answer.from !== undefined) return answer.from < asked.at.cursor ? "yes" : "no";
  return newEpoch || answer.cursor < asked.at.cursor ? "ask" : "no";
}

async function takeIn(tx: Held, answer: Answer, asked: Asked, newEpoch: boolean): Promise<boolean> {
  const over = startsOver(answer, asked, newEpoch);
  if (!readable(answer) || !readable(asked.at)) return untilReadable(tx, answer, asked, newEpoch || over !== "no");
  const before = over === "no" ? await fact(tx, "staged") : undefined;
  if (!before) await tx.objectStore("staging").clear();
  const reset = before?.reset ?? over !== "no";
  if (over === "ask") {
    await fromNothing(tx, answer.epoch);
    return true;
  }
  const { epoch, cursor, chain } = answer;
  const form = FORM;
  const gone = [...new Set([...(before?.gone ?? []), ...answer.gone])];
  await stage(tx, answer);
  if (answer.more) await setFact(tx, "staged", { epoch, cursor, chain, form, reset, gone });
  else await replace(tx, { epoch, cursor, chain, form, reset, gone });
  return answer.more;
}

/** Where this phone's parts or the server's are of another form. True when everything is pulled anew from now on: by a
 * phone whose own are old, once it has sent what it wrote, since that counts for what its author had seen only while the
 * calls say how far the phone had pulled. `elsewhere`: the server stands in another past, where that is judged otherwise. */
async function untilReadable(tx: Held, answer: Answer, asked: Asked, elsewhere: boolean): Promise<boolean> {
  if (!readable(answer)) {
    // Nothing can be pulled before one of the two follows; what is kept of another past is of no use then.
    if (elsewhere) await fromNothing(tx, answer.epoch);
    return false;
  }
  const sent = (await nextUp(tx, asked.device, 1)).length === 0;
  if (!sent && !elsewhere) return false;
  await fromNothing(tx, answer.epoch);
  return true;
}

/** The next call asks from 0; the screens keep what they have until all of it is there. */
async function fromNothing(tx: Held, epoch: string): Promise<void> {
  await tx.objectStore("staging").clear();
  await setFact(tx, "staged", { epoch, cursor: 0, chain: null, form: FORM, reset: true, gone: [] });
}

async function stage(tx: Held, answer: Answer): Promise<void> {
  for (const module of answer.gone) await dropModule(tx, "staging", module);
  for (const part of answer.parts) await tx.objectStore("staging").put(part);
}

async function dropModule(tx: Held, store: "parts" | "staging", module: string): Promise<void> {
  const parts = tx.objectStore(store);
  for (const key of await parts.index("module").getAllKeys(module)) await parts.delete(key);
}

/** What screens read becomes the new state at once. */
async function replace(tx: Held, { reset, gone, ...settled }: Staged): Promise<void> {
  if (reset) await tx.objectStore("parts").clear();
  for (const module of gone) await dropModule(tx, "parts", module);
  for (const part of await tx.objectStore("staging").getAll()) await tx.objectStore("parts").put(part);
  await tx.objectStore("staging").clear();
  await tx.objectStore("meta").delete("staged");
  await setFact(tx, "settled", settled);
  await passCursor(tx, settled.cursor);
  await forgetMet(tx);
}
