/** One request to our own server, and in plain words why it gave no answer that counts. */

/** Why nothing was sent or learnt; `key` is a sentence of words/sync.json. Everything is kept. */
export class Trouble extends Error {
  constructor(
    readonly key: string,
    readonly waitSeconds = 0,
    readonly body: Record<string, unknown> | null = null,
    readonly status = 0,
  ) {
    super(key);
  }
}

type Asking = Omit<RequestInit, "headers"> & { headers?: Record<string, string> };
const LONGEST = 60_000;
const BY_STATUS: Record<number, string> = {
  401: "sync.sign_in_again",
  403: "sync.refused",
  408: "sync.no_answer",
  413: "sync.too_big",
  429: "sync.busy",
  507: "sync.server_full",
  511: "sync.not_ours",
};

/** The JSON of a 2xx answer; anything else throws Trouble. A redirect is an error: it is never our server's. */
export async function ask(path: string, init: Asking = {}): Promise<Record<string, unknown>> {
  const answer = await reach(path, init);
  const body = await readJson(answer);
  if (answer.ok && body) return body;
  if (answer.ok) throw new Trouble("sync.not_ours");
  throw new Trouble(keyOf(answer.status, body), waitOf(answer), body, answer.status);
}

/** The same, with a JSON body. */
export const post = (path: string, body: object): Promise<Record<string, unknown>> =>
  ask(path, { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(body) });

async function reach(path: string, init: Asking): Promise<Response> {
  const limit = AbortSignal.timeout(LONGEST);
  const headers = { Accept: "application/json", ...init.headers };
  try {
    return await fetch(path, { ...init, headers, redirect: "error", credentials: "same-origin", cache: "no-store", signal: limit });
  } catch (error) {
    const offline = typeof navigator !== "undefined" && navigator.onLine === false;
    throw new Trouble(offline ? "sync.no_signal" : "sync.no_answer", 0, { reason: String(error) });
  }
}

async function readJson(answer: Response): Promise<Record<string, unknown> | null> {
  const media = answer.headers.get("Content-Type") ?? "";
  if (!/^application\/(problem\+)?json\b/.test(media)) return null;
  try {
    const body: unknown = JSON.parse(await answer.text());
    return typeof body === "object" && body !== null && !Array.isArray(body) ? (body as Record<string, unknown>) : null;
  } catch (error) {
    throw new Trouble("sync.cut_short", 0, { reason: String(error) });
  }
}

function keyOf(status: number, body: Record<string, unknown> | null): string {
  const type = String(body?.["type"] ?? "").replace(/^.*[/:#]/, "");
  if (["enrol", "unknown_device", "other_device"].includes(type)) return "sync.enrol";
  if (!body && status < 500 && status !== 413 && status !== 429) return "sync.not_ours";
  return BY_STATUS[status] ?? (status >= 500 ? "sync.server_trouble" : "sync.refused");
}

function waitOf(answer: Response): number {
  const seconds = Number(answer.headers.get("Retry-After"));
  return Number.isFinite(seconds) && seconds > 0 ? Math.min(seconds, 3600) : 0;
}
