/** A logger's file goes to the office as it is: looked at first, then brought in by the plan that a person confirmed. */

import { ask, Trouble } from "../../ask";
import { state, syncNow } from "../../journal";
import { say } from "../../words";
import { when } from "../common";
import { planQuery, type FilePlan, type Looked, type TakenIn, type Told, type What } from "./filePlan";
import { whereKind, type Where } from "./measuring";

/** Why nothing came of it, in words: *what happened, what to do*. */
export class NoFile extends Error {}

/** A trouble in the person's language; an office that is newer than this phone may know one that is not in our words. */
export function toldWords({ key, text, ...values }: Told): string {
  const filled = Object.fromEntries(Object.entries(values).map(([name, value]) => [name, asSaid(value ?? "")]));
  const words = say(`loggers.${key}`, filled);
  return words === `loggers.${key}` ? text : words;
}

/** An instant as people in the yard say it. */
const asSaid = (value: string | number): string | number => (/^\d{4}-\d\d-\d\dT[\d:]+Z$/.test(String(value)) ? when(String(value)) : value);

export const lookAt = (what: What, file: ArrayBuffer, plan: Partial<FilePlan>): Promise<Looked> =>
  send(`/api/${what}/csv/look?${planQuery(plan).toString()}`, file) as unknown as Promise<Looked>;

export async function takeIn(what: What, file: ArrayBuffer, plan: FilePlan, where: Where, name: string): Promise<TakenIn> {
  const query = planQuery(plan);
  if (what === "readings") {
    query.set("where", whereKind(where));
    if (where.module !== null) query.set("module", where.module);
    if (where.room !== null) query.set("room", where.room);
    if (name.trim()) query.set("name", name.trim());
  }
  // A module that was added on this phone goes first: the office cannot take readings of what it does not know.
  if (state.peek().unsent > 0) await syncNow();
  const answer = await send(`/api/${what}/csv?${query.toString()}`, file);
  await syncNow();
  return answer as unknown as TakenIn;
}

async function send(path: string, file: ArrayBuffer): Promise<Record<string, unknown>> {
  try {
    const packed = await gzipped(file);
    const coding = packed === file ? {} : { "Content-Encoding": "gzip" };
    return await ask(path, { method: "POST", headers: { "Content-Type": "text/csv", ...coding }, body: packed });
  } catch (error) {
    if (!(error instanceof Trouble)) throw error;
    throw new NoFile(inWords(error));
  }
}

function inWords({ key, status, body }: Trouble): string {
  const told = body?.["trouble"];
  if (typeof told === "object" && told !== null) return toldWords(told as Told);
  if (status === 403) return say("air.file_not_yours");
  if (status === 413) return say("air.file_too_big");
  return say(key);
}

/** Thousands of lines are a tenth of their size on a phone's signal. */
async function gzipped(file: ArrayBuffer): Promise<ArrayBuffer> {
  if (typeof CompressionStream === "undefined" || file.byteLength === 0) return file;
  return new Response(new Blob([file]).stream().pipeThrough(new CompressionStream("gzip"))).arrayBuffer();
}
