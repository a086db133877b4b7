/** Whether the browser would not keep more: the phone is full, or what it lends to this site is. */
export const isFull = (error: unknown): boolean => error instanceof DOMException && error.name === "QuotaExceededError";

/** For what may wait until there is room: false when it has to. What somebody wrote never goes this way. */
export async function ifRoom(work: Promise<unknown>): Promise<boolean> {
  try {
    await work;
    return true;
  } catch (error) {
    if (!isFull(error)) throw error;
    return false;
  }
}
