/** Photos at rest on this phone, as ArrayBuffers, until the server has confirmed the same hash and 30 days more. */

import { deviceMillis } from "../clock";
import { reading, saving, type PhotoRow } from "../db";

export type NewPhoto = { sha256: string; bytes: ArrayBuffer; media: string };
/** Any transaction that spans the shelf. */
type OnShelf = { objectStore(name: "shelf"): Shelf };
type Shelf = {
  get(key: string): Promise<PhotoRow | undefined>;
  put(row: PhotoRow): Promise<unknown>;
  index(name: "entry"): { getAll(key: string): Promise<PhotoRow[]> };
};

/** Lays a photo on the shelf in the transaction of the entries that name it; they must arrive before it may go. */
export async function layOn(tx: OnShelf, photo: NewPhoto, entries: string[]): Promise<void> {
  const shelf = tx.objectStore("shelf");
  const known = await shelf.get(photo.sha256);
  await shelf.put({
    sha256: photo.sha256,
    bytes: known?.bytes ?? photo.bytes,
    media: known?.media ?? photo.media,
    entries: [...(known?.entries ?? []), ...entries],
    state: known?.state ?? "waiting",
    kept: deviceMillis(),
  });
}

/** The server has these entries, in the journal or set aside: their photos may go. */
export async function mayGo(tx: OnShelf, entry: string): Promise<void> {
  await restate(tx, entry, (row) => (row.state === "waiting" ? "ready" : row.state));
}

/** The server may have lost these entries: their photos wait and go again. */
export async function goAgain(tx: OnShelf, entry: string): Promise<void> {
  await restate(tx, entry, () => "waiting");
}

async function restate(tx: OnShelf, entry: string, next: (row: PhotoRow) => PhotoRow["state"]): Promise<void> {
  const shelf = tx.objectStore("shelf");
  for (const row of await shelf.index("entry").getAll(entry)) await shelf.put({ ...row, state: next(row) });
}

/** Hashes of the photos that the server has not confirmed, those that may go first. */
export async function unsentPhotos(state: "ready" | "waiting"): Promise<string[]> {
  return reading(["shelf"], (tx) => tx.objectStore("shelf").index("state").getAllKeys(state));
}

/** A photo that this phone still has. */
export async function onShelf(sha256: string): Promise<PhotoRow | undefined> {
  return reading(["shelf"], (tx) => tx.objectStore("shelf").get(sha256));
}

/** The server has confirmed this hash. */
export async function confirmed(sha256: string): Promise<void> {
  await saving(["shelf"], async (tx) => {
    const row = await tx.objectStore("shelf").get(sha256);
    if (row) await tx.objectStore("shelf").put({ ...row, state: "sent", kept: deviceMillis() });
  });
}

/** Photos confirmed before this moment leave the phone. */
export async function clearShelf(before: number): Promise<void> {
  await saving(["shelf"], async (tx) => {
    const sent = await tx.objectStore("shelf").index("state").getAll("sent");
    for (const row of sent) if (row.kept < before) await tx.objectStore("shelf").delete(row.sha256);
  });
}
