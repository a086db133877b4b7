/** A note outside the database, by which the app sees that the browser has cleared it. */

const KEY = "rakelight.installed";

/** Kept at each change: whose enrolment this was, and how much was unsent. */
export function remember(device: string, unsent: number): void {
  try {
    localStorage.setItem(KEY, JSON.stringify({ device, unsent }));
  } catch (error) {
    // Without this note only the warning is lost, nothing that was written.
    if (!(error instanceof DOMException)) throw error;
  }
}

/** How much was unsent when last seen, on a phone whose database is empty now; null where nothing is missing. */
export function evicted(): number | null {
  const text = typeof localStorage === "undefined" ? null : localStorage.getItem(KEY);
  if (!text) return null;
  const note: unknown = JSON.parse(text);
  const unsent = (note as { unsent?: unknown }).unsent;
  return typeof unsent === "number" ? unsent : 0;
}
