/** Asking the server for a release. The asking has an id of its own, so that asking again after a lost answer is safe. */

import { post, Trouble } from "../ask";
import { deviceMillis, newId } from "../clock";
import { fact, reading, saving, setFact } from "../db";
import { PHONE_FIELDS, type Hold, type PhoneEntry } from "../rules";
import type { Drawn } from "./drawn";
import { readable } from "./form";
import { load } from "./parts";
import { syncNow } from "./sync";
import { NotWritten } from "./write";

/** `behind`: something on this module has come in that this phone had not seen; look again, then ask anew. */
export type ReleaseResult = { given: PhoneEntry } | { holds: Hold[]; behind: boolean; reason: string | null };

/** Needs the server: throws Trouble when there is no answer; asking again then is the same asking. */
export async function askRelease(module: string, seenFrom?: Drawn): Promise<ReleaseResult> {
  if (seenFrom?.changed()) throw new NotWritten("sync.redraw");
  const id = await askingId(module);
  const place = await reading(["meta"], async (tx) => ({
    device: (await fact(tx, "enrolment"))?.device,
    settled: await fact(tx, "settled"),
  }));
  if (!place.device || !place.settled) throw new NotWritten("sync.nobody");
  if (!readable(place.settled)) throw new NotWritten("sync.anew");
  const { epoch, cursor: seen, chain } = place.settled;
  try {
    const answer = await post("/api/release", { id, module, device: place.device, epoch, seen, chain });
    return await given(module, answer["entry"]);
  } catch (error) {
    if (!(error instanceof Trouble) || ![404, 409].includes(error.status)) throw error;
    await forget(module);
    return refused(error);
  }
}

async function askingId(module: string): Promise<string> {
  const fresh = newId();
  return saving(["asks"], async (tx) => {
    const known = await tx.objectStore("asks").get(module);
    if (!known) await tx.objectStore("asks").put({ module, id: fresh });
    return known?.id ?? fresh;
  });
}

async function forget(module: string): Promise<void> {
  await saving(["asks"], (tx) => tx.objectStore("asks").delete(module));
}

/** The whole entry stays here, to be offered again should a restored server have lost it. */
async function given(module: string, answer: unknown): Promise<ReleaseResult> {
  const whole = (answer ?? {}) as Record<string, unknown>;
  if (typeof whole["id"] !== "string" || whole["kind"] !== "release.given") throw new Trouble("sync.not_ours");
  const entry = Object.fromEntries(PHONE_FIELDS.map((name) => [name, whole[name]])) as unknown as PhoneEntry;
  const kept = deviceMillis();
  await saving(["meta", "entries", "asks"], async (tx) => {
    const { id, device, n } = entry;
    await tx.objectStore("entries").put({ id, device, n, entry, state: "settled", seq: Number(whole["seq"]), kept });
    await tx.objectStore("asks").delete(module);
    const at = (await fact(tx, "revision")) ?? { entries: 0, parts: 0 };
    await setFact(tx, "revision", { ...at, entries: at.entries + 1 });
  });
  await load();
  void syncNow();
  return { given: entry };
}

function refused({ body }: Trouble): ReleaseResult {
  const holds = Array.isArray(body?.["holds"]) ? (body["holds"] as Hold[]) : [];
  const reason = typeof body?.["reason"] === "string" ? body["reason"] : null;
  return { holds, behind: String(body?.["type"]).endsWith("behind"), reason };
}
