/** Where a screen gets a photo from: this phone's own shelf, the pictures kept here, else the server's rendition. */

import { deviceMillis } from "../clock";
import { reading, saving, type PictureRow } from "../db";
import { onShelf } from "./shelf";

export type Size = "screen" | "paper" | "thumb";

const SIZES: Size[] = ["screen", "paper", "thumb"];
const MOST_SHOWN = 100;
const MOST_FAILED = 3;
const PATIENCE = 30_000;
/** Other people's pictures stop well before words and this phone's own photos have to. */
const FULL = 0.6;

const shown = new Map<string, string>();

/** An address for an image element. With no signal it is one of a picture that this phone has, if need be in another
 * size; without any it is the server's address, and the element fails. */
export async function pictureOf(sha256: string, size: Size): Promise<string> {
  const key = `${sha256} ${size}`;
  const known = shown.get(key);
  if (known) return known;
  const bytes = (await onShelf(sha256)) ?? (await kept(sha256, size)) ?? (await fetched(sha256, size)) ?? (await anySize(sha256));
  return bytes ? show(key, bytes) : addressOf(sha256, size);
}

/** Fetches pictures that are not here yet, so that they can be looked at with no signal; gives up after a few failures. */
export async function bringPictures(wanted: readonly string[], size: Size): Promise<void> {
  let failed = 0;
  for (const sha256 of wanted) {
    if ((await onShelf(sha256)) || (await kept(sha256, size))) continue;
    if (await isFull()) return;
    if (!(await fetched(sha256, size))) failed += 1;
    if (failed >= MOST_FAILED) return;
  }
}

/** Pictures kept before this moment leave the phone; they can be fetched again. */
export async function clearPictures(before: number): Promise<void> {
  await saving(["pictures"], async (tx) => {
    const old = await tx.objectStore("pictures").index("kept").getAllKeys(IDBKeyRange.upperBound(before));
    for (const key of old) await tx.objectStore("pictures").delete(key);
  });
}

const addressOf = (sha256: string, size: Size): string => `/api/photos/${sha256}/${size}.jpg`;

function show(key: string, { bytes, media }: Pick<PictureRow, "bytes" | "media">): string {
  const [oldest] = shown;
  if (oldest && shown.size >= MOST_SHOWN) {
    URL.revokeObjectURL(oldest[1]);
    shown.delete(oldest[0]);
  }
  const address = URL.createObjectURL(new Blob([bytes], { type: media }));
  shown.set(key, address);
  return address;
}

const kept = (sha256: string, size: Size): Promise<PictureRow | undefined> =>
  reading(["pictures"], (tx) => tx.objectStore("pictures").get([sha256, size]));

async function anySize(sha256: string): Promise<PictureRow | undefined> {
  for (const size of SIZES) {
    const found = await kept(sha256, size);
    if (found) return found;
  }
  return undefined;
}

async function fetched(sha256: string, size: Size): Promise<PictureRow | undefined> {
  const bytes = await download(addressOf(sha256, size));
  if (!bytes) return undefined;
  const row: PictureRow = { sha256, size, bytes, media: "image/jpeg", kept: deviceMillis() };
  if (!(await isFull())) await saving(["pictures"], (tx) => tx.objectStore("pictures").put(row));
  return row;
}

/** The bytes of an answer that is a JPEG; undefined for everything else, no signal and captive portals included. */
async function download(address: string): Promise<ArrayBuffer | undefined> {
  try {
    const limit = AbortSignal.timeout(PATIENCE);
    const answer = await fetch(address, { redirect: "error", credentials: "same-origin", signal: limit });
    const media = answer.headers.get("Content-Type") ?? "";
    return answer.status === 200 && media.startsWith("image/jpeg") ? await answer.arrayBuffer() : undefined;
  } catch (error) {
    if (error instanceof TypeError || error instanceof DOMException) return undefined;
    throw error;
  }
}

async function isFull(): Promise<boolean> {
  const room = await globalThis.navigator?.storage?.estimate?.();
  return room?.quota !== undefined && (room.usage ?? 0) / room.quota > FULL;
}
