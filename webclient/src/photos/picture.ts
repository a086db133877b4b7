/** Where a screen gets a photo from: this phone while it has it, else the server's rendition. */

import { onShelf } from "./shelf";

export type Size = "screen" | "paper" | "thumb";

const shown = new Map<string, string>();

/** An address for an image element. Works offline for photos taken on this phone in the last 30 days. */
export async function pictureOf(sha256: string, size: Size): Promise<string> {
  const known = shown.get(sha256);
  if (known) return known;
  const row = await onShelf(sha256);
  if (!row) return `/api/photos/${sha256}/${size}.jpg`;
  const address = URL.createObjectURL(new Blob([row.bytes], { type: row.media }));
  shown.set(sha256, address);
  return address;
}
