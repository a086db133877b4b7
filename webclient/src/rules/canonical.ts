/**
 * One byte string for one value: RFC 8785 for the subset that entries and parts use.
 *
 * Numbers are whole, keys ASCII, texts free of lone surrogates, so sorted tight JSON is already canonical.
 */

export const FIRST_LINK: Uint8Array<ArrayBuffer> = new Uint8Array(32);
export const PHONE_FIELDS = [
  "id", "device", "n", "prev", "epoch", "seen", "at", "by", "module", "about", "kind", "body", "rules",
] as const;

/** UTF-8 of the canonical text; TypeError for what has none: a lone surrogate, a broken number, a key without value. */
export function canonical(value: unknown): Uint8Array<ArrayBuffer> {
  return new TextEncoder().encode(canonicalText(value));
}

/** The canonical text itself: two values are the same when their texts are. */
export function canonicalText(value: unknown): string {
  if (value === null || typeof value === "boolean") return String(value);
  if (typeof value === "number") return wholeText(value);
  if (typeof value === "string") return quoted(value);
  if (Array.isArray(value)) return `[${value.map(canonicalText).join(",")}]`;
  if (typeof value !== "object") throw new TypeError(`no canonical text for ${typeof value}`);
  const row = value as Record<string, unknown>;
  const pairs = Object.keys(row).sort().map((key) => `${quoted(key)}:${canonicalText(row[key])}`);
  return `{${pairs.join(",")}}`;
}

/** Hex SHA-256. */
export async function sha256(data: Uint8Array<ArrayBuffer>): Promise<string> {
  const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", data));
  return Array.from(hash, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** The next 32 bytes of the chain from the last 32 and an entry's canonical bytes, server fields included. */
export async function link(
  previous: Uint8Array<ArrayBuffer>,
  entry: Uint8Array<ArrayBuffer>,
): Promise<Uint8Array<ArrayBuffer>> {
  const both = new Uint8Array(previous.length + entry.length);
  both.set(previous);
  both.set(entry, previous.length);
  return new Uint8Array(await crypto.subtle.digest("SHA-256", both));
}

function wholeText(value: number): string {
  if (!Number.isSafeInteger(value)) throw new TypeError(`not a whole number: ${value}`);
  return JSON.stringify(value);
}

function quoted(text: string): string {
  if (!text.isWellFormed()) throw new TypeError("a lone surrogate");
  return JSON.stringify(text);
}
