/** Unsent work as a file: the way out when no server will take it. */

import { localTime } from "../clock";
import { fact, reading, type PhotoRow } from "../db";

/** JSON with every entry that has no verdict and every photo that is not confirmed (bytes in base64). */
export async function exportUnsent(): Promise<Blob> {
  const found = await reading(["meta", "entries", "shelf"], async (tx) => {
    const entries = tx.objectStore("entries").index("state");
    const shelf = tx.objectStore("shelf").index("state");
    return {
      enrolment: (await fact(tx, "enrolment")) ?? null,
      entries: [...(await entries.getAll("stranded")), ...(await entries.getAll("unsent"))],
      photos: [...(await shelf.getAll("waiting")), ...(await shelf.getAll("ready"))],
    };
  });
  const { yard = null, device = null } = found.enrolment ?? {};
  const entries = found.entries.sort((a, b) => a.n - b.n).map(({ entry }) => entry);
  const whole = { rakelight_unsent: 1, yard, device, saved_at: localTime(), entries, photos: found.photos.map(asText) };
  return new Blob([JSON.stringify(whole, null, 1)], { type: "application/json" });
}

function asText({ sha256, media, bytes }: PhotoRow): Record<string, string> {
  let text = "";
  for (const byte of new Uint8Array(bytes)) text += String.fromCharCode(byte);
  return { sha256, media, base64: btoa(text) };
}

/** Hands the file to the browser to save. */
export async function saveUnsent(): Promise<void> {
  const address = URL.createObjectURL(await exportUnsent());
  const link = document.createElement("a");
  link.href = address;
  link.download = `rakelight-${localTime().slice(0, 10)}.json`;
  link.click();
  URL.revokeObjectURL(address);
}
