/** A digest of a passcode by which this phone knows its people again without the server.
 * A short passcode can be guessed by whoever takes the phone apart; it guards the hand-over, not the data. */

import { randomBytes } from "../clock";

export type Digest = { salt: string; digest: string; rounds: number };

const ROUNDS = 310_000;

/** Browsers digest only at a secure address: https, or this machine itself. */
export const canDigest = (): boolean => crypto.subtle !== undefined;

export async function digestOf(passcode: string): Promise<Digest> {
  const salt = randomBytes(16);
  return { salt: hex(salt), digest: await stretch(passcode, salt, ROUNDS), rounds: ROUNDS };
}

export async function matches(passcode: string, kept: Digest): Promise<boolean> {
  return (await stretch(passcode, bytes(kept.salt), kept.rounds)) === kept.digest;
}

async function stretch(passcode: string, salt: Uint8Array<ArrayBuffer>, iterations: number): Promise<string> {
  const secret = new TextEncoder().encode(passcode.normalize("NFC"));
  const key = await crypto.subtle.importKey("raw", secret, "PBKDF2", false, ["deriveBits"]);
  const bits = await crypto.subtle.deriveBits({ name: "PBKDF2", hash: "SHA-256", salt, iterations }, key, 256);
  return hex(new Uint8Array(bits));
}

const hex = (value: Uint8Array): string => Array.from(value, (byte) => byte.toString(16).padStart(2, "0")).join("");

function bytes(text: string): Uint8Array<ArrayBuffer> {
  return new Uint8Array((text.match(/../g) ?? []).map((pair) => parseInt(pair, 16)));
}
