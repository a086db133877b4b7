/** Photos travel apart, by their hash, after the entry that names them. */

import { ask, Trouble } from "../ask";
import { confirmed, onShelf, unsentPhotos } from "./shelf";

/** Sends every photo that may go, one after the other, and says how many went; each stays on the shelf until the server
 * has confirmed its hash. One that is refused does not hold up the others; the first Trouble is thrown at the end. */
export async function sendPhotos(): Promise<number> {
  let sent = 0;
  let first: Trouble | null = null;
  for (const sha256 of await unsentPhotos("ready")) {
    try {
      if (await send(sha256)) sent += 1;
    } catch (error) {
      if (!(error instanceof Trouble) || !onlyThisOne(error)) throw error;
      first ??= error;
    }
  }
  if (first) throw first;
  return sent;
}

async function send(sha256: string): Promise<boolean> {
  const row = await onShelf(sha256);
  if (!row) return false;
  const headers = { "Content-Type": row.media };
  const answer = await ask(`/api/photos/${sha256}`, { method: "PUT", body: row.bytes, headers });
  if (answer["sha256"] !== sha256) throw new Trouble("sync.wrong_hash");
  await confirmed(sha256);
  return true;
}

const onlyThisOne = ({ status }: Trouble): boolean => [400, 404, 409, 413, 415, 422].includes(status);
