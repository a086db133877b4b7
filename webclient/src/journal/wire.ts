/** The shapes of /api/sync, a guard for the answer, and the bytes of the call. */

import type { Part, PhoneEntry } from "../rules";

export type Call = {
  device: string;
  epoch: string;
  cursor: number;
  chain: string | null;
  last_n: number;
  open: string[];
  sent_at: string;
  /** Those of the entries that were set aside once: a server restored since must not take them for what it never saw. */
  aside: string[];
  /** Of the parts that this phone goes on from; 0, which no server has, where it can go on from none. */
  form: number;
  entries: PhoneEntry[];
};
/** `let_in`: why it had been set aside before it was let in. */
export type Verdict =
  | { id: string; sha256: string; seq: number; let_in?: string }
  | { id: string; sha256: string; set_aside: string };
export type Answer = {
  rakelight: 1;
  epoch: string;
  verdicts: Verdict[];
  parts: Part[];
  gone: string[];
  cursor: number;
  chain: string;
  n: number;
  more: boolean;
  now: string;
  rules: number;
  /** The cursor that this answer goes on from; 0 when the server did not know ours. */
  from?: number;
  /** Of the parts that this server has; 0 when it does not say. Without the same in the call it gives none. */
  form?: number;
};

type Shape = Record<string, unknown>;

function isShape(value: unknown): value is Shape {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function isCount(value: unknown): value is number {
  return Number.isSafeInteger(value) && (value as number) >= 0;
}

function isVerdict(value: unknown): value is Verdict {
  if (!isShape(value) || typeof value["id"] !== "string" || typeof value["sha256"] !== "string") return false;
  if (value["let_in"] !== undefined && typeof value["let_in"] !== "string") return false;
  return isCount(value["seq"]) !== (typeof value["set_aside"] === "string");
}

function isPart(value: unknown): value is Part {
  if (!isShape(value) || typeof value["part"] !== "string" || typeof value["id"] !== "string") return false;
  return isCount(value["seq"]) && (value["module"] === null || typeof value["module"] === "string");
}

function every<T>(value: unknown, guard: (each: unknown) => each is T): value is T[] {
  return Array.isArray(value) && value.every(guard);
}

/** Whether this is an answer of our server, whole, and not something else that said 200. */
export function isAnswer(value: unknown): value is Answer {
  if (!isShape(value) || value["rakelight"] !== 1) return false;
  const texts = [value["epoch"], value["chain"], value["now"]].every((text) => typeof text === "string");
  const counts = [value["cursor"], value["n"], value["rules"]].every(isCount);
  const isText = (each: unknown): each is string => typeof each === "string";
  const lists = every(value["verdicts"], isVerdict) && every(value["parts"], isPart) && every(value["gone"], isText);
  const told = [value["from"], value["form"]].every((count) => count === undefined || isCount(count));
  return texts && counts && lists && told && typeof value["more"] === "boolean";
}

/** JSON bytes, gzip where the browser can, and the headers that go with them. */
export async function pack(call: unknown): Promise<{ body: Uint8Array<ArrayBuffer>; headers: Record<string, string> }> {
  const plain = new TextEncoder().encode(JSON.stringify(call));
  const headers = { "Content-Type": "application/json" };
  if (typeof CompressionStream === "undefined") return { body: plain, headers };
  const squeezed = new Blob([plain]).stream().pipeThrough(new CompressionStream("gzip"));
  const body = new Uint8Array(await new Response(squeezed).arrayBuffer());
  return { body, headers: { ...headers, "Content-Encoding": "gzip" } };
}
